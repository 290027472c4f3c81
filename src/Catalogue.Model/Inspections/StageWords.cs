namespace Catalogue.Model.Inspections;

/// <summary>What an inspection is at, for somebody who waits: the names of its stages in words.</summary>
public static class StageWords
{
    private static readonly Dictionary<string, Sentence> Words = new()
    {
        ["reading"] = $"reading the file",
        ["read"] = $"reading the file",
        ["health"] = $"whether it is closed",
        ["tree"] = $"sorting its triangles",
        ["repair"] = $"whether small flaws can be mended",
        ["selfIntersections"] = $"whether it cuts through itself",
        ["measures"] = $"size and volume",
        ["fit"] = $"the smallest room it fits",
        ["fitProfile"] = $"the rooms it fits, any way up",
        ["thickness"] = $"thin walls and limbs",
        ["gaps"] = $"narrow gaps",
        ["overhang"] = $"overhangs and bridges",
        ["holes"] = $"pin holes",
        ["limbs"] = $"where it would break",
        ["liquid"] = $"trapped liquid",
        ["detail"] = $"fine detail",
        ["orientations"] = $"ways to lay it down",
        ["done"] = $"done",
    };

    /// <summary>The stages that have words.</summary>
    public static IReadOnlyCollection<string> Known => Words.Keys;

    public static string Of(string stage) => Words.TryGetValue(stage, out var words) ? words.ToString() : stage;
}
