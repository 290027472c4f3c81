using System.Globalization;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Figures;

/// <summary>Hardware, joints and licences in words for people.</summary>
internal static class FigureWords
{
    public static string Of(HardwareKind kind) => kind switch
    {
        HardwareKind.Other => "other",
        _ => kind.ToString().ToLowerInvariant(),
    };

    public static string Of(JointKind kind) => kind switch
    {
        JointKind.PopInBall => "pop-in ball",
        JointKind.PlugInSleeve => "plug-in sleeve",
        JointKind.PinnedHinge => "pinned hinge",
        JointKind.PressFit => "press fit",
        JointKind.Glued => "glued",
        _ => "retracting",
    };

    /// <summary>“4 × shoulder rod”.</summary>
    public static string Short(HardwareNeed need)
    {
        ArgumentNullException.ThrowIfNull(need);
        return string.Create(CultureInfo.InvariantCulture, $"{need.Quantity} × {need.Name}");
    }

    /// <summary>True when the size's own words name the diameter already.</summary>
    public static bool SaysDiameter(HardwareNeed need)
    {
        ArgumentNullException.ThrowIfNull(need);
        return need.DiameterMm is { } mm && need.Size.Contains(mm.ToString("0.##", CultureInfo.InvariantCulture), StringComparison.Ordinal);
    }

    /// <summary>The dimensions of a joint that are known, each with its name.</summary>
    public static IEnumerable<(string Name, string Length)> Dimensions(Joint joint, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(joint);
        var (inner, outer) = joint.Kind switch
        {
            JointKind.PopInBall => ("ball", "socket"),
            JointKind.PlugInSleeve => ("plug", "sleeve"),
            JointKind.PinnedHinge => ("pin", "hole"),
            JointKind.Retracting => ("thickness", "seat"),
            _ => ("inner", "outer"),
        };
        if (joint.InnerDiameterMm is { } d) yield return (inner, (joint.Kind == JointKind.Retracting ? "" : "Ø ") + lengths.Of(d));
        if (joint.OuterDiameterMm is { } o) yield return (outer, "Ø " + lengths.Of(o));
        if (joint.MouthDiameterMm is { } m) yield return ("mouth", "Ø " + lengths.Of(m));
        if (joint.LengthMm is { } l) yield return ("length", lengths.Of(l));
    }

    /// <summary>The public page of a licence named by a single SPDX identifier; null for an expression.</summary>
    public static string? LicencePage(string spdx)
    {
        ArgumentNullException.ThrowIfNull(spdx);
        return spdx.Length > 0 && spdx.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '.' or '+') && !spdx.StartsWith("LicenseRef", StringComparison.Ordinal)
            ? $"https://spdx.org/licenses/{spdx}.html"
            : null;
    }
}
