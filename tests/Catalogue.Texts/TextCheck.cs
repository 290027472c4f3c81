using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using Catalogue.Model.Languages;

namespace Catalogue.Texts;

/// <summary>Whether every text is in every language, with the same holes and marks.</summary>
public static partial class TextCheck
{
    public static IReadOnlyList<string> Languages { get; } = [.. Language.All.Select(l => l.Code)];

    internal static JsonSerializerOptions Json { get; } = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>What is wrong, a line each.</summary>
    public static IReadOnlyList<string> Of(string root)
    {
        var problems = new List<string>();
        var said = TextsInCode.Of(root);
        var keys = said.Select(t => t.Key).ToHashSet(StringComparer.Ordinal);
        var byScripts = said.Where(t => t.Folder == TextsInCode.ScriptsFolder).Select(t => t.Key).ToList();
        foreach (var language in Languages)
        {
            var files = TextFiles.Read(root, language);
            problems.AddRange(keys.Where(k => files.Find(k) is null).Select(k => $"{language}: missing: {k}"));
            problems.AddRange(byScripts.Where(k => files.FolderOf(k) is { } folder && folder != TextsInCode.ScriptsFolder).Select(k => $"{language}: scripts say it, so it belongs to them: {k}"));
            foreach (var (folder, key, words) in files.All)
            {
                if (!keys.Contains(key)) problems.Add($"{language}: nobody says any more ({folder}): {key}");
                if (Places(key) != Places(words)) problems.Add($"{language}: other holes or marks: {key} → {words}");
            }

            // A resource file does not tell such names apart: the build keeps one of them.
            problems.AddRange(files.All.GroupBy(t => (t.Folder, t.Key.ToUpperInvariant())).Where(g => g.Count() > 1).Select(g => $"{language}: in {g.Key.Folder}, the same but for capitals: {g.First().Key}"));
            problems.AddRange(files.All.GroupBy(t => t.Key).Where(g => g.Count() > 1).Select(g => $"{language}: in {string.Join(" and in ", g.Select(t => t.Folder))}: {g.Key}"));
        }

        return problems;
    }

    /// <summary>Holes by number, in order of number; marks in theirs: a language may put holes in another order, and leave none out.</summary>
    private static string Places(string words) =>
        string.Join(' ', Hole().Matches(words).Select(m => m.Groups[1].Value).Distinct().Order(StringComparer.Ordinal)) + string.Concat(Mark().Matches(words).Select(m => m.Value).Order(StringComparer.Ordinal));

    [GeneratedRegex(@"(?<!\{)\{(\d+)[^}]*\}")]
    private static partial Regex Hole();

    [GeneratedRegex("</?[a-z0-9]+")]
    private static partial Regex Mark();
}
