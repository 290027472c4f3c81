using Catalogue.Geometry.Formats;

namespace Catalogue.Model.Inspections;

/// <summary>The words for units in forms, addresses and JSON: <c>mm</c>, <c>inch</c>, …</summary>
public static class UnitWords
{
    public static IReadOnlyList<string> All { get; } = [.. Enum.GetValues<LengthUnit>().Select(MeshInspector.CodeOf)];

    /// <summary>The same for people; symbols are the same in every language.</summary>
    public static string Spoken(string word) => word switch
    {
        "micron" => T($"micron"),
        "inch" => T($"inch"),
        "foot" => T($"foot"),
        _ => word,
    };

    /// <summary>The unit that a word names; an empty word leaves it to the file.</summary>
    /// <exception cref="RuleBrokenException"><c>unit-invalid</c>.</exception>
    public static LengthUnit? Parse(string? word)
    {
        if (string.IsNullOrWhiteSpace(word)) return null;
        foreach (var unit in Enum.GetValues<LengthUnit>())
            if (MeshInspector.CodeOf(unit) == word) return unit;
        throw new RuleBrokenException("unit-invalid",
            $"“{word}” is not a unit that is known here. Nothing was kept; state {string.Join(", ", All)}, or leave the unit to the file.");
    }
}
