using System.Globalization;
using Catalogue.Model.Repair;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Drafts;

/// <summary>One line of the table that shows a mesh before and after a repair.</summary>
internal sealed record RepairRow(string What, string Before, string After)
{
    public bool Changed => Before != After;
}

/// <summary>The table: flaws that are there before or after, then pieces, triangles, size where it changes, volume, area.</summary>
internal static class RepairRows
{
    public static IReadOnlyList<RepairRow> Of(RepairState before, RepairState after, Lengths lengths) =>
    [
        new(T($"Surface"), Surface(before), Surface(after)),
        .. Flaw(before, after, T($"Open edges"), s => s.BoundaryEdges),
        .. Flaw(before, after, T($"Edges of more than two triangles"), s => s.NonManifoldEdges),
        .. Flaw(before, after, T($"Edges whose triangles disagree"), s => s.DisorientedEdges),
        .. Flaw(before, after, T($"Pieces inside out"), s => s.InsideOutShells),
        .. Flaw(before, after, T($"Triangles without area"), s => s.DegenerateTriangles),
        .. Flaw(before, after, T($"Triangles there twice"), s => s.DuplicateTriangles),
        .. Flaw(before, after, T($"Triangles that cross"), s => s.SelfIntersections),
        new(T($"Pieces"), Count(before.Shells), Count(after.Shells)),
        new(T($"Triangles"), Count(before.Triangles), Count(after.Triangles)),
        .. Differing(T($"Size"), lengths.Box(before.SizeMm), lengths.Box(after.SizeMm)),
        new(T($"Volume"), VolumeOf(before), VolumeOf(after)),
        new(T($"Area"), AreaOf(before), AreaOf(after)),
    ];

    /// <summary>Where the first changes of a kind are, and how many more there are.</summary>
    public static string Places(RepairStepReport step)
    {
        var places = step.At.Take(3).Select(ChangeWords.Place).ToList();
        if (step.Count > places.Count) places.Add(T($"and {step.Count - places.Count} more"));
        return string.Join("; ", places);
    }

    private static IEnumerable<RepairRow> Flaw(RepairState before, RepairState after, string what, Func<RepairState, long> of) =>
        of(before) == 0 && of(after) == 0 ? [] : [new(what, Count(of(before)), Count(of(after)))];

    private static IEnumerable<RepairRow> Differing(string what, string before, string after) => before == after ? [] : [new(what, before, after)];

    private static string VolumeOf(RepairState state) =>
        state.VolumeMm3 is { } volume ? (volume / 1000).ToString("0.###", Language.Current.Numbers).Replace('-', '−') + "\u00A0cm³" : T($"none while open");

    private static string AreaOf(RepairState state) => (state.AreaMm2 / 100).ToString("0.##", Language.Current.Numbers) + "\u00A0cm²";

    private static string Count(long count) => count.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u00A0');

    private static string Surface(RepairState state) => state.Closed ? T($"closed") : T($"open");
}
