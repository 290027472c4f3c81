using System.Globalization;
using System.Text;

namespace Catalogue.Model.Figures;

/// <summary>The name of a thing in an address: 1 to 60 of a–z, 0–9 and single hyphens, beginning and ending with a letter or digit.</summary>
public static class Slug
{
    public const int MaxLength = 60;

    public static bool IsValid(string? text)
    {
        if (string.IsNullOrEmpty(text) || text.Length > MaxLength || text[0] == '-' || text[^1] == '-') return false;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is (>= 'a' and <= 'z') or (>= '0' and <= '9')) continue;
            if (text[i] != '-' || text[i - 1] == '-') return false;
        }

        return true;
    }

    /// <summary>The text itself when valid.</summary>
    /// <exception cref="RuleBrokenException"><c>slug-invalid</c>.</exception>
    public static string Checked(string? text) => IsValid(text)
        ? text!
        : throw new RuleBrokenException("slug-invalid",
            $"“{text}” cannot be part of an address. Use up to {MaxLength} lower-case letters, digits and single hyphens, for example “left-arm”.");

    /// <summary>The slug given, when there is one; else the nearest to the name.</summary>
    /// <exception cref="RuleBrokenException"><c>slug-invalid</c>.</exception>
    public static string GivenOrFrom(string? given, string? name) => Checked(string.IsNullOrWhiteSpace(given) ? From(name ?? "") : given.Trim());

    /// <summary>The nearest valid slug of a title: accents dropped, everything else a hyphen; empty when nothing is left.</summary>
    public static string From(string title)
    {
        ArgumentNullException.ThrowIfNull(title);
        var slug = new StringBuilder();
        foreach (var rune in title.Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            if (Rune.GetUnicodeCategory(rune) == UnicodeCategory.NonSpacingMark) continue;
            var c = rune.IsAscii ? char.ToLowerInvariant((char)rune.Value) : '-';
            if (char.IsAsciiLetterOrDigit(c)) slug.Append(c);
            else if (slug.Length > 0 && slug[^1] != '-') slug.Append('-');
        }

        if (slug.Length > MaxLength) slug.Length = MaxLength;
        return slug.ToString().Trim('-');
    }
}
