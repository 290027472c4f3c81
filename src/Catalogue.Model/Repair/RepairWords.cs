using System.Globalization;
using Catalogue.Geometry.Repair;

namespace Catalogue.Model.Repair;

/// <summary>Sentences about repairs.</summary>
public static class RepairWords
{
    /// <summary>“2 small flat holes filled”.</summary>
    public static string Of(RepairKind kind, int count) => kind switch
    {
        RepairKind.StitchedCracks => Counted(count, "pair of edges along a crack stitched", "pairs of edges along cracks stitched"),
        RepairKind.DroppedDegenerateTriangles => Counted(count, "triangle without area dropped", "triangles without area dropped"),
        RepairKind.DroppedDuplicateTriangles => Counted(count, "triangle that was there twice dropped", "triangles that were there twice dropped"),
        RepairKind.TurnedTriangles => Counted(count, "triangle turned to face as its neighbours do", "triangles turned to face as their neighbours do"),
        RepairKind.FilledHoles => Counted(count, "small flat hole filled", "small flat holes filled"),
        _ => Counted(count, "piece that was inside out turned", "pieces that were inside out turned"),
    };

    /// <summary>“a, b and c”.</summary>
    public static string Listed(IReadOnlyList<string> things)
    {
        ArgumentNullException.ThrowIfNull(things);
        return things.Count < 2 ? string.Concat(things) : $"{string.Join(", ", things.SkipLast(1))} and {things[^1]}";
    }

    private static string Counted(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");
}
