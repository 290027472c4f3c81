using System.Globalization;
using System.Net;
using System.Threading.RateLimiting;
using Catalogue.Web.Storage;

namespace Catalogue.Web;

/// <summary>How often one address may do what costs much or could be guessed at. Counted per process.</summary>
internal static class RateLimits
{
    /// <summary>Trying names, passwords and set-up codes.</summary>
    public const string SignIn = "sign-in";

    /// <summary>Meshes inspected for anybody, without an account.</summary>
    public const string Inspections = "inspections";

    /// <summary>What is worked out on a published mesh for anybody: ways to lay it down (a page asks once, and once for each picture) and overlays.</summary>
    public const string Orientations = "orientations";

    /// <summary>Reports, from the page or the API.</summary>
    public const string Reports = "reports";

    /// <summary>What is asked for one part: the advice and its pictures.</summary>
    private const int OrientationRequests = 8;

    public static void AddRateLimits(this IServiceCollection services, CatalogueOptions options) => services.AddRateLimiter(limiter =>
    {
        limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        limiter.OnRejected = (rejected, _) =>
        {
            if (rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var wait))
                rejected.HttpContext.Response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
            return ValueTask.CompletedTask;
        };
        limiter.AddPolicy(SignIn, context => PostsPerMinute(context, options.SignInsPerMinute));
        limiter.AddPolicy(Inspections, context => PostsPerMinute(context, options.InspectionsPerMinute));
        limiter.AddPolicy(Orientations, context => PerMinute(context, OrientationRequests * options.InspectionsPerMinute));
        limiter.AddPolicy(Reports, context => PostsPerMinute(context, options.ReportsPerMinute));
    });

    private static RateLimitPartition<IPAddress> PostsPerMinute(HttpContext context, int permits) => HttpMethods.IsPost(context.Request.Method)
        ? PerMinute(context, permits)
        : RateLimitPartition.GetNoLimiter(IPAddress.None);

    private static RateLimitPartition<IPAddress> PerMinute(HttpContext context, int permits) =>
        RateLimitPartition.GetFixedWindowLimiter(NetworkOf(context.Connection.RemoteIpAddress), _ => new() { PermitLimit = permits, Window = TimeSpan.FromMinutes(1) });

    /// <summary>The address itself; of an IPv6 address the /64 it stands in, because one household has as many of those as it likes.</summary>
    private static IPAddress NetworkOf(IPAddress? address)
    {
        if (address is null) return IPAddress.Any;
        if (address.IsIPv4MappedToIPv6) return address.MapToIPv4();
        var bytes = address.GetAddressBytes();
        if (bytes.Length == 4) return address;
        Array.Clear(bytes, 8, 8);
        return new(bytes);
    }
}
