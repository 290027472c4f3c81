using Catalogue.Data.Ranges;
using Catalogue.Model.Processes;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Processes;

/// <summary>The processes for programs, with every limit and where it comes from.</summary>
internal static class ProcessApi
{
    public static void MapProcessApi(this IEndpointRouteBuilder app) => app.MapReaderGroup("/api/processes", "Range")
        .MapGet("/", ListAsync).WithSummary("Processes, their materials, the limits shapes are judged by, and the rates that material, price and time are estimated by");

    private static async Task<Ok<ProcessList>> ListAsync(RangeSearch search, CancellationToken cancellation)
    {
        var snapshot = await search.SnapshotAsync(cancellation);
        return TypedResults.Ok(new ProcessList([.. snapshot.Processes.Select(ProcessView.Of)], snapshot.Processes.Count, snapshot.Currency));
    }
}

/// <param name="Currency">What prices are in, ISO 4217.</param>
internal sealed record ProcessList(IReadOnlyList<ProcessView> Items, int Total, string Currency);

internal sealed record ProcessView(string Code, string Name, string Description, Material Material, IReadOnlyList<LimitView> Limits, IReadOnlyList<RateView> Rates)
{
    public static ProcessView Of(Process process) => new(process.Code, Known(process.Name), Known(process.Description), process.Material,
        [.. process.Limits.OrderBy(l => l.Key, StringComparer.Ordinal).Select(l => new LimitView(l.Key, l.Value, l.Unit, Known(l.Origin)))],
        [.. process.Rates.OrderBy(r => r.Key, StringComparer.Ordinal).Select(r => new RateView(r.Key, r.Value, r.Unit, r.SpreadPercent, Known(r.Origin)))]);
}

/// <param name="Origin">A published source, “common practice”, “from memory” or “set by the host”.</param>
internal sealed record LimitView(string Key, double Value, string Unit, string Origin);

/// <param name="SpreadPercent">How far it may be off, up or down.</param>
/// <param name="Origin">A published source, “common practice” or “set by the host”.</param>
internal sealed record RateView(string Key, double Value, string Unit, double SpreadPercent, string Origin);
