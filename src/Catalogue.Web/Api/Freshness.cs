using Catalogue.Data.Ranges;
using Microsoft.Net.Http.Headers;

namespace Catalogue.Web.Api;

/// <summary>
/// Reads of the range carry an ETag that changes with the range and with the program, so that a reader who has the answer already is told so
/// without it being worked out again.
/// </summary>
internal sealed class Freshness(RangeIndex index) : IEndpointFilter
{
    private static readonly string Program = typeof(Freshness).Module.ModuleVersionId.ToString("N")[..8];

    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        var http = context.HttpContext;
        var snapshot = await index.CurrentAsync(http.RequestAborted);
        var tag = new EntityTagHeaderValue($"\"{Program}-{snapshot.Revision}\"", isWeak: true);
        var headers = http.Response.GetTypedHeaders();
        headers.ETag = tag;
        headers.CacheControl = new() { NoCache = true };
        var known = http.Request.GetTypedHeaders().IfNoneMatch;
        return known.Any(k => k.Compare(tag, useStrongComparison: false)) ? Results.StatusCode(StatusCodes.Status304NotModified) : await next(context);
    }
}

internal static class ReaderApi
{
    /// <summary>Endpoints that anybody may read, fresh as the range.</summary>
    public static RouteGroupBuilder MapReaderGroup(this IEndpointRouteBuilder app, string prefix, string tag)
    {
        var group = app.MapGroup(prefix).WithTags(tag);
        group.AddEndpointFilter<RouteGroupBuilder, Freshness>();
        group.WithMetadata(new ProducesResponseTypeMetadata(StatusCodes.Status304NotModified));
        return group;
    }
}
