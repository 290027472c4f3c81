using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>Reads published figures into the index: a few flat queries per batch, joined in memory. Verdicts without their findings, outlines without profiles.</summary>
internal sealed class IndexReading(CatalogueDb db, Vocabulary vocabulary, IReadOnlyList<Process> processes)
{
    private const int BatchSize = 400;

    private readonly List<string> _codes = [.. processes.Select(p => p.Code)];
    private readonly Dictionary<string, IReadOnlyList<string>> _madeFor = [];

    /// <summary>The figures of these ids that are published, in no order.</summary>
    public async Task<List<IndexedFigure>> ReadAsync(IReadOnlyList<Guid> figures, CancellationToken cancellation)
    {
        var read = new List<IndexedFigure>(figures.Count);
        foreach (var batch in figures.Chunk(BatchSize)) read.AddRange(await ReadBatchAsync(batch, cancellation));
        return read;
    }

    private async Task<List<IndexedFigure>> ReadBatchAsync(Guid[] ids, CancellationToken cancellation)
    {
        var figures = await (
            from f in db.Figures
            join e in db.Editions on f.CurrentEditionId equals e.Id
            where ids.Contains(f.Id) && f.Status == FigureStatus.Published
            select new FigureRow(
                f.Id, f.Slug, f.Title, f.Summary, f.Tags, f.HeightMm, f.ScaleDenominator, f.Licence, f.Version, f.Judgements, e.Id, e.Number, e.PublishedAt)).ToListAsync(cancellation);
        var editions = figures.Select(f => f.Edition).ToList();
        var entries = (await (
            from n in db.EditionEntries
            join p in db.Parts on n.PartId equals p.Id
            join v in db.Variants on n.VariantId equals v.Id
            join r in db.Revisions on n.RevisionId equals r.Id
            join i in db.Inspections on r.InspectionId equals i.Id
            join o in db.Outlines on i.Id equals o.InspectionId into outlines
            from o in outlines.DefaultIfEmpty()
            where editions.Contains(n.EditionId)
            select new EntryRow(
                n.EditionId, p.Id, p.Slug, p.Name, p.Quantity, p.Role, p.Position, p.ChoiceId, p.AssembledPoses, v.Id, v.Slug, v.Name, r.Id, r.Number, r.Sha256, r.StatedUnit, i.Id,
                i.SizeXMm, i.SizeYMm, i.SizeZMm, i.VolumeMm3, i.AreaMm2, i.State, o == null ? null : o.Outline)).ToListAsync(cancellation)).ToLookup(e => e.Edition);
        var variants = entries.SelectMany(e => e).Select(e => e.Variant).ToList();
        var choices = await db.Figures.Where(f => ids.Contains(f.Id)).SelectMany(f => f.Choices).AsNoTracking().ToDictionaryAsync(c => c.Id, cancellation);
        var hardware = (await db.Figures.Where(f => ids.Contains(f.Id)).SelectMany(f => f.Hardware.Select(h => new HardwareRow(h.FigureId, h.Kind, h.Name, h.Size, h.IsOptional, h.Processes)))
            .ToListAsync(cancellation)).ToLookup(h => h.Figure);
        var joints = (await db.Figures.Where(f => ids.Contains(f.Id)).SelectMany(f => f.Joints).AsNoTracking().ToListAsync(cancellation)).ToLookup(j => j.FigureId);
        var madeFor = (await db.Variants.Where(v => variants.Contains(v.Id)).SelectMany(v => v.Declarations.Select(d => new { d.VariantId, d.Process }))
            .ToListAsync(cancellation)).ToLookup(d => d.VariantId, d => d.Process);
        var verdicts = (await (
            from n in db.EditionEntries
            join v in db.Verdicts on n.RevisionId equals v.RevisionId
            join d in db.Set<Declaration>() on new { n.VariantId, v.Process } equals new { d.VariantId, d.Process }
            where editions.Contains(n.EditionId)
            select new { v.RevisionId, v.Process, v.Verdict }).ToListAsync(cancellation)).ToDictionary(v => (v.RevisionId, v.Process), v => v.Verdict);

        IndexedFigure Figure(FigureRow f)
        {
            var (parts, outlines) = Parts(entries[f.Edition], choices, madeFor);
            List<IndexedJoint> judged = [.. joints[f.Id].Select(j => IndexedJoint.Of(j, processes))];
            return new()
            {
                Id = f.Id,
                Slug = f.Slug,
                Title = f.Title,
                Summary = f.Summary,
                Tags = Array.ConvertAll(f.Tags, string.Intern),
                HeightMm = f.HeightMm,
                ScaleDenominator = f.ScaleDenominator,
                Licence = string.Intern(f.Licence),
                EditionNumber = f.Number,
                PublishedAt = f.PublishedAt,
                Freshness = (f.Version, f.Judgements),
                Parts = parts,
                Joints = judged,
                Words = vocabulary.NumbersOf(string.Join('\n', [f.Title, f.Summary, .. f.Tags, .. parts.Select(p => p.Name), .. hardware[f.Id].SelectMany(h => new[] { h.Name, h.Size, Model.Words.Of(h.Kind) })])),
                TitleWords = vocabulary.NumbersOf(f.Title),
                Needs = NeededHardware.Of(hardware[f.Id].Where(h => !h.IsOptional).Select(h => (h.Kind, h.Processes)), _codes),
                Sketch = new(parts, judged, outlines, _codes, (revision, process) => verdicts.TryGetValue((revision, process), out var verdict) ? verdict : null),
            };
        }

        return figures.ConvertAll(Figure);
    }

