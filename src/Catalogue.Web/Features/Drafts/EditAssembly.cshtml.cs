using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Drafts;

/// <summary>How a figure goes together: its joints, its hardware, its steps. Saved changes are shown to readers at once.</summary>
[Authorize(Policy = AccountSetup.DesignerPages)]
internal sealed class EditAssemblyPage(CatalogueDb db, TimeProvider time) : PageModel
{
    [FromRoute]
    public string Figure { get; set; } = "";

    [BindProperty]
    public JointForm Joint { get; set; } = new();

    [BindProperty]
    public HardwareForm Hardware { get; set; } = new();

    [BindProperty]
    public StepForm Step { get; set; } = new();

    public Figure Whole { get; private set; } = null!;
    public IReadOnlyList<Process> Processes { get; private set; } = [];
    public IReadOnlyList<Part> Parts => [.. Whole.Parts.Where(p => !p.IsRemoved).OrderBy(p => p.Position)];
    public IEnumerable<SelectListItem> PartChoices => Parts.Select(p => new SelectListItem(p.Name, p.Slug));
    public static IEnumerable<SelectListItem> HardwareKinds => Enum.GetValues<HardwareKind>().Select(k => new SelectListItem(KindWords.Of(k), Words.Of(k)));
    public static IEnumerable<SelectListItem> JointKinds => Enum.GetValues<JointKind>().Select(k => new SelectListItem(KindWords.Of(k), Words.Of(k)));

    public IEnumerable<SelectListItem> Members =>
    [
        new(T($"whichever is built"), ""),
        .. Parts.Where(p => p.Role == PartRole.ChoiceMember).Select(p => new SelectListItem(T($"only with “{p.Name}”"), p.Slug)),
    ];

    /// <summary>What a step names, and when it is not done by everybody.</summary>
    public static string About(Step step, IReadOnlyDictionary<Guid, string> names)
    {
        var named = string.Join(", ", step.Parts.OrderBy(p => p.Position).Select(p => p.Name).Concat(step.Hardware.Select(h => h.Name)));
        return string.Join(" – ", new[] { named, OnlyFor(step.Processes), step.ChoicePartId is { } member ? T($"only with {names[member]}") : "" }.Where(w => w.Length > 0));
    }

    public static string About(HardwareNeed need, Lengths lengths)
    {
        var said = new List<string> { KindWords.Of(need.Kind) };
        if (need.Size.Length > 0) said.Add(need.Size);
        if (need.DiameterMm is { } diameter) said.Add($"Ø {lengths.Of(diameter)}");
        if (need.CutLengthMm is { } length) said.Add(T($"cut to {lengths.Of(length)}"));
        if (need.IsOptional) said.Add(T($"optional"));
        return string.Join(", ", said);
    }

    public static string About(Joint joint, IReadOnlyDictionary<Guid, string> names)
    {
        var parts = T($"{KindWords.Of(joint.Kind)} of {names[joint.FirstPartId]} and {names[joint.SecondPartId]}");
        return joint.Processes.Length > 0 ? $"{parts} – {OnlyFor(joint.Processes)}" : parts;
    }

    private static string OnlyFor(string[] processes) => processes.Length > 0 ? T($"only for {string.Join(", ", processes)}") : "";

    public async Task OnGetAsync(Guid? joint, Guid? hardware, Guid? step, CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        ModelState.Clear();
        if (joint is { } j) Joint = JointForm.Of(Whole.JointOf(j), Whole);
        if (hardware is { } h) Hardware = HardwareForm.Of(Whole.HardwareOf(h));
        if (step is { } s) Step = StepForm.Of(Whole.StepOf(s), Whole);
    }

    public Task<IActionResult> OnPostJointAsync(CancellationToken cancellation) => SaveAsync(nameof(Joint),
        (f, now) => _ = Joint.Id is { } id ? Joint.Words().ApplyTo(f, f.JointOf(id), now) : Joint.Words().AddTo(f, now), $"The joint is saved.", cancellation);

    public Task<IActionResult> OnPostHardwareAsync(CancellationToken cancellation) => SaveAsync(nameof(Hardware),
        (f, now) => _ = Hardware.Id is { } id ? Hardware.Words().ApplyTo(f, f.HardwareOf(id), now) : Hardware.Words().AddTo(f, now), $"The hardware is saved.", cancellation);

    public Task<IActionResult> OnPostStepAsync(CancellationToken cancellation) => SaveAsync(nameof(Step),
        (f, now) => _ = Step.Id is { } id ? Step.Words().ApplyTo(f, f.StepOf(id), now) : Step.Words().AddTo(f, now), $"The step is saved.", cancellation);

    public Task<IActionResult> OnPostRemoveJointAsync(Guid id, CancellationToken cancellation) =>
        SaveAsync("", (f, now) => f.RemoveJoint(f.JointOf(id), now), $"The joint is removed.", cancellation);

    public Task<IActionResult> OnPostRemoveHardwareAsync(Guid id, CancellationToken cancellation) =>
        SaveAsync("", (f, now) => f.RemoveHardware(f.HardwareOf(id), now), $"The hardware is removed.", cancellation);

    public Task<IActionResult> OnPostRemoveStepAsync(Guid id, CancellationToken cancellation) =>
        SaveAsync("", (f, now) => f.RemoveStep(f.StepOf(id), now), $"The step is removed.", cancellation);

    public Task<IActionResult> OnPostMoveStepAsync(Guid id, int position, CancellationToken cancellation) =>
        SaveAsync("", (f, now) => f.MoveStep(f.StepOf(id), position, now), $"The step is moved.", cancellation);

    private async Task<IActionResult> SaveAsync(string form, Action<Figure, DateTime> change, Sentence done, CancellationToken cancellation)
    {
        this.Only(form);
        if (await this.TryAsync(() => db.EditAsync(Figure, f => change(f, time.GetUtcNow().UtcDateTime), cancellation)))
            return this.Done(done, $"/edit-assembly/{Figure}");
        await LoadAsync(cancellation);
        return Page();
    }

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Whole = await db.LoadForViewingAsync(Figure, cancellation);
        Processes = await db.Processes.AsNoTracking().OrderBy(p => p.Position).ToListAsync(cancellation);
    }
}
