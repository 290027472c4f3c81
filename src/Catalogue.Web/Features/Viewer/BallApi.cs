using System.ComponentModel;
using System.Globalization;
using System.Text.Json;
using Catalogue.Data;
using Catalogue.Geometry.Holes;
using Catalogue.Model;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Where a revision has balls or sockets of a diameter: what ball joints turn about.</summary>
internal static class BallApi
{
    private const double MostMm = 100;

    public static void MapBallApi(this IEndpointRouteBuilder app) => app.MapGroup(ShapeApi.Revision).WithTags("Viewer").ProducesProblem(404).ProducesProblem(422)
        .MapGet("/balls", GetAsync)
        .WithSummary("The balls, or the sockets, of about a diameter in a revision’s surface")
        .WithDescription("In the file's coordinates, mm; the largest part of a sphere first. Worked out when first asked for: until then 202 with the seconds to wait in Retry-After.");

    /// <param name="shape">The address of a revision's levels of detail.</param>
    public static string AddressOf(string shape, double diameter, bool hollow) =>
        string.Create(CultureInfo.InvariantCulture, $"{shape[..shape.LastIndexOf('/')]}/balls?diameter={diameter:0.##}{(hollow ? "&hollow=true" : "")}");

    private static async Task<Results<Ok<BallsView>, Accepted<NotYet>, StatusCodeHttpResult>> GetAsync(
        string figure, string part, string variant, int revision, [Description("About how wide they are, mm.")] double diameter, [Description("True for sockets.")] bool? hollow,
        HttpContext http, CatalogueDb db, ViewerDesk desk, CancellationToken cancellation)
    {
        var isHollow = hollow is true;
        if (diameter is not (> 0 and <= MostMm))
            throw new RuleBrokenException("dimension-invalid", $"A ball’s diameter is above 0 and at most {MostMm:0} mm. Ask with another one.");
        var viewed = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        var width = Math.Round(diameter, 2);
        var name = string.Create(CultureInfo.InvariantCulture, $"{ViewedShape.KeyOf(viewed.Sha256, viewed.Unit)}-{(isHollow ? "sockets" : "balls")}-{width:0.##}.json");
        var path = await desk.AskAsync(desk.Overlays, name, async stop =>
        {
            var mesh = await desk.ReadAsync(viewed.Sha256, viewed.Unit, stop);
            var found = await Task.Run(() => RoundBalls.Find(mesh, width, isHollow, stop), stop);
            var told = new BallsView([.. found.Select(b => new BallView([Tell(b.Center.X), Tell(b.Center.Y), Tell(b.Center.Z)], Tell(b.DiameterMm), Tell(b.Share)))]);
            await desk.Overlays.KeepAsync(name, JsonSerializer.SerializeToUtf8Bytes(told));
        }, cancellation);
        if (path is null) return NotYet.Say(http);
        if (ShapeApi.Kept(http, viewed, name)) return TypedResults.StatusCode(StatusCodes.Status304NotModified);
        return TypedResults.Ok(JsonSerializer.Deserialize<BallsView>(await File.ReadAllBytesAsync(path, cancellation))!);
    }

    private static double Tell(double value) => Math.Round(value, 4);
}

internal sealed record BallsView(IReadOnlyList<BallView> Balls);

/// <param name="Center">In the file's coordinates, mm.</param>
/// <param name="Share">How much of a whole sphere is there.</param>
internal sealed record BallView(double[] Center, double DiameterMm, double Share);
