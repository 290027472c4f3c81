using System.Text.Json;
using System.Text.RegularExpressions;
using Catalogue.Data;
using Catalogue.Data.Accounts;
using Catalogue.Model.Figures;
using Catalogue.Model.Ranges;
using Catalogue.Model.Reports;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Browser.Tests;

/// <summary>What is on pages and no text of the program: words of designers, visitors and the host, read from the database; codes and units, asked of the interface for programs.</summary>
internal sealed partial class OwnWords
{
    /// <summary>Symbols of units that stand behind numbers, beside those of limits and rates, and names of formats. The same in every language.</summary>
    private static readonly string[] Units = ["m", "cm", "mm", "mm²", "mm³", "cm²", "cm³", "in", "in³", "h", "min", "s", "mm/s", "MB", "kB", "MPa", "GPa", "kg", "g", "µm", "Ø", "STL", "OBJ", "MF", "CSV", "JSON"];

    /// <summary>Where people's own words are kept; findings, limits and the names of processes are the program's.</summary>
    private static readonly string[] Rooms = [typeof(Figure).Namespace!, typeof(Report).Namespace!, typeof(RangePromise).Namespace!, typeof(Account).Namespace!];

    private readonly List<string> _values;
    private readonly HashSet<string> _codes;

    private OwnWords(IEnumerable<string> values, IEnumerable<string> codes)
    {
        _values = [.. values.SelectMany(v => v.Split('\n').Append(v)).Select(Plain).Where(v => v.Any(char.IsLetter)).Distinct().OrderByDescending(v => v.Length)];
        _codes = [.. codes];
    }

    public static async Task<OwnWords> OfAsync(RunningCatalogue catalogue)
    {
        await using var scope = catalogue.Services.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<CatalogueDb>();
        var values = new List<string>();
        foreach (var kind in db.Model.GetEntityTypes().Where(t => Rooms.Contains(t.ClrType.Namespace)))
        {
            foreach (var property in kind.GetProperties().Where(p => p.ClrType == typeof(string)))
            {
                var sql = $"SELECT DISTINCT \"{property.GetColumnName()}\" AS \"Value\" FROM \"{kind.GetTableName()}\" WHERE \"{property.GetColumnName()}\" IS NOT NULL";
                values.AddRange(await db.Database.SqlQueryRaw<string>(sql).ToListAsync());
            }
        }

        using var program = new HttpClient { BaseAddress = new(catalogue.Address) };
        using var processes = JsonDocument.Parse(await program.GetStringAsync("/api/processes"));
        using var rules = JsonDocument.Parse(await program.GetStringAsync("/api/rules"));
        var codes = processes.RootElement.GetProperty("items").EnumerateArray().SelectMany(p =>
                p.GetProperty("limits").EnumerateArray().Select(l => l.GetProperty("unit").GetString()!).Append(p.GetProperty("code").GetString()!).Append(p.GetProperty("code").GetString()!.Split('-')[0]))
            .Concat(rules.RootElement.GetProperty("items").EnumerateArray().Select(r => r.GetProperty("code").GetString()!))
            .Append(processes.RootElement.GetProperty("currency").GetString()!);
        return new(values, codes.Concat(Units));
    }

    /// <summary>What remains of words when those of people, codes and units are taken out; empty when nothing does.</summary>
    /// <param name="isProse">They stand where people's own Markdown is shown, in pieces.</param>
    public string LeftOf(string text, bool isProse)
    {
        var left = DayOrSize().Replace(Plain(text), " ");
        foreach (var value in _values)
        {
            if (!left.Any(char.IsLetter)) return "";
            if (left.Contains(value, StringComparison.Ordinal)) left = Regex.Replace(left, $@"(?<![\p{{L}}\d]){Regex.Escape(value)}(?![\p{{L}}\d])", " ");
        }

        var words = string.Join(' ', Word().Matches(left).Select(m => m.Value).Where(w => !_codes.Contains(w)));
        return words.Length == 0 || (isProse && _values.Any(v => v.Contains(Plain(text), StringComparison.Ordinal))) ? "" : words;
    }

    /// <summary>Without the marks of Markdown and with single spaces.</summary>
    private static string Plain(string text) => Space().Replace(Marks().Replace(text, ""), " ").Trim();

    [GeneratedRegex(@"[*_#`|<>]|^\s*(?:[-+]|\d+\.)\s|</?\w+>", RegexOptions.Multiline)]
    private static partial Regex Marks();

    /// <summary>“30 November 2026” as the language writes it, which has its own test; “64x114x152” as it is typed.</summary>
    [GeneratedRegex(@"\b\d{1,2} \p{L}{3,9} \d{4}\b|\b\d+x\d+(?:x\d+)?\b")]
    private static partial Regex DayOrSize();

    [GeneratedRegex(@"[\s…]+")]
    private static partial Regex Space();

    [GeneratedRegex(@"[\p{L}Øµ][\p{L}\p{N}²³\-./]*[\p{L}\p{N}²³]|[\p{L}Ø]")]
    private static partial Regex Word();
}
