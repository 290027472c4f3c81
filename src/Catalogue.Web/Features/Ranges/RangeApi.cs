using System.ComponentModel;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Ranges;

/// <summary>The range for programs.</summary>
internal static class RangeApi
{
    public static void MapRangeApi(this IEndpointRouteBuilder app)
    {
        var range = app.MapReaderGroup("/api/figures", "Range");
        range.MapGet("/", FindAsync).ProducesProblem(422)
            .WithSummary("Published figures, and whether they suit a printer")
            .WithDescription("Without a printer no figure has a verdict. With a build volume alone, the verdict is that of the process which suits best. "
                + "Words are searched without regard to case and accents, as whole words, beginnings of words, or within them; when no figure has all of them so, a few wrong "
                + "letters are forgiven and “taken” says where. Filters of one kind widen each other, those of different kinds narrow.");
    }

    private static async Task<Ok<RangeView>> FindAsync(
        RangeSearch search, HttpRequest request, CancellationToken cancellation,
        [Description("Words that must all be answered by title, summary, tags, part names or hardware.")] string? q = null,
        [Description("Heights in mm, such as 90-120, -60 or 200-; several with commas.")] string? height = null,
        [Description("Hours that the printer of the process is busy with the files as they lie, such as 4-8, -2 or 32-; several with commas. Ignored without a process.")] string? time = null,
        [Description("A kind of hardware that the figure takes, such as rod or magnet, or none; several with commas.")] string? needs = null,
        [Description("An SPDX licence identifier; several with commas.")] string? licence = null,
        [Description("A tag of designers; several with commas.")] string? tag = null,
        [Description("A process code such as VPP-rigid.")] string? process = null,
        [Description("A build volume, width x depth x height in mm: 64x114x152.")] string? volume = null,
        [Description("A round build volume, diameter x height in mm: 200x300.")] string? round = null,
        [Description("Kept free on every side, in mm.")] double? margin = null,
        [Description("suits, care, unsuited or unchecked; several with commas.")] string? verdict = null,
        [Description("title, verdict, newest, height, time (the quickest on the process) or match: the best answer to the words first. Without it match with words, else title.")] string? sort = null,
        [Description("From 1.")] int page = 1,
        [Description("Figures on a page, up to 200.")] int size = 24)
    {
        // The words are read in one place for page and API; the parameters above are there for the description.
        _ = (q, height, time, needs, licence, tag, process, volume, round, margin, verdict, sort, page, size);
        var printer = PrinterLink.Read(request.Query) ?? Printer.Unknown;
        (await search.SnapshotAsync(cancellation)).CheckKnown(printer);
        var filters = RangeFilters.Read(request.Query);
        var found = await search.FindAsync(filters.For(printer) with { Order = filters.Order ?? (filters.Words.Length > 0 ? RangeOrder.Match : RangeOrder.Title) }, cancellation);
        return TypedResults.Ok(new RangeView([.. found.Items.Select(RangeItemView.Of)], found.Total, found.Page, found.Size)
        {
            Counts = found.Counts.Count == 0 ? null : found.Counts.OrderBy(c => c.Key).ToDictionary(c => Words.Of(c.Key), c => c.Value),
            Open = found.Open == 0 ? null : found.Open,
            TotalIsExact = found.IsTotalExact,
            Taken = found.Taken.Count == 0 ? null : found.Taken,
            Facets = FacetsView.Of(found.Facets),
        });
    }
}

/// <param name="Total">How many figures match, on all pages.</param>
internal sealed record RangeView(IReadOnlyList<RangeItemView> Items, int Total, int Page, int Size)
{
    /// <summary>For a printer: how many figures have which verdict, whichever verdicts were asked for.</summary>
    public IReadOnlyDictionary<string, int>? Counts { get; init; }

    /// <summary>
    /// How many figures are in none of the counts yet, because a part of them is so close to the volume's limit that only a long search can tell; absent when
    /// none. Those on the page are always settled; asking again settles more.
    /// </summary>
    public int? Open { get; init; }

