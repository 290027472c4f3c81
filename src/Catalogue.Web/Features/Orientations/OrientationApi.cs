using System.ComponentModel;
using System.Globalization;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Orientations;

/// <summary>Ways to lay a published part down on a printer, and their pictures.</summary>
internal static class OrientationApi
{
    public static void MapOrientations(this IEndpointRouteBuilder app)
    {
        app.MapReaderGroup("/api/figures/{figure}/parts/{part}/orientations", "Figures").MapGet("/", GetAsync).ProducesProblem(404).ProducesProblem(422).ProducesProblem(429).ProducesProblem(503)
            .RequireRateLimiting(RateLimits.Orientations)
            .WithSummary("A handful of ways to lay a part down on a printer: supports, height, pools and suction of each")
            .WithDescription("Only ways that fit, none beaten by another in everything. Of the file that suits the printer, or of the variant named. Needs a process and a volume. "
                + "Worked out when first asked for, which takes seconds, then kept. Lengths in mm, areas in mm², volumes in mm³; rotations row-major, from the file's pose to the plate.");
        app.MapGet("/figures/{figure}/parts/{part}/orientations/{way:int}/picture/{size:int}.{format}", PictureAsync)
            .RequireRateLimiting(RateLimits.Orientations).ExcludeFromDescription();
    }

    /// <summary>The address of a way's picture, with the same printer.</summary>
    public static string PicturePathOf(Visitor visitor, LaidPart laid, int way) => visitor.Link(string.Create(CultureInfo.InvariantCulture,
        $"/figures/{laid.Figure}/parts/{laid.Part}/orientations/{way}/picture/320.webp?variant={laid.Variant}&v={laid.Question.Name[..12]}-{OrientationPicture.Version}"));

    private static async Task<Ok<PartOrientations>> GetAsync(
        string figure, string part, [AsParameters] PrinterWords printer, CatalogueDb db, RangeSearch search, OrientationDesk desk, HttpRequest request, CancellationToken cancellation,
        [Description("The slug of a variant; absent = the one to take for the printer.")] string? variant = null)
    {
        var laid = await LaidPart.FindAsync(db, search, figure, part, variant, PrinterLink.Read(request.Query) ?? Printer.Unknown, cancellation);
        var advice = await desk.AdviceAsync(laid.Question, cancellation);
        return TypedResults.Ok(new PartOrientations(laid.Part, laid.Variant, laid.Revision, laid.Process.Code, laid.Question.Room.ToString(), advice));
    }

    private static async Task<IResult> PictureAsync(
        string figure, string part, int way, int size, string format, HttpContext http, CatalogueDb db, RangeSearch search, OrientationDesk desk, CancellationToken cancellation,
        string? variant = null, string? v = null)
    {
        if (!PicturePath.Sizes.Contains(size) || format is not ("webp" or "png"))
            throw new RuleBrokenException("not-found", $"Pictures are {string.Join(", ", PicturePath.Sizes)} pixels wide, as webp and png.");
        var laid = await LaidPart.FindAsync(db, search, figure, part, variant, PrinterLink.Read(http.Request.Query) ?? Printer.Unknown, cancellation);
        var picture = await desk.PictureAsync(laid.Question, way, size, format, cancellation);
        var mark = string.Create(CultureInfo.InvariantCulture, $"{laid.Question.Name[..12]}-{OrientationPicture.Version}");

        // An address that names the picture never shows another one.
        http.Response.Headers.CacheControl = v == mark ? "public, max-age=31536000, immutable" : "public, max-age=60";
        return Results.File(picture, format == "png" ? "image/png" : "image/webp", entityTag: new(FormattableString.Invariant($"\"{mark}-{way}-{size}-{format}\"")));
    }
}

/// <param name="Volume">The build volume asked about, mm.</param>
/// <param name="Orientations">Absent when it is not clear what is inside the mesh: it is open, or pieces of it are inside out.</param>
internal sealed record PartOrientations(string Part, string Variant, int Revision, string Process, string Volume, OrientationsReport? Orientations);

/// <summary>A part's file that is laid down, and what it is laid down in.</summary>
internal sealed record LaidPart(string Figure, string Part, string Variant, int Revision, Process Process, LaidDown Question)
{
    /// <exception cref="RuleBrokenException"><c>not-found</c>; <c>printer-needed</c> when process or volume is not said; <c>process-unknown</c>.</exception>
    public static async Task<LaidPart> FindAsync(
        CatalogueDb db, RangeSearch search, string figure, string part, string? variant, Printer printer, CancellationToken cancellation)
    {
        var answer = await FigureAnswer.LoadAsync(db, search, figure, printer, cancellation);
        var found = answer.Parts.FirstOrDefault(p => p.Part.Slug == part)
            ?? throw new RuleBrokenException("not-found", $"“{answer.Figure.Title}” has no published part “{part}”. Its page shows the parts there are.");
        return Of(answer, found, variant, printer);
    }

    public static LaidPart Of(FigureAnswer answer, PartAnswer part, string? variant, Printer printer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(part);
        ArgumentNullException.ThrowIfNull(printer);
        if (answer.Asked is not { Process: { } process } || printer.Volume is not { } room)
            throw new RuleBrokenException("printer-needed", $"Which way a part lies best depends on the printer: say the process and the build volume, for example ?process=VPP-rigid&volume=64x114x152.");
        var taken = variant is null
            ? part.Chosen ?? part.Variants.FirstOrDefault(v => v.Variant.MadeFor.Contains(process.Code)) ?? (part.Variants.Count > 0 ? part.Variants[0] : null)
            : part.Variants.FirstOrDefault(v => v.Variant.Slug == variant);
        if (taken is null) throw new RuleBrokenException("not-found", $"This part has no published file of that name. Its page shows those there are.");
        return new(answer.Figure.Slug, part.Part.Slug, taken.Variant.Slug, taken.Revision.Number, process,
            LaidDown.Of(taken.Revision.Sha256, taken.Revision.StatedUnit, process, room));
    }
}
