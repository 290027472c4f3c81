using System.Text.Json;

namespace Catalogue.Texts;

/// <summary>What the program says and its translations, from the project’s root.</summary>
/// <remarks>
/// <code>
/// dotnet run --project tests/Catalogue.Texts                            tells what is missing and what is stale
/// dotnet run --project tests/Catalogue.Texts -- sync                    brings the English files up to the code, drops what is no longer said
/// dotnet run --project tests/Catalogue.Texts -- missing de [FOLDER]     writes a JSON object of texts for what has no German yet
/// dotnet run --project tests/Catalogue.Texts -- take de FILE.json       puts translations, such an object with words, in their places
/// </code>
/// </remarks>
internal static class TextsCommand
{
    public static int Main(string[] args)
    {
        var root = Environment.CurrentDirectory;
        var said = TextsInCode.Of(root);
        var keys = said.Select(t => t.Key).ToHashSet(StringComparer.Ordinal);
        switch (args)
        {
            case ["sync"] when TextsInCode.NewerThanBuild(root) is { } newer:
                Console.Error.WriteLine($"{newer} was changed after the last build, so texts might be dropped that are said. Nothing was written; build the solution first.");
                return 1;
            case ["sync"]:
                foreach (var language in TextCheck.Languages)
                {
                    var files = TextFiles.Read(root, language);
                    foreach (var stale in files.All.Select(t => t.Key).Where(k => !keys.Contains(k)).ToList()) files.Remove(stale);
                    if (language == "en") foreach (var text in said.Where(t => files.Find(t.Key) is null)) files.Put(text.Folder, text.Key, text.Key);
                    files.KeepOneOfEach(said.Where(t => t.Folder == TextsInCode.ScriptsFolder).Select(t => t.Key));
                    files.Write();
                }

                return 0;
            case ["missing", var language, .. var folder]:
                var there = TextFiles.Read(root, language);
                var wanted = said.Where(t => there.Find(t.Key) is null && (folder.Length == 0 || t.Folder.StartsWith(folder[0].TrimEnd('/'), StringComparison.Ordinal))).Select(t => t.Key).Distinct();
                Console.WriteLine(JsonSerializer.Serialize(wanted.ToDictionary(k => k, _ => ""), TextCheck.Json));
                return 0;
            case ["take", var language, var file]:
                var taken = TextFiles.Read(root, language);
                var english = TextFiles.Read(root, "en");
                foreach (var (key, words) in JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllText(file))!)
                {
                    if (words.Length == 0) continue;
                    if ((taken.FolderOf(key) ?? english.FolderOf(key) ?? said.FirstOrDefault(t => t.Key == key)?.Folder) is { } place) taken.Put(place, key, words);
                    else Console.Error.WriteLine($"Nobody says: {key}");
                }

                taken.Write();
                return 0;
            case []:
                var problems = TextCheck.Of(root);
                foreach (var problem in problems) Console.WriteLine(problem);
                Console.WriteLine($"{keys.Count} texts, {problems.Count} problems");
                return problems.Count == 0 ? 0 : 1;
            default:
                Console.Error.WriteLine("Use: [sync | missing LANGUAGE [FOLDER] | take LANGUAGE FILE]");
                return 2;
        }
    }
}
