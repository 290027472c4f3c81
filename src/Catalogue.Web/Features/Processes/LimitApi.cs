using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host's changes of limits.</summary>
internal static class LimitApi
{
    public static void MapLimitApi(this IEndpointRouteBuilder app) => app.MapPut("/api/processes/{process}/limits/{key}", ChangeAsync)
        .RequireAuthorization(AccountSetup.HostApi)
        .WithMetadata(new RequestSizeLimitAttribute(ApiSetup.MaxBodyBytes))
        .WithTags("Processes")
        .WithSummary("Change a limit of a process, with where the number comes from; the host's token only")
        .WithDescription("Every revision is judged by it in the background; then it takes effect for all of them at once.")
        .WithExample("""{"value":1.2,"origin":"set by the host"}""")
        .ProducesProblem(401).ProducesProblem(403).ProducesProblem(404).ProducesProblem(422);

    private static async Task<Ok<ChangedLimit>> ChangeAsync(string process, string key, LimitWords words, LimitChange change, CancellationToken cancellation)
    {
        var limit = await change.MakeAsync(process, key, words.Value ?? double.NaN, words.Origin ?? "", cancellation);
        return TypedResults.Ok(new ChangedLimit(process, limit.Key, limit.NextValue ?? limit.Value, limit.Unit, limit.NextOrigin ?? limit.Origin));
    }
}

/// <param name="Origin">A published source, “common practice”, “set by the host”, or the like.</param>
internal sealed record LimitWords(double? Value, string? Origin);

internal sealed record ChangedLimit(string Process, string Key, double Value, string Unit, string Origin);
