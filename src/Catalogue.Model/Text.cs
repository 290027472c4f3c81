namespace Catalogue.Model;

/// <summary>Checks of free text on its way into an entity.</summary>
internal static class Text
{
    /// <summary>Trimmed, not empty, at most <paramref name="max"/> characters.</summary>
    /// <param name="what">What it is: “The title”.</param>
    public static string Required(string? value, Sentence what, int max)
    {
        var text = Optional(value, what, max);
        return text.Length > 0 ? text : throw new RuleBrokenException("text-missing", $"{what} is empty. Nothing was changed; please fill it in.");
    }

    /// <summary>Trimmed, at most <paramref name="max"/> characters; null becomes empty.</summary>
    public static string Optional(string? value, Sentence what, int max)
    {
        var text = (value ?? "").Trim().ReplaceLineEndings("\n");
        return text.Length <= max
            ? text
            : throw new RuleBrokenException("text-too-long", $"{what} has {text.Length} characters; {max} is the most. Nothing was changed; please shorten it.");
    }
}
