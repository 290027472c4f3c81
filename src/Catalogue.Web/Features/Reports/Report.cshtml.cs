using System.Globalization;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Reports;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.RateLimiting;

namespace Catalogue.Web.Features.Reports;

/// <summary>“Report how it went”: four taps on a phone; everything else may be left out.</summary>
[EnableRateLimiting(RateLimits.Reports)]
[RequestSizeLimit(64 * 1024)]
internal sealed class ReportPageModel(CatalogueDb db, RangeSearch search, ReportDesk desk, Visitor visitor) : PageModel
{
    public FigureAnswer Answer { get; private set; } = null!;
    public PartAnswer Part { get; private set; } = null!;

    /// <summary>What was typed, or what is likely.</summary>
    public ReportForm Form { get; private set; } = new();

    /// <summary>Why the report was not kept.</summary>
    public string? Refusal { get; private set; }

    public bool Thanks { get; private set; }

    public string Path => $"/figures/{Answer.Figure.Slug}/parts/{Part.Part.Slug}";

    /// <summary>Every published file of the part: variant, number and a name to choose it by.</summary>
    public IEnumerable<(string Value, string Name)> Files => Part.Variants.SelectMany(v => Answer.Details.RevisionsOfVariant[v.Variant.Id].Select(r =>
        (string.Create(CultureInfo.InvariantCulture, $"{v.Variant.Slug}/{r.Number}"),
            NameOf(Part.Variants.Count > 1 ? v.Variant.Name : null, r.Number, r.Id == v.Revision.Id))));

    private static string NameOf(string? variant, int number, bool isShown) => (variant, isShown) switch
    {
        (null, true) => T($"Revision {number}, shown now"),
        (null, false) => T($"Revision {number}"),
        (_, true) => T($"{variant}, revision {number}, shown now"),
        _ => T($"{variant}, revision {number}"),
    };

    public async Task OnGetAsync(string figure, string part, bool thanks, CancellationToken cancellation)
    {
        await LoadAsync(figure, part, cancellation);
        Thanks = thanks;
        var likely = Part.Chosen ?? (Part.Variants.Count > 0 ? Part.Variants[0] : null);
        Form = new()
        {
            Process = visitor.Printer.Process ?? (likely?.Variant.MadeFor is [var only] ? only : ""),
            File = likely is null ? "" : string.Create(CultureInfo.InvariantCulture, $"{likely.Variant.Slug}/{likely.Revision.Number}"),
        };
    }

    public async Task<IActionResult> OnPostAsync(string figure, string part, [FromForm] ReportForm form, CancellationToken cancellation)
    {
        await LoadAsync(figure, part, cancellation);
        Form = form;

        // The field no person sees was filled in: say thanks and keep nothing.
        if (!string.IsNullOrEmpty(form.Website)) return Done();
        try
        {
            var (variant, number) = form.Printed();
            await desk.FileAsync(Answer.Details, Part.Part, variant, number, form.Text(), form.Key, cancellation);
            return Done();
        }
        catch (RuleBrokenException broken)
        {
            Refusal = broken.Said.ToString();
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }
    }

    private RedirectResult Done() => Redirect(visitor.Link(Path + "/report?thanks=true"));

    private async Task LoadAsync(string figure, string part, CancellationToken cancellation)
    {
        Answer = await FigureAnswer.LoadAsync(db, search, figure, visitor.Printer, cancellation);
        Part = Answer.Parts.FirstOrDefault(p => p.Part.Slug == part)
            ?? throw new RuleBrokenException("not-found", $"“{Answer.Figure.Title}” has no published part “{part}”. Its page shows the parts there are.");
    }
}

/// <summary>The form as it was sent; words that are missing or unknown are told when it is read.</summary>
internal sealed class ReportForm
{
    /// <summary>The same for every press of the same form's button.</summary>
    public Guid Key { get; set; } = Guid.CreateVersion7();

    /// <summary><c>variant/number</c>.</summary>
    public string? File { get; set; }

    public string? Process { get; set; }
    public string? Outcome { get; set; }
    public string? Symptom { get; set; }
    public string? Stage { get; set; }
    public string? Printer { get; set; }
    public string? LayerHeight { get; set; }
    public string? Note { get; set; }
    public string? ReportedBy { get; set; }

    /// <summary>Not for people.</summary>
    public string? Website { get; set; }

    public (string? Variant, int? Number) Printed()
    {
        if (string.IsNullOrEmpty(File)) return (null, null);
        var parts = File.Split('/');
        return parts.Length == 2 && int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? (parts[0], number)
            : throw new RuleBrokenException("file-invalid", $"The file you printed is none of the list. Your report was not kept; choose it again.");
    }

    /// <exception cref="RuleBrokenException">A choice is missing or unknown.</exception>
    public ReportText Text()
    {
        if (string.IsNullOrEmpty(Process))
            throw new RuleBrokenException("process-missing", $"The process is missing. Your report was not kept yet; choose what you printed with.");
        var outcome = Chosen<ReportOutcome>(Outcome, "outcome-missing", $"How it went is missing. Your report was not kept yet; choose it and send again.");
        var symptom = outcome == ReportOutcome.Worked ? ReportSymptom.None
            : string.IsNullOrEmpty(Symptom) ? ReportSymptom.None
            : Chosen<ReportSymptom>(Symptom, "symptom-missing", $"What happened is missing. Your report was not kept yet; choose it and send again.");
        var stage = outcome == ReportOutcome.Worked && string.IsNullOrEmpty(Stage) ? ReportStage.Use : Chosen<ReportStage>(Stage, "stage-missing", $"When it happened is missing. Your report was not kept yet; choose it and send again.");
        return new(Process, outcome, symptom, stage) { Printer = Printer, LayerHeightMm = Layer(), Note = Note, ReportedBy = ReportedBy };
    }

    private double? Layer()
    {
        if (string.IsNullOrWhiteSpace(LayerHeight)) return null;
        return double.TryParse(LayerHeight.Trim().Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm)
            ? mm
            : throw new RuleBrokenException("layer-height-invalid", $"“{LayerHeight}” is not a layer height. Your report was not kept yet; write it in mm, like 0.05.");
    }

    private static TWord Chosen<TWord>(string? word, string code, Sentence missing)
        where TWord : struct, Enum => Words.TryParse<TWord>(word, out var value) ? value : throw new RuleBrokenException(code, missing);
}
