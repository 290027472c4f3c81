using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Printers;
using Catalogue.Model.Reports;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

namespace Catalogue.Web.Features.Reports;

/// <summary>Reports for programs: hand one in, read those of a figure.</summary>
internal static class ReportApi
{
    public static void MapReportApi(this IEndpointRouteBuilder app)
    {
        app.MapPost("/api/reports", FileAsync).WithTags("Reports").RequireRateLimiting(RateLimits.Reports)
            .WithMetadata(new RequestSizeLimitAttribute(ApiSetup.MaxBodyBytes))
            .ProducesProblem(404).ProducesProblem(422).ProducesProblem(429)
            .WithSummary("Report how a print of a part went").WithDescription("No account is needed. Send the same “key” again when no answer arrived: the report is kept once.");
        app.MapReaderGroup("/api/figures/{figure}/reports", "Reports").MapGet("/", ListAsync).ProducesProblem(404)
            .WithSummary("What was reported of a figure, newest first");
    }

    private static async Task<Created<ReportView>> FileAsync(
        ReportWish wish, ReportDesk desk, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation)
    {
        var details = await FigureDetails.LoadAsync(db, await search.SnapshotAsync(cancellation), wish.Figure ?? "", cancellation);
        var part = details.Shown.Parts.FirstOrDefault(p => p.Slug == wish.Part)
            ?? throw new RuleBrokenException("not-found", $"“{details.Figure.Title}” has no published part “{wish.Part}”. Your report was not kept.");
        var report = await desk.FileAsync(details, part, wish.Variant, wish.Revision, wish.Text(), wish.Key, cancellation);
        return TypedResults.Created($"{request.PathBase}/api/figures/{details.Figure.Slug}/reports", ReportView.Of(report, details));
    }

    private static async Task<Ok<ReportList>> ListAsync(
        string figure, CatalogueDb db, RangeSearch search, CancellationToken cancellation, string? part = null, int page = 1, int size = 100)
    {
        var answer = await FigureAnswer.LoadAsync(db, search, figure, Printer.Unknown, cancellation);
        if (part is not null && answer.Parts.All(p => p.Part.Slug != part)) throw new RuleBrokenException("not-found", $"“{figure}” has no published part “{part}”.");
        var wanted = answer.Parts.FirstOrDefault(p => p.Part.Slug == part);
        var reports = answer.Details.Reports.Where(r => wanted is null || r.PartId == wanted.Part.Id).ToList();
        size = Math.Clamp(size, 1, 500);
        var shown = reports.Skip((int)Math.Min((Math.Max(1L, page) - 1) * size, int.MaxValue)).Take(size);
        return TypedResults.Ok(new ReportList([.. shown.Select(r => ReportView.Of(r, answer.Details))], reports.Count,
            [.. answer.Parts.Where(p => wanted is null || p == wanted).Select(p => PartTally.Of(p.Part.Slug, answer.ReportsOf(p))).OfType<PartTally>()]));
    }
}

/// <summary>A report as a program hands it in.</summary>
internal sealed record ReportWish
{
    public string? Figure { get; init; }
    public string? Part { get; init; }

    /// <summary>Absent = the one made for the process.</summary>
    public string? Variant { get; init; }

    /// <summary>Absent = the one shown now.</summary>
    public int? Revision { get; init; }

    public string? Process { get; init; }
    public ReportOutcome? Outcome { get; init; }
    public ReportSymptom? Symptom { get; init; }
    public ReportStage? Stage { get; init; }

    /// <summary>The printer and its settings, in your own words.</summary>
    public string? Printer { get; init; }

    public double? LayerHeightMm { get; init; }
    public string? Note { get; init; }
    public string? ReportedBy { get; init; }

    /// <summary>Any UUID of your own; the same one sent again is the same report.</summary>
    public Guid? Key { get; init; }

    public ReportText Text() => new(
        Process ?? "",
        Outcome ?? throw new RuleBrokenException("outcome-missing", $"“outcome” is missing. Your report was not kept; send worked, worked-with-care or failed."),
        Symptom ?? ReportSymptom.None,
        Stage ?? (Outcome == ReportOutcome.Worked
            ? ReportStage.Use
            : throw new RuleBrokenException("stage-missing", $"“stage” is missing. Your report was not kept; send printing, cleaning, assembly or use.")))
    {
        Printer = Printer,
        LayerHeightMm = LayerHeightMm,
        Note = Note,
        ReportedBy = ReportedBy,
    };
}

/// <param name="Tallies">Per part that was reported: prints of the files shown now, and of earlier revisions.</param>
internal sealed record ReportList(IReadOnlyList<ReportView> Items, int Total, IReadOnlyList<PartTally> Tallies);

internal sealed record PartTally(string Part, TallyView Now, TallyView Earlier)
{
    public static PartTally? Of(string part, PartReports reports) => reports.Any ? new(part, TallyView.Of(reports.Now), TallyView.Of(reports.Earlier)) : null;
}

internal sealed record TallyView(int Total, int Failed, int WorkedWithCare)
{
    public static TallyView Of(ReportTally tally) => new(tally.Total, tally.Failed, tally.WithCare);
}

internal sealed record ReportView(
    Guid Id, string? Part, string? Variant, int? Revision, string Process, ReportOutcome Outcome, ReportSymptom Symptom, ReportStage Stage, string Printer,
    double? LayerHeightMm, string Note, string ReportedBy, DateTime ReportedAt)
{
    public string? Answer { get; init; }
    public int? AnsweredByRevision { get; init; }
    public DateTime? AnsweredAt { get; init; }

    public static ReportView Of(Report report, FigureDetails details)
    {
        var (part, variant, revision) = Find(details, report.RevisionId);
        return new(report.Id, part ?? details.Shown.Parts.FirstOrDefault(p => p.Id == report.PartId)?.Slug, variant, revision?.Number, report.Process, report.Outcome,
            report.Symptom, report.Stage, report.Printer, report.LayerHeightMm, report.Note, report.ReportedBy, report.ReportedAt)
        {
            Answer = report.AnsweredAt is null ? null : report.Answer,
            AnsweredByRevision = report.AnsweredByRevisionId is { } by ? Find(details, by).Revision?.Number : null,
            AnsweredAt = report.AnsweredAt,
        };
    }

    private static (string? Part, string? Variant, Revision? Revision) Find(FigureDetails details, Guid id)
    {
        foreach (var part in details.Shown.Parts)
        {
            foreach (var variant in part.Variants)
            {
                if (details.RevisionsOfVariant[variant.Id].FirstOrDefault(r => r.Id == id) is { } found) return (part.Slug, variant.Slug, found);
            }
        }

        return (null, null, null);
    }
}
