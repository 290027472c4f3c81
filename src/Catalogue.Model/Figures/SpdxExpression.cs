using System.Buffers;

namespace Catalogue.Model.Figures;

/// <summary>A licence as SPDX writes it: an identifier such as <c>CC-BY-4.0</c>, or several joined by <c>AND</c>, <c>OR</c> and <c>WITH</c>.</summary>
/// <remarks>Only the form is checked (SPDX specification 2.3, annex D), not whether an identifier is on the list of the day.</remarks>
public static class SpdxExpression
{
    private static readonly SearchValues<char> IdentifierCharacters =
        SearchValues.Create("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.:");

    /// <summary>What figures are mostly given away under; a suggestion, no limit.</summary>
    public static IReadOnlyList<string> Common { get; } =
    [
        "CC-BY-4.0", "CC-BY-SA-4.0", "CC-BY-NC-4.0", "CC-BY-NC-SA-4.0", "CC-BY-ND-4.0", "CC-BY-NC-ND-4.0", "CC0-1.0",
        "CERN-OHL-P-2.0", "CERN-OHL-W-2.0", "CERN-OHL-S-2.0", "GPL-3.0-or-later", "MIT",
    ];

    /// <summary>True when the text has the form of an SPDX licence expression. Linear in its length.</summary>
    public static bool IsValid(string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return false;
        var tokens = text.Replace("(", " ( ", StringComparison.Ordinal).Replace(")", " ) ", StringComparison.Ordinal)
            .Split(' ', StringSplitOptions.RemoveEmptyEntries);
        var (depth, wantsLicence, afterWith) = (0, true, false);
        foreach (var token in tokens)
        {
            if (wantsLicence)
            {
                if (token == "(" && !afterWith) depth++;
                else if (IsIdentifier(token)) (wantsLicence, afterWith) = (false, false);
                else return false;
            }
            else if (token == ")")
            {
                if (--depth < 0) return false;
            }
            else if (token is "AND" or "OR" or "WITH")
            {
                (wantsLicence, afterWith) = (true, token == "WITH");
            }
            else
            {
                return false;
            }
        }

        return !wantsLicence && depth == 0;
    }

    private static bool IsIdentifier(string token)
    {
        var name = token.AsSpan().TrimEnd('+');
        return token is not ("AND" or "OR" or "WITH") && token.Length - name.Length <= 1 && name.Length > 0 && !name.ContainsAnyExcept(IdentifierCharacters);
    }
}
