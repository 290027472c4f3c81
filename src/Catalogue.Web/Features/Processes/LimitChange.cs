using Catalogue.Data;
using Catalogue.Model;
using Catalogue.Model.Processes;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host changes a number that shapes are judged by, and says where it comes from; it takes effect as soon as every verdict is drawn by it.</summary>
internal sealed class LimitChange(CatalogueDb db, Rejudging rejudging)
{
    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public async Task<(Process Process, ProcessLimit Limit)> FindAsync(string process, string key, CancellationToken cancellation)
    {
        var found = await db.Processes.Include(p => p.Limits).SingleOrDefaultAsync(p => p.Code == process, cancellation)
            ?? throw new RuleBrokenException("not-found", $"There is no process “{process}” here.");
        return (found, found.Limit(key) ?? throw new RuleBrokenException("not-found", $"{found.Named()} has no limit “{key}”."));
    }

    /// <exception cref="RuleBrokenException"><c>limit-invalid</c>, <c>text-missing</c>, <c>not-found</c>.</exception>
    public async Task<ProcessLimit> MakeAsync(string process, string key, double value, string origin, CancellationToken cancellation)
    {
        var (_, limit) = await FindAsync(process, key, cancellation);
        limit.AskFor(value, origin);
        await using (var transaction = await db.Database.BeginTransactionAsync(cancellation))
        {
            await db.Rejudgements.ExecuteUpdateAsync(set => set.SetProperty(r => r.Asked, r => r.Asked + 1), cancellation);
            await db.SaveChangesAsync(cancellation);
            await transaction.CommitAsync(cancellation);
        }

        await rejudging.AskAsync(cancellation);
        return limit;
    }
}
