using Catalogue.Geometry.Repair;

namespace Catalogue.Model.Repair;

/// <summary>Sentences about repairs.</summary>
public static class RepairWords
{
    /// <summary>“2 small flat holes filled”.</summary>
    public static Sentence Of(RepairKind kind, int count) => kind switch
    {
        RepairKind.StitchedCracks => count == 1 ? S($"{count} pair of edges along a crack stitched") : $"{count} pairs of edges along cracks stitched",
        RepairKind.DroppedDegenerateTriangles => count == 1 ? S($"{count} triangle without area dropped") : $"{count} triangles without area dropped",
        RepairKind.DroppedDuplicateTriangles => count == 1 ? S($"{count} triangle that was there twice dropped") : $"{count} triangles that were there twice dropped",
        RepairKind.TurnedTriangles => count == 1 ? S($"{count} triangle turned to face as its neighbours do") : $"{count} triangles turned to face as their neighbours do",
        RepairKind.FilledHoles => count == 1 ? S($"{count} small flat hole filled") : $"{count} small flat holes filled",
        _ => count == 1 ? S($"{count} piece that was inside out turned") : $"{count} pieces that were inside out turned",
    };

    /// <summary>“a, b and c”.</summary>
    public static Sentence Listed(IReadOnlyList<Sentence> things)
    {
        ArgumentNullException.ThrowIfNull(things);
        if (things.Count < 2) return things.Count == 0 ? Sentence.Empty : things[0];
        var others = things.SkipLast(1).Aggregate((all, next) => $"{all}, {next}");
        return $"{others} and {things[^1]}";
    }
}
