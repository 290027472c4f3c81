using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Data.Ranges;
using Catalogue.Data.Storage;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Processes;
using Catalogue.Model.Reports;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Reports;

/// <summary>Where reports are handed in, from the page or the API.</summary>
internal sealed class ReportDesk(CatalogueDb db, TimeProvider time)
{
    /// <summary>Keeps the report. Handed in twice under the same key, it is kept once.</summary>
    /// <param name="key">Chosen by the sender: a second press of the button sends the same one.</param>
    /// <param name="variant">The variant printed; null = the only one, or the one made for the process.</param>
    /// <param name="number">The revision printed; null = the one shown now.</param>
    /// <exception cref="RuleBrokenException">It breaks a rule, or names something that is not there; nothing was kept.</exception>
    public async Task<Report> FileAsync(
        FigureDetails details, IndexedPart part, string? variant, int? number, ReportText text, Guid? key, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(details);
        ArgumentNullException.ThrowIfNull(part);
        ArgumentNullException.ThrowIfNull(text);
        if (ProcessCode.IsValid(text.Process) && !await db.Processes.AnyAsync(p => p.Code == text.Process, cancellation))
            throw new RuleBrokenException("process-unknown", $"This catalogue has no process “{text.Process}”. Your report was not kept; choose one of the list.");
        if (key is not null && await db.Reports.AsNoTracking().SingleOrDefaultAsync(r => r.Id == key, cancellation) is { } kept) return kept;
        var revision = RevisionOf(details, part, variant, number, text.Process);
        var report = new Report(details.Figure.Id, part.Id, revision.Id, text, time.GetUtcNow().UtcDateTime, key);
        try
        {
            // Reports of one figure go in one after another, so that each counts in the verdict that the next one sees.
            await using var transaction = await db.Database.BeginTransactionAsync(cancellation);
            await db.Figures.Where(f => f.Id == report.FigureId).ExecuteUpdateAsync(set => set.SetProperty(f => f.Version, f => f.Version), cancellation);
            db.Reports.Add(report);
            await db.SaveChangesAsync(cancellation);
            await RevisionVerdicts.WeighAgainAsync(db, report.RevisionId, report.Process, report.ReportedAt, cancellation);
            await transaction.CommitAsync(cancellation);
        }
        catch (DbUpdateException twice) // Both presses at the same moment.
            when (key is not null && DatabaseErrors.IsUniqueViolation(twice))
        {
            db.ChangeTracker.Clear();
            return await db.Reports.AsNoTracking().SingleAsync(r => r.Id == key, cancellation);
        }

        return report;
    }

    private static Revision RevisionOf(FigureDetails details, IndexedPart part, string? variant, int? number, string process)
    {
        var found = variant is null
            ? part.Variants.FirstOrDefault(v => v.MadeFor.Contains(process)) ?? part.Variants[0]
            : part.Variants.FirstOrDefault(v => v.Slug == variant)
                ?? throw new RuleBrokenException("not-found", $"“{part.Name}” has no variant “{variant}”. Your report was not kept; choose the file you printed.");
        var revisions = details.RevisionsOfVariant[found.Id];
        return (number is null ? details.ShownRevision(found) : revisions.FirstOrDefault(r => r.Number == number))
            ?? throw new RuleBrokenException("not-found", $"“{part.Name}” ({found.Name}) has no published revision {number}. Your report was not kept; choose the file you printed.");
    }
}
