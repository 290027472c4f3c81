using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Reports;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Figures;

/// <summary>A part: its measures, what every check found on every process, how it fits, its revisions and what others reported.</summary>
internal sealed class PartPageModel(CatalogueDb db, RangeSearch search, Visitor visitor) : PageModel
{
    public FigureAnswer Answer { get; private set; } = null!;
    public PartAnswer Part { get; private set; } = null!;
    public IReadOnlyList<Report> Reports { get; private set; } = [];

    /// <summary>The findings that can be shown on the part.</summary>
    public FindingPlaces Places { get; private set; } = null!;

    /// <summary>The variant that is looked at closely; null while none is measured.</summary>
    public VariantAnswer? Looked { get; private set; }

    public LookView? Look { get; private set; }

    /// <summary>The finding the address asks for, and the variant it asks to look at.</summary>
    [FromQuery(Name = "finding")]
    public string? AskedFinding { get; set; }

    [FromQuery(Name = "look")]
    public string? AskedVariant { get; set; }

    public async Task OnGetAsync(string figure, string part, CancellationToken cancellation)
    {
        Answer = await FigureAnswer.LoadAsync(db, search, figure, visitor.Printer, cancellation, closely: part);
        Part = Answer.Parts.FirstOrDefault(p => p.Part.Slug == part)
            ?? throw new RuleBrokenException("not-found", $"“{Answer.Figure.Title}” has no published part “{part}”. Its page shows the parts there are.");
        Places = new(name => visitor.Link($"/figures/{figure}/parts/{part}?finding={Uri.EscapeDataString(name)}#look"));
        foreach (var variant in Part.Variants)
            foreach (var process in variant.Variant.MadeFor) Places.Add(ScopeOf(variant, process), variant.On(process));
        (Looked, Look) = Closely();
        Reports = [.. Answer.Details.Reports.Where(r => r.PartId == Part.Part.Id)];
    }

    private static string ScopeOf(VariantAnswer variant, string process) => $"{variant.Variant.Slug}.{process}";

    /// <summary>The variant asked for, that of the finding asked for, the one to take, or the first.</summary>
    private (VariantAnswer?, LookView?) Closely()
    {
        var measured = Part.Variants.Where(v => v.Variant.IsMeasured).ToList();
        var words = (AskedFinding ?? "").Split('.', 3);
        var looked = measured.Find(v => v.Variant.Slug == AskedVariant) ?? measured.Find(v => v.Variant.Slug == words[0])
            ?? measured.Find(v => v == Part.Chosen) ?? measured.FirstOrDefault();
        if (looked is null) return default;
        var (variant, revision) = (looked.Variant, looked.Revision);
        var process = words.Length > 1 && variant.MadeFor.Contains(words[1]) ? words[1]
            : Answer.Process is { } own && variant.MadeFor.Contains(own) ? own : variant.MadeFor.Count > 0 ? variant.MadeFor[0] : null;
        var findings = variant.MadeFor.SelectMany(p => Places.Of(ScopeOf(looked, p))).Select(f => new PlacedFinding(f.Name, f.Finding.Message.ToString(), f.Finding.At!.Value)).ToList();
        var asked = findings.Find(f => f.Name == AskedFinding);
        var place = $"{Answer.Figure.Slug}/parts/{Part.Part.Slug}";
        return (looked, new()
        {
            Id = variant.Slug,
            Name = Part.Variants.Count == 1 ? T($"{Part.Part.Name}, revision {revision.Number}") : T($"{Part.Part.Name}, {variant.Name}, revision {revision.Number}"),
            Revision = $"/api/figures/{place}/variants/{variant.Slug}/revisions/{revision.Number}",
            Picture = asked is null
                ? PicturePath.Of(Answer.Figure.Slug, Part.Part.Slug, variant.Slug, revision, 640)
                : PicturePath.Of(Answer.Figure.Slug, Part.Part.Slug, variant.Slug, revision, asked, 640),
            PictureWords = asked is null
                ? T($"{Part.Part.Name} as it lies in its file, seen from the front and a little from the left")
                : T($"{Part.Part.Name} with a ball where it is: {asked.Message}"),
            Process = process,
            Inches = visitor.Inches,
            Volume = Answer.Printer.Volume,
            Laid = looked.Fit?.Rotation,
            FitWords = looked.Fit is { } fit ? T($"In your printer’s {visitor.Lengths.Of(Answer.Printer.Volume!.Value)}: {FitWords.Of(fit, visitor.Lengths)}.") : null,
            Findings = findings,
            Asked = asked,
            IsGone = AskedFinding is { Length: > 0 } && asked is null,
        });
    }

    /// <summary>“filament, revision 2” for a reported revision; null when it is not among those shown.</summary>
    public string? NameOf(Guid? revision)
    {
        foreach (var variant in Part.Variants)
        {
            if (Answer.Details.RevisionsOfVariant[variant.Variant.Id].FirstOrDefault(r => r.Id == revision) is { } found)
                return Part.Variants.Count == 1 ? T($"revision {found.Number}") : T($"{variant.Variant.Name}, revision {found.Number}");
        }

        return null;
    }

    /// <summary>“Part of Lamplighter; print two.”</summary>
    public string Lead
    {
        get
        {
            var (figure, part) = (Answer.Figure.Title, Part.Part);
            return (part.Role, part.Quantity) switch
            {
                (PartRole.Optional, 1) => T($"An accessory of {figure}."),
                (PartRole.Optional, _) => T($"An accessory of {figure}; print {part.Quantity}."),
                (PartRole.ChoiceMember, 1) => T($"One of the choice “{part.ChoiceName}” of {figure}."),
                (PartRole.ChoiceMember, _) => T($"One of the choice “{part.ChoiceName}” of {figure}; print {part.Quantity}."),
                (_, 1) => T($"Part of {figure}."),
                _ => T($"Part of {figure}; print {part.Quantity}."),
            };
        }
    }
}
