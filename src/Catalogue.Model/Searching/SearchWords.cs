using System.Globalization;
using System.Text;

namespace Catalogue.Model.Searching;

/// <summary>Text as the words it is searched by: small letters without marks, cut at all that is neither letter nor digit.</summary>
/// <remarks>
/// “Périwinkle’s pop-in ball, 1,5 mm” is <c>periwinkles pop in ball 1.5 mm</c>. Marks go by Unicode's compatibility decomposition (UAX #15, form KD); letters that have none
/// there (ø, ß, æ, ł, …) by a short table. An apostrophe joins, a point or comma between digits stays as a point.
/// </remarks>
public static class SearchWords
{
    private static readonly Dictionary<char, string> Plain = new()
    {
        ['ß'] = "ss",
        ['æ'] = "ae",
        ['œ'] = "oe",
        ['ø'] = "o",
        ['đ'] = "d",
        ['ð'] = "d",
        ['þ'] = "th",
        ['ł'] = "l",
        ['ħ'] = "h",
        ['ı'] = "i",
        ['ŋ'] = "n",
        ['ŧ'] = "t",
    };

    /// <summary>The words in their order, with those that come twice.</summary>
    public static IReadOnlyList<string> Of(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return [];
        var folded = Folded(text);
        var (words, word) = (new List<string>(), new StringBuilder());
        for (var i = 0; i < folded.Length;)
        {
            Rune.DecodeFromUtf16(folded.AsSpan(i), out var rune, out var length);
            if (Rune.IsLetterOrDigit(rune)) word.Append(rune);
            else if (IsDecimal(folded, i)) word.Append('.');
            else if (rune.Value is not ('\'' or '’' or 'ʼ')) End();
            i += length;
        }

        End();
        return words;

        void End()
        {
            if (word.Length > 0) words.Add(word.ToString());
            word.Clear();
        }
    }

    private static bool IsDecimal(string text, int at) =>
        text[at] is '.' or ',' && at > 0 && at + 1 < text.Length && char.IsAsciiDigit(text[at - 1]) && char.IsAsciiDigit(text[at + 1]);

    private static string Folded(string text)
    {
        var small = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes()) small.Append(Rune.ToLowerInvariant(rune)); // Half a surrogate pair becomes a sign that separates.
        var folded = new StringBuilder(small.Length);
        foreach (var decomposed in small.ToString().Normalize(NormalizationForm.FormKD))
        {
            var letter = char.ToLowerInvariant(decomposed); // Letters of mathematics have no small form before.
            if (CharUnicodeInfo.GetUnicodeCategory(letter) == UnicodeCategory.NonSpacingMark) continue;
            if (Plain.TryGetValue(letter, out var plain)) folded.Append(plain);
            else folded.Append(letter);
        }

        return folded.ToString();
    }
}
