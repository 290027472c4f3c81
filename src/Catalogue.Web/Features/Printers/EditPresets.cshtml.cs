using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Web.Accounts;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Printers;

/// <summary>The host's list of usual printer sizes, offered on “my printer”.</summary>
[Authorize(Policy = AccountSetup.HostPages)]
internal sealed class EditPresetsPage(CatalogueDb db, Masthead masthead) : PageModel
{
    private static readonly Dictionary<string, string> Fields = new()
    {
        ["volume-invalid"] = "Form.Volume",
        ["margin-invalid"] = "Form.MarginMm",
        ["process-unknown"] = "Form.Process",
        ["process-invalid"] = "Form.Process",
        ["text-missing"] = "Form.Name",
        ["text-too-long"] = "Form.Name",
    };

    [BindProperty]
    public PresetForm Form { get; set; } = new();

    /// <summary>The one that is changed; null = a new one.</summary>
    [FromQuery(Name = "edit")]
    public Guid? Edit { get; set; }

    public IReadOnlyList<PrinterPreset> Presets { get; private set; } = [];
    public IReadOnlyList<Process> Processes { get; private set; } = [];

    public async Task OnGetAsync(CancellationToken cancellation)
    {
        await LoadAsync(cancellation);
        if (Presets.FirstOrDefault(p => p.Id == Edit) is { } preset) Form = PresetForm.Of(preset);
    }

    public async Task<IActionResult> OnPostAsync(CancellationToken cancellation)
    {
        if (await this.TryAsync(() => Edit is { } id ? db.ChangePresetAsync(id, Form.Text(), cancellation) : db.AddPresetAsync(Form.Text(), cancellation), Fields))
            return this.Done(Edit is null ? S($"The size is in the list.") : S($"The size is changed."), "/edit-printers");
        await LoadAsync(cancellation);
        return Page();
    }

    public Task<IActionResult> OnPostRemoveAsync(Guid id, CancellationToken cancellation) => DoAsync(() => db.RemovePresetAsync(id, cancellation), $"The size is removed.", cancellation);

    public Task<IActionResult> OnPostRaiseAsync(Guid id, CancellationToken cancellation) => DoAsync(() => db.RaisePresetAsync(id, cancellation), $"The list is in its new order.", cancellation);

    private async Task<IActionResult> DoAsync(Func<Task> change, Sentence done, CancellationToken cancellation)
    {
        ModelState.Clear();
        if (await this.TryAsync(change)) return this.Done(done, "/edit-printers");
        await LoadAsync(cancellation);
        return Page();
    }

    public string SpokenNameOf(string process) => Known(Processes.FirstOrDefault(p => p.Code == process)?.SpokenName ?? process);

    private async Task LoadAsync(CancellationToken cancellation)
    {
        Presets = await db.PresetsAsync(cancellation);
        Processes = await masthead.ProcessesAsync();
    }
}

internal sealed class PresetForm
{
    public string? Name { get; set; }
    public string? Hint { get; set; }
    public string? Process { get; set; }
    public string? Volume { get; set; }
    public double? MarginMm { get; set; } = 2;

    public PresetText Text() => new(Name, Volume, MarginMm ?? 0) { Hint = Hint, Process = Process };

    public static PresetForm Of(PrinterPreset preset) => new() { Name = preset.Name, Hint = preset.Hint, Process = preset.Process, Volume = preset.Volume.ToString(), MarginMm = preset.MarginMm };
}
