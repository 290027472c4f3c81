using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model.Processes;
using Catalogue.Model.Ranges;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Shared;

/// <summary>What every page says of the catalogue itself: the range, its promise and the processes. Read once per request.</summary>
public sealed class Masthead(CatalogueDb db, RangeSearch search, ILogger<Masthead> log)
{
    private RangePromise? _range;

    public async Task<RangePromise> RangeAsync() =>
        _range ??= await db.Ranges.AsNoTracking().SingleAsync(r => r.Id == RangePromise.OnlyId);

    /// <summary>The processes in their order.</summary>
    public async Task<IReadOnlyList<Process>> ProcessesAsync() =>
        (await search.SnapshotAsync(CancellationToken.None)).Processes;

    /// <summary>The range's title; a plain word when the database itself is what went wrong.</summary>
    public async Task<string> TitleAsync()
    {
        try
        {
            return (await RangeAsync()).Title;
        }
        catch (Exception exception) when (exception is System.Data.Common.DbException or InvalidOperationException or TimeoutException)
        {
            log.LogWarning(exception, "The range's title could not be read");
            return T($"Catalogue");
        }
    }

    /// <summary>The process's name for the reader, or its code when it is not one of ours.</summary>
    public async Task<string> NameOfAsync(string process) =>
        (await ProcessesAsync()).FirstOrDefault(p => p.Code == process)?.Named() ?? process;
}
