using Catalogue.Model;
using Catalogue.Model.Printers;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Queries;

/// <summary>The host's list of usual printer sizes: shown in its order, changed one at a time.</summary>
public static class PresetEditing
{
    public static Task<List<PrinterPreset>> PresetsAsync(this CatalogueDb db, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        return db.Presets.AsNoTracking().OrderBy(p => p.Position).ThenBy(p => p.Id).ToListAsync(cancellation);
    }

    /// <exception cref="RuleBrokenException"><c>preset-too-many</c>, <c>process-unknown</c>, and those of <see cref="PrinterPreset.Describe"/>.</exception>
    public static async Task<PrinterPreset> AddPresetAsync(this CatalogueDb db, PresetText text, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        await CheckAsync(db, text, cancellation);
        if (await db.Presets.CountAsync(cancellation) >= PrinterPreset.Most)
            throw new RuleBrokenException("preset-too-many", $"There are {PrinterPreset.Most} sizes already, more than anybody reads through. Nothing was changed; remove one first.");
        var preset = new PrinterPreset(text, 1 + await db.Presets.MaxAsync(p => (int?)p.Position, cancellation) ?? 1);
        db.Presets.Add(preset);
        await db.SaveChangesAsync(cancellation);
        return preset;
    }

    public static async Task<PrinterPreset> ChangePresetAsync(this CatalogueDb db, Guid id, PresetText text, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        await CheckAsync(db, text, cancellation);
        var preset = await FindAsync(db, id, cancellation);
        preset.Describe(text);
        await db.SaveChangesAsync(cancellation);
        return preset;
    }

    public static async Task RemovePresetAsync(this CatalogueDb db, Guid id, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        db.Presets.Remove(await FindAsync(db, id, cancellation));
        await db.SaveChangesAsync(cancellation);
    }

    /// <summary>One place up in the list.</summary>
    public static async Task RaisePresetAsync(this CatalogueDb db, Guid id, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        var order = await db.Presets.OrderBy(p => p.Position).ThenBy(p => p.Id).ToListAsync(cancellation);
        var at = order.FindIndex(p => p.Id == id);
        if (at < 0) throw NotFound();
        if (at > 0) (order[at - 1], order[at]) = (order[at], order[at - 1]);
        for (var i = 0; i < order.Count; i++) order[i].Move(i + 1);
        await db.SaveChangesAsync(cancellation);
    }

    private static async Task CheckAsync(CatalogueDb db, PresetText text, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!string.IsNullOrEmpty(text.Process) && !await db.Processes.AnyAsync(p => p.Code == text.Process, cancellation))
            throw new RuleBrokenException("process-unknown", $"This catalogue has no process “{text.Process}”. Nothing was changed.");
    }

    private static async Task<PrinterPreset> FindAsync(CatalogueDb db, Guid id, CancellationToken cancellation) =>
        await db.Presets.SingleOrDefaultAsync(p => p.Id == id, cancellation) ?? throw NotFound();

    private static RuleBrokenException NotFound() => new("not-found", $"There is no such size in the list; perhaps it was removed meanwhile. Nothing was changed.");
}
