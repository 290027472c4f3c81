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
        new("Surface", before.Closed ? "closed" : "open", after.Closed ? "closed" : "open"),
        .. Flaw(before, after, "Open edges", s => s.BoundaryEdges),
        .. Flaw(before, after, "Edges of more than two triangles", s => s.NonManifoldEdges),
        .. Flaw(before, after, "Edges whose triangles disagree", s => s.DisorientedEdges),
        .. Flaw(before, after, "Pieces inside out", s => s.InsideOutShells),
        .. Flaw(before, after, "Triangles without area", s => s.DegenerateTriangles),
        .. Flaw(before, after, "Triangles there twice", s => s.DuplicateTriangles),
        .. Flaw(before, after, "Triangles that cross", s => s.SelfIntersections),
        new("Pieces", Count(before.Shells), Count(after.Shells)),
        new("Triangles", Count(before.Triangles), Count(after.Triangles)),
        .. Differing("Size", lengths.Box(before.SizeMm), lengths.Box(after.SizeMm)),
        new("Volume", VolumeOf(before), VolumeOf(after)),
        new("Area", AreaOf(before), AreaOf(after)),
    ];

    private static IEnumerable<RepairRow> Flaw(RepairState before, RepairState after, string what, Func<RepairState, long> of) =>
        of(before) == 0 && of(after) == 0 ? [] : [new(what, Count(of(before)), Count(of(after)))];

    private static IEnumerable<RepairRow> Differing(string what, string before, string after) => before == after ? [] : [new(what, before, after)];

    private static string VolumeOf(RepairState state) =>
        state.VolumeMm3 is { } volume ? (volume / 1000).ToString("0.###", CultureInfo.InvariantCulture).Replace('-', '−') + "\u00A0cm³" : "none while open";

    private static string AreaOf(RepairState state) => (state.AreaMm2 / 100).ToString("0.##", CultureInfo.InvariantCulture) + "\u00A0cm²";

    private static string Count(long count) => count.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', '\u00A0');
}
