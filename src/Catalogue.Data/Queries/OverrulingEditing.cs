using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>Overrules a computed care, or takes that back, and weighs the revision anew in the same transaction.</summary>
public static class OverrulingEditing
{
    /// <param name="find">The variant meant, in the figure.</param>
    /// <exception cref="Catalogue.Model.RuleBrokenException">As <see cref="Variant.Overrule"/>; nothing changed.</exception>
    public static Task<Overruling> OverruleAsync(
        this CatalogueDb db, string figure, Func<Figure, Variant> find, OverruledFinding which, string? reason, string by, DateTime now, CancellationToken cancellation) =>
        db.ChangeAsync(figure, find, which, now, async variant =>
        {
            var revision = variant.RevisionOf(which.Revision);
            var kept = await db.Verdicts.AsNoTracking().SingleOrDefaultAsync(v => v.RevisionId == revision.Id && v.Process == which.Process, cancellation);
            return variant.Overrule(which.Revision, which.Process, which.Code, kept?.Judgement ?? Judgement.Unchecked, reason, by, now);
        }, cancellation);

    /// <exception cref="Catalogue.Model.RuleBrokenException"><c>not-found</c>.</exception>
    public static Task<Overruling> WithdrawOverrulingAsync(
        this CatalogueDb db, string figure, Func<Figure, Variant> find, OverruledFinding which, string by, DateTime now, CancellationToken cancellation) =>
        db.ChangeAsync(figure, find, which, now, variant => Task.FromResult(variant.WithdrawOverruling(which.Revision, which.Process, which.Code, by, now)), cancellation);

    private static Task<Overruling> ChangeAsync(
        this CatalogueDb db, string figure, Func<Figure, Variant> find, OverruledFinding which, DateTime now, Func<Variant, Task<Overruling>> change, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(find);
        ArgumentNullException.ThrowIfNull(which);
        return db.EditAsync(figure, async whole =>
        {
            var overruling = await change(find(whole));
            await db.SaveChangesAsync(cancellation);
            await RevisionVerdicts.WeighAgainAsync(db, overruling.RevisionId, which.Process, now, cancellation);
            return overruling;
        }, cancellation);
    }
}

/// <summary>A finding of a revision on a process.</summary>
public sealed record OverruledFinding(int Revision, string Process, string Code);
