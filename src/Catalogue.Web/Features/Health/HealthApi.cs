using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Web.Storage;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Health;

/// <summary>For whoever watches over the process: is it alive, and can it do its work.</summary>
internal static class HealthApi
{
    private static readonly string NoBlob = new('0', 64);

    public static void MapHealth(this IEndpointRouteBuilder app)
    {
        app.MapGet("/healthz", () => Results.Ok(new HealthView("alive"))).ExcludeFromDescription();
        app.MapGet("/readyz", ReadyAsync).ExcludeFromDescription();
    }

    /// <summary>Ready when the database answers with its newest schema, the store of files can be asked and the range has been read.</summary>
    private static async Task<IResult> ReadyAsync(CatalogueDb db, IBlobStore blobs, RangeIndex range, ILogger<HealthView> log, HttpResponse response, CancellationToken cancellation)
    {
        response.Headers.CacheControl = "no-store";
        try
        {
            if (!await db.Ranges.AnyAsync(cancellation) || (await db.Database.GetPendingMigrationsAsync(cancellation)).Any()) return NotReady("the database is not set up");
            await blobs.ExistsAsync(NoBlob, cancellation);
            await Task.WhenAny(range.CurrentAsync(cancellation).AsTask(), Task.Delay(500, cancellation));
            return range.IsThere ? Results.Ok(new HealthView("ready")) : NotReady("the range is being read; whoever asks now waits for it");
        }
        catch (Exception exception) when (exception is not OperationCanceledException)
        {
            log.LogWarning(exception, "Not ready");
            return NotReady("the database or the store of files does not answer");
        }
    }

    private static IResult NotReady(string why) => Results.Json(new HealthView("not ready") { Why = why }, statusCode: StatusCodes.Status503ServiceUnavailable);
}

internal sealed record HealthView(string Status)
{
    public string? Why { get; init; }
}
