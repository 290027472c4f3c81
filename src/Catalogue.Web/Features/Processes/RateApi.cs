using Catalogue.Web.Accounts;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Features.Processes;

/// <summary>The host's changes of rates and of the currency.</summary>
internal static class RateApi
{
    public static void MapRateApi(this IEndpointRouteBuilder app)
    {
        app.MapPut("/api/processes/{process}/rates/{key}", ChangeAsync)
            .RequireAuthorization(AccountSetup.HostApi)
            .WithMetadata(new RequestSizeLimitAttribute(ApiSetup.MaxBodyBytes))
            .WithTags("Processes")
            .WithSummary("Change a number that material, price and time are estimated by, how far it may be off, and where it comes from; the host's token only")
            .WithExample("""{"value":28,"spreadPercent":10,"origin":"our usual shop"}""")
            .ProducesProblem(401).ProducesProblem(403).ProducesProblem(404).ProducesProblem(422);
        app.MapPut("/api/currency", PriceInAsync)
            .RequireAuthorization(AccountSetup.HostApi)
            .WithMetadata(new RequestSizeLimitAttribute(ApiSetup.MaxBodyBytes))
            .WithTags("Processes")
            .WithSummary("Name the currency that prices are in; nothing is converted; the host's token only")
            .WithExample("""{"currency":"EUR"}""")
            .ProducesProblem(401).ProducesProblem(403).ProducesProblem(422);
    }

    private static async Task<Ok<ChangedRate>> ChangeAsync(string process, string key, RateWords words, RateChange change, CancellationToken cancellation)
    {
        var rate = await change.MakeAsync(process, key, words.Value ?? double.NaN, words.SpreadPercent ?? double.NaN, words.Origin ?? "", cancellation);
        return TypedResults.Ok(new ChangedRate(process, rate.Key, rate.Value, rate.Unit, rate.SpreadPercent, rate.Origin));
    }

    private static async Task<Ok<CurrencyWords>> PriceInAsync(CurrencyWords words, RateChange change, CancellationToken cancellation) =>
        TypedResults.Ok(new CurrencyWords(await change.PriceInAsync(words.Currency ?? "", cancellation)));
}

/// <param name="SpreadPercent">How far it may be off, up or down: 0 to 100.</param>
/// <param name="Origin">A published source, “common practice”, “set by the host”, or the like.</param>
internal sealed record RateWords(double? Value, double? SpreadPercent, string? Origin);

internal sealed record ChangedRate(string Process, string Key, double Value, string Unit, double SpreadPercent, string Origin);

/// <param name="Currency">ISO 4217.</param>
internal sealed record CurrencyWords(string? Currency);
