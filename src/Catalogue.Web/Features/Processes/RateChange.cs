using Catalogue.Data;
using Catalogue.Model;
using Catalogue.Model.Processes;
using Catalogue.Model.Ranges;
using Catalogue.Web.Features.Shared;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host changes what material, price and time are estimated by. Nothing is judged again: no verdict rests on it.</summary>
internal sealed class RateChange(CatalogueDb db)
{
    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public async Task<(Process Process, ProcessRate Rate)> FindAsync(string process, string key, CancellationToken cancellation)
    {
        var found = await db.Processes.Include(p => p.Rates).SingleOrDefaultAsync(p => p.Code == process, cancellation)
            ?? throw new RuleBrokenException("not-found", $"There is no process “{process}” here.");
        return (found, found.Rate(key) ?? throw new RuleBrokenException("not-found", $"{found.Named()} has no rate “{key}”."));
    }

    /// <exception cref="RuleBrokenException"><c>rate-invalid</c>, <c>spread-invalid</c>, <c>text-missing</c>, <c>not-found</c>.</exception>
    public async Task<ProcessRate> MakeAsync(string process, string key, double value, double spreadPercent, string origin, CancellationToken cancellation)
    {
        var (_, rate) = await FindAsync(process, key, cancellation);
        rate.Change(value, spreadPercent, origin);
        await db.SaveChangesAsync(cancellation);
        return rate;
    }

    public async Task<string> CurrencyAsync(CancellationToken cancellation) =>
        (await db.Ranges.AsNoTracking().SingleAsync(r => r.Id == RangePromise.OnlyId, cancellation)).Currency;

    /// <exception cref="RuleBrokenException"><c>currency-invalid</c>.</exception>
    public async Task<string> PriceInAsync(string currency, CancellationToken cancellation)
    {
        var range = await db.Ranges.SingleAsync(r => r.Id == RangePromise.OnlyId, cancellation);
        range.PriceIn(currency);
        await db.SaveChangesAsync(cancellation);
        return range.Currency;
    }
}
