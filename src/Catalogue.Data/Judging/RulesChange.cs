using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Judging;

/// <summary>What to do when this program judges by other rules than kept verdicts are by: <see cref="Rules.Version"/> against <see cref="Rejudgement.Rules"/>.</summary>
internal static class RulesChange
{
    /// <summary>At start: when the program that was started last had other rules, asks for every verdict to be judged again. Of several instances that start at once, one does.</summary>
    public static Task AskAsync(CatalogueDb db, CancellationToken cancellation) => db.Rejudgements.Where(r => r.Rules != Rules.Version).ExecuteUpdateAsync(set => set
        .SetProperty(r => r.Rules, Rules.Version).SetProperty(r => r.RulesChanging, true).SetProperty(r => r.Asked, r => r.Asked + 1), cancellation);

    /// <summary>
    /// True while kept verdicts may be by other rules than this program's: whoever judges one revision then has to judge its whole figure, so that no figure is ever a mixture. When rules of
    /// another program have come into effect while this one still runs, what it is about to save is asked to be judged again.
    /// </summary>
    public static async Task<bool> ConcernsAsync(CatalogueDb db, CancellationToken cancellation)
    {
        var state = await db.Rejudgements.AsNoTracking().Select(r => new { r.Rules, r.RulesChanging }).SingleAsync(cancellation);
        if (state is { Rules: not Rules.Version, RulesChanging: false })
        {
            await db.Rejudgements.Where(r => !r.RulesChanging).ExecuteUpdateAsync(
                set => set.SetProperty(r => r.RulesChanging, true).SetProperty(r => r.Asked, r => r.Asked + 1), cancellation);
        }

        return state is { RulesChanging: true } or { Rules: not Rules.Version };
    }

    /// <summary>The revisions given, and all others of their figures that have verdicts.</summary>
    public static async Task<List<Revision>> WholeFiguresAsync(CatalogueDb db, IReadOnlyCollection<Revision> revisions, CancellationToken cancellation)
    {
        var ids = revisions.Select(r => r.Id).ToList();
        var figures = db.Revisions.Where(r => ids.Contains(r.Id)).Join(db.Variants, r => r.VariantId, v => v.Id, (_, v) => v.Part.FigureId);
        var theirs = db.Variants.Where(v => figures.Contains(v.Part.FigureId)).Select(v => v.Id);
        var others = await db.Revisions.Include(r => r.Inspection)
            .Where(r => theirs.Contains(r.VariantId) && !ids.Contains(r.Id) && db.Verdicts.Any(v => v.RevisionId == r.Id)).ToListAsync(cancellation);
        return [.. revisions, .. others];
    }
}
