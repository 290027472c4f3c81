using Catalogue.Data;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Processes;

/// <summary>The processes, their materials, and the numbers shapes are judged by, each with where it comes from.</summary>
internal sealed class ProcessesPage(CatalogueDb db, Masthead masthead) : PageModel
{
    public IReadOnlyList<Process> Processes { get; private set; } = [];
    public bool IsHost { get; private set; }

    /// <summary>What prices are in.</summary>
    public string Currency { get; private set; } = "";

    /// <summary>How far parts are judged by changed limits or rules, in per cent; null when no change is waiting to take effect.</summary>
    public int? JudgedPercent { get; private set; }

    /// <summary>True where it is the rules that change, with another version of the program.</summary>
    public bool RulesChanging { get; private set; }

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        Processes = await db.Processes.AsNoTracking().Include(p => p.Limits).Include(p => p.Rates).AsSplitQuery().OrderBy(p => p.Position).ToListAsync(cancellation);
        Currency = (await masthead.RangeAsync()).Currency;
        IsHost = User.HasClaim(AccountSetup.HostClaim, "true");
        if (await db.Rejudgements.AsNoTracking().SingleOrDefaultAsync(cancellation) is { IsGoingOn: true } going) (JudgedPercent, RulesChanging) = (going.Percent, going.RulesChanging);
    }
}
