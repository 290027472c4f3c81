using Catalogue.Data.Ranges;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Processes;

/// <summary>The decision table as readers see it: made from the rules the checks use, with the limits as they are now.</summary>
internal sealed class RulesPage(RangeSearch search) : PageModel
{
    public IReadOnlyList<Process> Processes { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancellation) => Processes = (await search.SnapshotAsync(cancellation)).Processes;

    public static string NameOf(RuleSubject subject) => subject switch
    {
        RuleSubject.File => T($"The file"),
        RuleSubject.Size => T($"Size"),
        RuleSubject.Walls => T($"Walls and gaps"),
        RuleSubject.Holes => T($"Holes"),
        RuleSubject.Limbs => T($"Limbs"),
        RuleSubject.Pose => T($"As the file lies"),
        RuleSubject.Hollows => T($"Hollows"),
        RuleSubject.Relief => T($"Fine relief"),
        RuleSubject.Joints => T($"Joints"),
        RuleSubject.Build => T($"What it is built from"),
        _ => T($"What others reported"),
    };

    /// <summary>The limit's values, processes of one value together: “0.8 mm for Filament, rigid; Filament, flexible (common practice)”.</summary>
    public static IEnumerable<string> ValuesOf(RuleLimit limit) => limit.Values.GroupBy(v => (v.Value, v.Unit, v.Origin, v.BuiltIn)).Select(g =>
    {
        var value = g.Key.Value.ToString("0.####", Language.Current.Numbers) + (g.Key.Unit is "" or "°" ? "" : "\u00A0") + g.Key.Unit;
        var processes = string.Join("; ", g.Select(v => v.Name));
        return g.Key.BuiltIn is { } usual
            ? T($"{value} for {processes} ({g.Key.Origin}; built in: {usual:0.####})")
            : T($"{value} for {processes} ({g.Key.Origin})");
    });
}
