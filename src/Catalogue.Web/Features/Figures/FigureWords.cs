using System.Globalization;
using Catalogue.Model.Cautions;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Figures;

/// <summary>Hardware, dimensions of joints, cautions and licences in words for people.</summary>
internal static class FigureWords
{
    /// <summary>“4 × shoulder rod”.</summary>
    public static string Short(HardwareNeed need)
    {
        ArgumentNullException.ThrowIfNull(need);
        return string.Create(CultureInfo.InvariantCulture, $"{need.Quantity} × {need.Name}");
    }

    /// <summary>The title of a caution within a sentence; German keeps the capital of its nouns.</summary>
    public static string Within(Caution caution)
    {
        ArgumentNullException.ThrowIfNull(caution);
        var title = caution.Title.ToString();
        return Language.Current == Language.German ? title : title.ToLower(Language.Current.Culture);
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
            JointKind.PopInBall => (T($"ball"), T($"socket")),
            JointKind.PlugInSleeve => (T($"plug"), T($"sleeve")),
            JointKind.PinnedHinge => (T($"pin"), T($"hole")),
            JointKind.Retracting => (T($"thickness"), T($"seat")),
            _ => (T($"inner"), T($"outer")),
        };
        if (joint.InnerDiameterMm is { } d) yield return (inner, (joint.Kind == JointKind.Retracting ? "" : "Ø ") + lengths.Of(d));
        if (joint.OuterDiameterMm is { } o) yield return (outer, "Ø " + lengths.Of(o));
        if (joint.MouthDiameterMm is { } m) yield return (T($"mouth"), "Ø " + lengths.Of(m));
        if (joint.LengthMm is { } l) yield return (T($"length"), lengths.Of(l));
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