    /// <summary>False when open figures might have the verdict asked for: then the total is the least there are.</summary>
    public bool TotalIsExact { get; init; }

    /// <summary>Words that no figure has just as written, each with those taken for it; absent when all are there as written.</summary>
    public IReadOnlyList<WordTaken>? Taken { get; init; }

    /// <summary>What the figures could be narrowed down by. Each value says how many figures there are with it and every other filter.</summary>
    public required FacetsView Facets { get; init; }
}

/// <summary>Values of the filters <c>height</c>, <c>time</c>, <c>needs</c>, <c>licence</c> and <c>tag</c>, and the processes.</summary>
/// <param name="Processes">On each, how many figures surely suit, with or without care, in the volume asked about or in any.</param>
internal sealed record FacetsView(
    IReadOnlyList<FacetView> Height, IReadOnlyList<FacetView> Time, IReadOnlyList<FacetView> Needs, IReadOnlyList<FacetView> Licence, IReadOnlyList<FacetView> Tag,
    IReadOnlyList<FacetView> Processes)
{
    public static FacetsView Of(RangeFacets facets) => new(
        [.. facets.Heights.Select(h => new FacetView(h.Value.Code, h.Figures))], [.. facets.Times.Select(t => new FacetView(t.Value.Code, t.Figures))],
        [.. facets.Needs.Select(n => new FacetView(RangeFilters.CodeOf(n.Value), n.Figures))],
        [.. facets.Licences.Select(l => new FacetView(l.Value, l.Figures))],
        [.. facets.Tags.Select(t => new FacetView(t.Value, t.Figures))], [.. facets.Processes.Select(p => new FacetView(p.Value, p.Figures))]);
}

/// <param name="Value">As the filter takes it.</param>
internal sealed record FacetView(string Value, int Figures);

/// <summary>A figure of the range; verdict, its process and its reasons are there when a printer was asked about.</summary>
/// <param name="Pieces">Prints for one figure, accessories apart.</param>
internal sealed record RangeItemView(
    string Slug, string Title, string Summary, double HeightMm, double? ScaleDenominator, string Licence, int Pieces, int Edition, DateTime PublishedAt)
{
    /// <summary>Designers' own words to find figures by that belong together.</summary>
    public required IReadOnlyList<string> Tags { get; init; }

    public string? Process { get; init; }
    public Verdict? Verdict { get; init; }
    public IReadOnlyList<ReasonView>? Reasons { get; init; }

    /// <summary>What the material costs on that process, supports apart, in the host's currency (<c>/api/processes</c> has it); absent where the figure does not suit or no price is known.</summary>
    public double? MaterialPrice { get; init; }

    /// <summary>
    /// Hours that the printer is busy with it as its files lie: with the quickest member of every choice, supports apart, filament one print after another, resin and powder all on one plate.
    /// Absent without a process, and where the figure does not suit or a part has no sound file for it. The figure's own page has the estimate with its range.
    /// </summary>
    public double? PrintHours { get; init; }

    /// <summary>The verdict with the usual member of every choice; absent where it is the same.</summary>
    public Verdict? UsualVerdict { get; init; }

    public static RangeItemView Of(RangeItem item)
    {
        var f = item.Figure;
        return new(f.Slug, f.Title, f.Summary, f.HeightMm, f.ScaleDenominator, f.Licence, Shared.Pieces.Of(f), f.EditionNumber, f.PublishedAt)
        {
            Tags = f.Tags,
            Process = item.Process,
            Verdict = item.Verdict?.Verdict,
            Reasons = item.Verdict is null ? null : ReasonView.Of(item.Verdict),
            MaterialPrice = item.MaterialPrice is { } price ? Math.Round(price, 4) : null,
            PrintHours = item.PrintHours is { } hours ? Math.Round(hours, 2) : null,
            UsualVerdict = item.Verdict is { } verdict && verdict.Usual.Verdict != verdict.Verdict ? verdict.Usual.Verdict : null,
        };
    }
}
