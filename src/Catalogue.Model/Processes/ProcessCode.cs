using System.Buffers;

namespace Catalogue.Model.Processes;

/// <summary>A code such as <c>VPP-rigid</c>: an ISO/ASTM 52900 category and a word for the material's manner.</summary>
public static class ProcessCode
{
    private static readonly SearchValues<char> LettersAndDigits =
        SearchValues.Create("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789");

    public const int MaxLength = 30;

    /// <summary>Three capitals, a hyphen, then letters and digits.</summary>
    public static bool IsValid(string? code) =>
        code is { Length: >= 5 and <= MaxLength } && code[3] == '-'
        && code.AsSpan(0, 3).IndexOfAnyExceptInRange('A', 'Z') < 0
        && !code.AsSpan(4).ContainsAnyExcept(LettersAndDigits);

    /// <summary>The codes without repeats, when all are valid.</summary>
    /// <exception cref="RuleBrokenException"><c>process-invalid</c>.</exception>
    public static string[] Checked(IReadOnlyCollection<string> codes)
    {
        ArgumentNullException.ThrowIfNull(codes);
        return codes.FirstOrDefault(c => !IsValid(c)) is { } bad
            ? throw new RuleBrokenException("process-invalid", $"“{bad}” is not a process code like “VPP-rigid”. Nothing was changed.")
            : [.. codes.Distinct()];
    }

    /// <summary>The ISO/ASTM 52900 category at the front of the code.</summary>
    public static string Category(string code) => code[..3];
}
