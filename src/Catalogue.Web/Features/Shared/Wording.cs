namespace Catalogue.Web.Features.Shared;

/// <summary>What is done with words that are said already: put in a row, put at the beginning.</summary>
internal static class Wording
{
    /// <summary>“rigid resin and flexible resin”.</summary>
    public static string And(IEnumerable<string> words) => Joined(words, static (a, b) => T($"{a} and {b}"));

    /// <summary>“rods or magnets”.</summary>
    public static string Or(IEnumerable<string> words) => Joined(words, static (a, b) => T($"{a} or {b}"));

    /// <summary>“90° about x, then 45° about z”.</summary>
    public static string Then(IEnumerable<string> words) => Joined(words, static (a, b) => T($"{a}, then {b}"));

    /// <summary>With a capital, where words that also stand within a sentence begin one.</summary>
    public static string Begun(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.Length == 0 ? "" : char.ToUpper(words[0], Language.Current.Culture) + words[1..];
    }

    private static string Joined(IEnumerable<string> words, Func<string, string, string> join)
    {
        ArgumentNullException.ThrowIfNull(words);
        return words.DefaultIfEmpty("").Aggregate(join);
    }
}
