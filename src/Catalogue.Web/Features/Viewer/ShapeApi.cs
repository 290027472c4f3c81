using System.ComponentModel;
using System.Globalization;
using Catalogue.Data;
using Catalogue.Model;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;

namespace Catalogue.Web.Features.Viewer;

/// <summary>What the viewer draws: a revision's surface as glTF, in levels of detail.</summary>
internal static class ShapeApi
{
    public const string Revision = "/api/figures/{figure}/parts/{part}/variants/{variant}/revisions/{revision:int}";

    public static void MapShapeApi(this IEndpointRouteBuilder app)
    {
        var shapes = app.MapGroup(Revision).WithTags("Viewer").ProducesProblem(404);
        shapes.MapGet("/shape", GetAsync)
            .WithSummary("A revision's levels of detail, for looking at it")
            .WithDescription("Made when first asked for: until then 202 with the seconds to wait in Retry-After. Unpublished revisions are for designers.");
        shapes.MapGet("/shape/{level:int}.glb", ModelAsync)
            .Produces(200, contentType: "model/gltf-binary")
            .WithSummary("A level of detail as glTF 2.0 binary with KHR_mesh_quantization")
            .WithDescription("Metres, y up; its inner node holds the file's own millimetres. Addresses that the list of levels gives never change.");
    }

    private static async Task<Results<Ok<ShapeView>, Accepted<NotYet>, StatusCodeHttpResult>> GetAsync(
        string figure, string part, string variant, int revision, HttpContext http, CatalogueDb db, ViewerDesk desk, CancellationToken cancellation)
    {
        var viewed = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        if (await ViewedShape.AskAsync(desk, viewed, cancellation) is not { } shape) return NotYet.Say(http);
        var key = ViewedShape.KeyOf(viewed.Sha256, viewed.Unit);
        if (Kept(http, viewed, key)) return TypedResults.StatusCode(StatusCodes.Status304NotModified);
        var here = http.Request.PathBase + http.Request.Path;
        return TypedResults.Ok(new ShapeView(shape.Triangles, shape.Min, shape.Max,
            [.. shape.Levels.Select((l, i) => new LevelView(l.Triangles, l.DeviationMm, l.Bytes, string.Create(CultureInfo.InvariantCulture, $"{here}/{i}.glb?v={key[..12]}")))]));
    }

    private static async Task<IResult> ModelAsync(
        string figure, string part, string variant, int revision, int level, HttpContext http, CatalogueDb db, ViewerDesk desk, CancellationToken cancellation,
        [Description("As the list of levels gives it.")] string? v = null)
    {
        var viewed = await ViewedRevision.FindAsync(db, http, figure, part, variant, revision, cancellation);
        var key = ViewedShape.KeyOf(viewed.Sha256, viewed.Unit);
        var name = ViewedShape.ModelOf(key, Math.Clamp(level, 0, 99));
        var path = desk.Shapes.PathOf(name);
        if (!File.Exists(path))
            throw new RuleBrokenException("not-found", $"There is no such level of detail. Ask for the list of levels first: it makes them and gives their addresses.");
        http.Response.Headers.CacheControl = viewed.Keeping(forEver: v == key[..12]);
        return Results.File(path, "model/gltf-binary", entityTag: new EntityTagHeaderValue($"\"{name}\""));
    }

    /// <summary>Marks the answer, and tells whether the reader has it already.</summary>
    public static bool Kept(HttpContext http, ViewedRevision viewed, string mark)
    {
        var tag = new EntityTagHeaderValue($"\"{mark}\"");
        http.Response.GetTypedHeaders().ETag = tag;
        http.Response.Headers.CacheControl = viewed.Keeping(forEver: false);
        return http.Request.GetTypedHeaders().IfNoneMatch.Any(k => k.Compare(tag, useStrongComparison: false));
    }
}

/// <summary>A surface to look at; the file's own coordinates, mm.</summary>
/// <param name="Triangles">In the file.</param>
/// <param name="Levels">The coarsest first.</param>
internal sealed record ShapeView(int Triangles, double[] Min, double[] Max, IReadOnlyList<LevelView> Levels);

/// <param name="DeviationMm">How far it is off the file's surface at most, as sampled; 0 = it is the file's surface.</param>
/// <param name="Address">Of the glTF file.</param>
internal sealed record LevelView(int Triangles, double DeviationMm, long Bytes, string Address);

/// <summary>It is being made.</summary>
internal sealed record NotYet(string Message)
{
    public static Accepted<NotYet> Say(HttpContext http)
    {
        http.Response.Headers.RetryAfter = "1";
        http.Response.Headers.CacheControl = "no-store";
        return TypedResults.Accepted((string?)null, new NotYet(T($"It is being made. Ask again in a moment.")));
    }
}
