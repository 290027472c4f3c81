using Catalogue.Model.Inspections;

namespace Catalogue.Web.Features.Shared;

/// <summary>How an orientation is said to somebody who has to lay the part down that way.</summary>
internal static class OrientationWords
{
    /// <summary>The ways to show: those advised, then the file's own pose for comparison. Their places in the list are in the addresses of their pictures.</summary>
    public static IReadOnlyList<OrientationReport> Rows(OrientationsReport? report) =>
        report is null ? [] : [.. report.Advised, .. report.AsTheFileLies is { } lies ? [lies] : Array.Empty<OrientationReport>()];

    /// <summary>The turns to type in, in their order, those of nothing left out: “90° about x, then −45° about z”; null when it stays as the file lies.</summary>
    public static string? Turns(OrientationReport orientation)
    {
        ArgumentNullException.ThrowIfNull(orientation);
        var turns = orientation.TurnDegrees.Zip("xyz").Where(t => Math.Abs(t.First) >= 0.5)
            .Select(t => T($"{(t.First < 0 ? "−" : "")}{Math.Abs(t.First):0}°\u00A0about\u00A0{t.Second}")).ToList();
        return turns.Count == 0 ? null : Wording.Then(turns);
    }

    /// <summary>What it is best at among those shown, “lowest, least touched by supports”; and that it falls over, where it does.</summary>
    public static string Merits(OrientationReport orientation)
    {
        var merits = orientation.BestIn.Select(code => code switch
        {
            "contact" => T($"least touched by supports"),
            "height" => T($"lowest"),
            "marked" => T($"fewest marks"),
            "pools" => T($"least liquid kept"),
            "suction" => T($"least suction"),
            _ => code,
        });
        return string.Join(", ", orientation.Stands ? merits : merits.Append(T($"needs something to hold it")));
    }

    public static string SquareCentimetres(double mm2) => (mm2 / 100).ToString("0.##", Language.Current.Numbers) + "\u00A0cm²";

    public static string CubicCentimetres(double mm3) => (mm3 / 1000).ToString("0.##", Language.Current.Numbers) + "\u00A0cm³";
}
