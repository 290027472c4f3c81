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
        RuleSubject.File => "The file",
        RuleSubject.Size => "Size",
        RuleSubject.Walls => "Walls and gaps",
        RuleSubject.Holes => "Holes",
        RuleSubject.Limbs => "Limbs",
        RuleSubject.Pose => "As the file lies",
        RuleSubject.Hollows => "Hollows",
        RuleSubject.Relief => "Fine relief",
        RuleSubject.Joints => "Joints",
        RuleSubject.Build => "What it is built from",
        _ => "What others reported",
    };

    /// <summary>The limit's values, processes of one value together: “0.8 mm in Filament, rigid and Filament, flexible (common practice)”.</summary>
    public static IEnumerable<string> ValuesOf(RuleLimit limit) => limit.Values.GroupBy(v => (v.Value, v.Unit, v.Origin, v.BuiltIn)).Select(g => string.Create(
        System.Globalization.CultureInfo.InvariantCulture,
        $"{g.Key.Value:0.####}{(g.Key.Unit.Length > 0 ? "\u00A0" + g.Key.Unit : "")} for {string.Join("; ", g.Select(v => v.Name))} ({g.Key.Origin}{(g.Key.BuiltIn is { } usual ? $"; built in: {usual:0.####}" : "")})"));
}