    private (List<IndexedPart> Parts, List<byte[]?> Outlines) Parts(
        IEnumerable<EntryRow> entries, Dictionary<Guid, Choice> choices, ILookup<Guid, string> madeFor)
    {
        var (parts, outlines) = (new List<IndexedPart>(), new List<byte[]?>());
        foreach (var part in entries.GroupBy(e => e.Part).OrderBy(p => p.First().Position))
        {
            var variants = new List<IndexedVariant>();
            foreach (var e in part.OrderBy(e => e.VariantSlug, StringComparer.Ordinal))
            {
                variants.Add(new()
                {
                    Id = e.Variant,
                    Slug = string.Intern(e.VariantSlug),
                    Name = string.Intern(e.VariantName),
                    RevisionId = e.Revision,
                    Number = e.Number,
                    InspectionId = e.Inspection,
                    Sha256 = e.Sha256,
                    StatedUnit = e.StatedUnit,
                    Size = new Vec3(e.SizeX, e.SizeY, e.SizeZ),
                    VolumeMm3 = e.VolumeMm3,
                    AreaMm2 = e.AreaMm2,
                    IsMeasured = e.State == InspectionState.Done,
                    MadeFor = MadeFor(madeFor[e.Variant]),
                    Place = outlines.Count,
                });
                outlines.Add(e.Outline is { } outline && FitOutline.IsOne(outline) ? outline : null);
            }

            var first = part.First();
            var choice = first.Choice is { } id ? choices.GetValueOrDefault(id) : null;
            parts.Add(new(first.Part, string.Intern(first.PartSlug), string.Intern(first.PartName), first.Quantity, first.Role, first.Position, choice?.Id, choice?.Name,
                choice?.DefaultPartId == first.Part, variants)
            {
                Poses = first.Poses,
            });
        }

        return (parts, outlines);
    }

    /// <summary>The same list for the same processes: there are few different ones.</summary>
    private IReadOnlyList<string> MadeFor(IEnumerable<string> processes)
    {
        List<string> sorted = [.. processes.Order(StringComparer.Ordinal)];
        var key = string.Join(' ', sorted);
        if (!_madeFor.TryGetValue(key, out var known)) _madeFor[key] = known = sorted.ConvertAll(string.Intern);
        return known;
    }

    private sealed record FigureRow(
        Guid Id, string Slug, string Title, string Summary, string[] Tags, double HeightMm, double? ScaleDenominator, string Licence, int Version, int Judgements,
        Guid Edition, int Number, DateTime PublishedAt);

    private sealed record HardwareRow(Guid Figure, HardwareKind Kind, string Name, string Size, bool IsOptional, string[] Processes);

    private sealed record EntryRow(
        Guid Edition, Guid Part, string PartSlug, string PartName, int Quantity, PartRole Role, int Position, Guid? Choice, IReadOnlyList<Pose> Poses,
        Guid Variant, string VariantSlug, string VariantName, Guid Revision, int Number, string Sha256, LengthUnit? StatedUnit, Guid Inspection,
        double SizeX, double SizeY, double SizeZ, double VolumeMm3, double AreaMm2, InspectionState State, byte[]? Outline);
}
