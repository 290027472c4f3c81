using System.Globalization;
using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Where the parts of a figure sit when it is put together: by numbers, and with the viewer by hand. Saved changes are shown to readers at once.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class EditPosesPage(CatalogueDb db, TimeProvider time) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    [BindProperty]
    public PoseForm Form { get; set; } = new();

    public Figure Whole { get; private set; } = null!;

    /// <summary>Parts that are there too often for one form.</summary>
    public IReadOnlyList<Part> LeftOut => [.. PoseForm.Parts(Whole).Where(p => Form.Copies.All(c => c.Part != p.Slug))];

    public string? Said { get; private set; }

    /// <summary>What was just put together, and the number of the way to try next.</summary>
    public (string Code, int Next) Joined { get; private set; }

    /// <summary>Joints that a copy can be put together at, with the copy on the other side.</summary>
    public IReadOnlyList<MatingOffer> Offers { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        Form = PoseForm.Of(Whole);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        var asked = ModelState.IsValid;
        if (await this.TryAsync(() => db.EditAsync(Figure, f => Form.ApplyTo(f, time.GetUtcNow().UtcDateTime), cancellation)))
            return this.Done($"It is saved where the parts sit. Readers of a published figure see it at once.", $"/edit-poses/{Figure}");
        await LoadAsync(cancellation);
        Take();
        if (asked) Form.Began = PoseForm.StampOf(Whole); // Whoever was told of another’s change may write over it next time.
        return Page();
    }

    /// <summary>Puts one copy to another at their joint; nothing is saved yet. Programs of this page ask for the numbers alone.</summary>
    /// <param name="at">As <see cref="MatingOffer.Code"/> has it.</param>
    public async Task<IActionResult> OnPostJoinAsync(string? at, CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        Take();
        if (!ModelState.IsValid || Offers.FirstOrDefault(o => at?.StartsWith(o.Code, StringComparison.Ordinal) == true) is not { } offer)
        {
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
            return Page();
        }

        var (moving, still) = (Form.Copies[offer.Moving], Form.Copies[offer.Still]);
        var ways = still.IsEmpty ? [] : JointMating.Ways(offer.Joint, Placed(moving), Placed(still));
        var asked = int.TryParse(at![offer.Code.Length..], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;
        var way = ways.Count == 0 ? 0 : asked % ways.Count;
        if (ways.Count > 0)
        {
            ModelState.Clear();
            Form.Copies[offer.Moving] = moving = CopyForm.Of(moving.Part, moving.Number, ways[way]);
        }

        Said = ways.Count > 0
            ? T($"{offer.MovingName} is put to {offer.StillName} at “{offer.Joint.Name}”: way {way + 1} of {ways.Count}. It is not saved yet.")
            : still.IsEmpty
                ? T($"{offer.StillName} has no place yet. Give it one first.")
                : T($"The meshes of {offer.MovingName} and {offer.StillName} tell no hole and peg, or pair of holes, that go together here. Place it by numbers.");
        Joined = (offer.Code, way + 1);
        return Request.Headers.Accept.Contains("application/json")
            ? new JsonResult(new { said = Said, next = way + 1, ways = ways.Count, copy = offer.Moving, numbers = ways.Count > 0 ? new[] { moving.X, moving.Y, moving.Z, moving.TurnX, moving.TurnY, moving.TurnZ } : null })
            : Page();
    }

    public string NameOf(CopyForm copy)
    {
        var part = Whole.PartOf(copy.Part);
        return part.Quantity > 1 ? T($"{part.Name}, {copy.Number} of {part.Quantity}") : part.Name;
    }

    /// <summary>What <c>wwwroot/viewer/posing.js</c> reads: for each copy its shape, and whether it is there when the page opens.</summary>
    public object Scene(string pathBase) => new
    {
        name = Whole.Title,
        copies = Form.Copies.Select(c =>
        {
            var part = Whole.PartOf(c.Part);
            return new
            {
                name = NameOf(c),
                part = c.Part,
                spare = part.Role == PartRole.Optional || (part.Choice is { } choice && choice.DefaultPartId != part.Id),
                shape = NewestShape.Of(part) is { } r ? string.Create(CultureInfo.InvariantCulture,
                    $"{pathBase}/api/figures/{Whole.Slug}/parts/{part.Slug}/variants/{r.Variant.Slug}/revisions/{r.Revision.Number}/shape") : null,
            };
        }),
    };

    private PlacedCopy Placed(CopyForm copy)
    {
        var part = Whole.PartOf(copy.Part);
        var pose = copy.IsEmpty ? new Pose(0, 0, 0, Rotation.Identity.ToRowMajor()) : copy.ToPose(part.Name);
        return new(part.Id, pose, NewestShape.Of(part)?.Revision.Inspection.Holes, 0, Vec3.Zero);
    }

    /// <summary>The numbers that were sent, for the copies there are now.</summary>
    private void Take()
    {
        var sent = Form.Copies;
        Form.Copies = [.. PoseForm.Of(Whole).Copies.Select(c => sent.Find(s => s.Part == c.Part && s.Number == c.Number) ?? c)];
        if (Form.Copies.SequenceEqual(sent)) return;
        var told = ModelState.Values.SelectMany(v => v.Errors).Select(e => e.ErrorMessage).ToList();
        ModelState.Clear(); // Fields have other numbers now.
        foreach (var words in told) ModelState.AddModelError("", words);
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Whole = await db.LoadForViewingAsync(Figure, cancellation);
        Offers = MatingOffer.Of(Whole, PoseForm.Of(Whole).Copies, NameOf);
    }
}
