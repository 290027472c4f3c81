using System.Globalization;
using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Catalogue.Web.Inspection;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>A part on the workbench: its variants with every revision, inspection and verdict.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class PartPage(CatalogueDb db, InspectionQueue queue, IBlobStore blobs, Signature signature, TimeProvider time, Visitor visitor) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    [FromRoute]
    public string Part { get; set; } = "";

    public DraftView Draft { get; private set; } = null!;
    public PartView View { get; private set; } = null!;

    /// <summary>The findings on the latest revisions that can be shown on the part.</summary>
    public FindingPlaces Places { get; private set; } = null!;

    /// <summary>The latest revision of each variant, to be looked at closely; those that are not measured are left out.</summary>
    public IReadOnlyDictionary<string, LookView> Looks { get; private set; } = new Dictionary<string, LookView>();

    public Task<IActionResult> OnGetAsync(CancellationToken cancellation) => ShowAsync(cancellation);

    /// <summary>The file of a revision, published or not, as it was uploaded.</summary>
    public async Task<IActionResult> OnGetFileAsync(string variant, int number, CancellationToken cancellation)
    {
        var revision = (await db.LoadForViewingAsync(Figure, cancellation)).VariantOf(Part, variant).Revisions.FirstOrDefault(r => r.Number == number);
        return revision is not null && await blobs.OpenAsync(revision.Sha256, cancellation) is { } content
            ? File(content, "application/octet-stream", revision.FileName)
            : NotFound();
    }

    public Task<IActionResult> OnPostRemoveAsync(CancellationToken cancellation) => ChangeAsync((f, now) => f.RemovePart(f.PartOf(Part), now),
        $"The part is taken out of the next edition. Readers see it until you publish; its revisions are kept.", cancellation);

    public Task<IActionResult> OnPostRestoreAsync(CancellationToken cancellation) => ChangeAsync((f, now) => f.RestorePart(f.PartOf(Part), now),
        $"The part is back.", cancellation);

    public Task<IActionResult> OnPostRemoveVariantAsync(string variant, CancellationToken cancellation) => ChangeAsync((f, now) => f.VariantOf(Part, variant).Remove(now),
        $"The variant is taken out of the next edition. Readers see it until you publish; its revisions are kept.", cancellation);

    public Task<IActionResult> OnPostRestoreVariantAsync(string variant, CancellationToken cancellation) => ChangeAsync((f, now) => f.VariantOf(Part, variant).Restore(now),
        $"The variant is back.", cancellation);

    public Task<IActionResult> OnPostDiscardAsync(string variant, int number, CancellationToken cancellation) => ChangeAsync(
        (f, now) => f.VariantOf(Part, variant).Discard(number, discard: true, now),
        $"Revision {number} is left out of what is published next. Its number is not given again.", cancellation);

    public Task<IActionResult> OnPostKeepAsync(string variant, int number, CancellationToken cancellation) => ChangeAsync(
        (f, now) => f.VariantOf(Part, variant).Discard(number, discard: false, now),
        $"Revision {number} counts again.", cancellation);

    public Task<IActionResult> OnPostOverruleAsync(string variant, int number, string process, string code, string? reason, CancellationToken cancellation) => SaidAsync(
        async () => await db.OverruleAsync(Figure, f => f.VariantOf(Part, variant), new(number, process, code), reason, await signature.OfAsync(User), Now, cancellation),
        $"Overruled. Readers see the finding, your reason, your name and the date; it no longer counts in the verdict.", cancellation);

    public Task<IActionResult> OnPostUpholdAsync(string variant, int number, string process, string code, CancellationToken cancellation) => SaidAsync(
        async () => await db.WithdrawOverrulingAsync(Figure, f => f.VariantOf(Part, variant), new(number, process, code), await signature.OfAsync(User), Now, cancellation),
        $"Your word is taken back; the finding counts again.", cancellation);

    public async Task<IActionResult> OnPostRepeatAsync(Guid inspection, CancellationToken cancellation)
    {
        await queue.RepeatAsync(inspection, cancellation);
        return this.Done($"The mesh is inspected again.", $"/drafts/{Figure}/parts/{Part}");
    }

    private DateTime Now => time.GetUtcNow().UtcDateTime;

    private Task<IActionResult> ChangeAsync(Action<Figure, DateTime> change, Sentence done, CancellationToken cancellation) =>
        SaidAsync(() => db.EditAsync(Figure, f => change(f, Now), cancellation), done, cancellation);

    private async Task<IActionResult> SaidAsync(Func<Task> change, Sentence done, CancellationToken cancellation) =>
        await this.TryAsync(change) ? this.Done(done, $"/drafts/{Figure}/parts/{Part}") : await ShowAsync(cancellation);

    private async Task<IActionResult> ShowAsync(CancellationToken cancellation)
    {
        var figure = await db.LoadForViewingAsync(Figure, cancellation);
        figure.PartOf(Part);
        Draft = await DraftView.OfAsync(figure, db, cancellation);
        View = Draft.Parts.First(p => p.Slug == Part);
        Places = new(name => $"{Request.PathBase}/drafts/{Figure}/parts/{Part}?finding={Uri.EscapeDataString(name)}#look-{name.Split('.')[0]}");
        Looks = View.Variants.Where(v => v.Latest?.Inspection.Mesh is not null).ToDictionary(v => v.Slug, v => Look(v, v.Latest!, figure.VariantOf(Part, v.Slug)));
        return Page();
    }

    private LookView Look(VariantView variant, RevisionView latest, Variant stored)
    {
        var revision = stored.Revisions.First(r => r.Number == latest.Number);
        var findings = new List<PlacedFinding>();
        foreach (var verdict in latest.Verdicts.Where(v => variant.Processes.Contains(v.Process)))
        {
            Places.Add($"{variant.Slug}.{verdict.Process}", verdict.Judgement);
            findings.AddRange(Places.Of($"{variant.Slug}.{verdict.Process}").Select(f => new PlacedFinding(f.Name, f.Finding.Message.ToString(), f.Finding.At!.Value)));
        }

        var asked = findings.Find(f => f.Name == Request.Query["finding"]);
        var process = asked?.Name.Split('.')[1] ?? (variant.Processes.Count > 0 ? variant.Processes[0] : null);
        return new()
        {
            Id = variant.Slug,
            Anchor = "look-" + variant.Slug,
            Name = T($"{View.Name}, {variant.Name}, revision {latest.Number}"),
            Revision = string.Create(CultureInfo.InvariantCulture, $"/api/figures/{Figure}/parts/{Part}/variants/{variant.Slug}/revisions/{latest.Number}"),
            Picture = asked is null ? PicturePath.Of(Figure, Part, variant.Slug, revision, 640) : PicturePath.Of(Figure, Part, variant.Slug, revision, asked, 640),
            PictureWords = asked is null ? T($"{View.Name} as it lies in its file, seen from the front and a little from the left") : T($"{View.Name} with a ball where it is: {asked.Message}"),
            Process = process,
            Inches = visitor.Inches,
            Findings = findings,
            Asked = asked,
        };
    }
}
