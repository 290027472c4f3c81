namespace Catalogue.Model.Figures;

/// <summary>A designer's own words to find figures by that belong together: “musician”, “sea”.</summary>
public static class Tags
{
    public const int Most = 12;
    public const int MaxLength = 30;

    /// <summary>In small letters, each once, in their order. One text may hold several, with commas or on lines of their own.</summary>
    /// <exception cref="RuleBrokenException"><c>tags-invalid</c>: too many, or one too long.</exception>
    public static string[] Checked(IEnumerable<string>? given)
    {
        string[] tags = [.. (given ?? []).SelectMany(g => (g ?? "").Split([',', '\n', '\r'])).Select(Plain).Where(t => t.Length > 0).Distinct(StringComparer.Ordinal)];
        if (tags.Length > Most)
            throw new RuleBrokenException("tags-invalid", $"There are {tags.Length} tags; {Most} is the most. Nothing was changed; keep those that several figures share.");
        if (Array.Find(tags, t => t.Length > MaxLength) is { } tooLong)
            throw new RuleBrokenException("tags-invalid", $"The tag “{tooLong}” has {tooLong.Length} characters; {MaxLength} is the most. Nothing was changed; put commas between tags.");
        return tags;
    }

    /// <summary>As it is kept: in small letters, with single spaces.</summary>
    public static string Plain(string tag)
    {
        ArgumentNullException.ThrowIfNull(tag);
        return string.Join(' ', tag.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).ToLowerInvariant();
    }
}
