using Catalogue.Data.Ranges;
using Catalogue.Model.Processes;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Processes;

/// <summary>The processes for programs, with every limit and where it comes from.</summary>
internal static class ProcessApi
{
    public static void MapProcessApi(this IEndpointRouteBuilder app) => app.MapReaderGroup("/api/processes", "Range")
        .MapGet("/", ListAsync).WithSummary("Processes, their materials, and the limits shapes are judged by");

    private static async Task<Ok<ProcessList>> ListAsync(RangeSearch search, CancellationToken cancellation)
    {
        var processes = (await search.SnapshotAsync(cancellation)).Processes.Select(ProcessView.Of).ToList();
        return TypedResults.Ok(new ProcessList(processes, processes.Count));
    }
}

internal sealed record ProcessList(IReadOnlyList<ProcessView> Items, int Total);

internal sealed record ProcessView(string Code, string Name, string Description, Material Material, IReadOnlyList<LimitView> Limits)
{
    public static ProcessView Of(Process process) => new(process.Code, process.Name, process.Description, process.Material,
        [.. process.Limits.OrderBy(l => l.Key, StringComparer.Ordinal).Select(l => new LimitView(l.Key, l.Value, l.Unit, l.Origin))]);
}

/// <param name="Origin">A published source, “common practice”, “from memory” or “set by the host”.</param>
internal sealed record LimitView(string Key, double Value, string Unit, string Origin);
