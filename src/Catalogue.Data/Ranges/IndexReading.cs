using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>Reads published figures into the index: a few flat queries per batch, joined in memory.</summary>
internal static class IndexReading
{
    private const int BatchSize = 200;

    /// <param name="processes">With their limits: joints are judged from what they say.</param>
    public static async Task<List<IndexedFigure>> ReadAsync(
        CatalogueDb db, IReadOnlyList<Guid> figures, IReadOnlyList<Process> processes, CancellationToken cancellation)
    {
        var read = new List<IndexedFigure>(figures.Count);
        foreach (var batch in figures.Chunk(BatchSize)) read.AddRange(await ReadBatchAsync(db, batch, processes, cancellation));
        return read;
    }

    private static async Task<List<IndexedFigure>> ReadBatchAsync(
        CatalogueDb db, Guid[] ids, IReadOnlyList<Process> processes, CancellationToken cancellation)
    {
        var figures = await (
            from f in db.Figures
            join e in db.Editions on f.CurrentEditionId equals e.Id
            where ids.Contains(f.Id)
            select new { Figure = f, Edition = e.Id, e.Number, e.PublishedAt }).AsNoTracking().ToListAsync(cancellation);
        var editions = figures.Select(f => f.Edition).ToList();
        var entries = await (
            from n in db.EditionEntries
            join p in db.Parts on n.PartId equals p.Id
            join v in db.Variants on n.VariantId equals v.Id
            join r in db.Revisions on n.RevisionId equals r.Id
            join i in db.Inspections on r.InspectionId equals i.Id
            where editions.Contains(n.EditionId)
            select new EntryRow(
                n.EditionId, p.Id, p.Slug, p.Name, p.Quantity, p.Role, p.Position, p.ChoiceId, p.AssembledPoses, v.Id, v.Slug, v.Name, r.Id, r.Number, r.Sha256, r.StatedUnit, i.Id,
                i.SizeXMm, i.SizeYMm, i.SizeZMm, i.VolumeMm3, i.AreaMm2, i.State, i.FitProfile)).ToListAsync(cancellation);
        var variants = entries.Select(e => e.Variant).ToList();
        var revisions = entries.Select(e => e.Revision).ToList();
        var choices = await db.Figures.Where(f => ids.Contains(f.Id)).SelectMany(f => f.Choices).AsNoTracking().ToDictionaryAsync(c => c.Id, cancellation);
        var hardware = (await db.Figures.Where(f => ids.Contains(f.Id)).SelectMany(f => f.Hardware.Select(h => new { h.FigureId, h.Name }))
            .ToListAsync(cancellation)).ToLookup(h => h.FigureId, h => h.Name);
        var joints = (await db.Figures.Where(f => ids.Contains(f.Id)).SelectMany(f => f.Joints).AsNoTracking().ToListAsync(cancellation)).ToLookup(j => j.FigureId);
        var madeFor = (await db.Variants.Where(v => variants.Contains(v.Id)).SelectMany(v => v.Declarations.Select(d => new { d.VariantId, d.Process }))
            .ToListAsync(cancellation)).ToLookup(d => d.VariantId, d => d.Process);
        var verdicts = (await db.Verdicts.AsNoTracking().Where(v => revisions.Contains(v.RevisionId)).ToListAsync(cancellation)).ToLookup(v => v.RevisionId);

        IndexedVariant Variant(EntryRow e) => new()
        {
            Id = e.Variant,
            Slug = e.VariantSlug,
            Name = e.VariantName,
            RevisionId = e.Revision,
            Number = e.Number,
            InspectionId = e.Inspection,
            Sha256 = e.Sha256,
            StatedUnit = e.StatedUnit,
            Size = new Vec3(e.SizeX, e.SizeY, e.SizeZ),
            VolumeMm3 = e.VolumeMm3,
            AreaMm2 = e.AreaMm2,
            IsMeasured = e.State == InspectionState.Done,
            FitProfile = FitProfile.TryFromBytes(e.FitProfile),
            MadeFor = [.. madeFor[e.Variant].Order(StringComparer.Ordinal)],
            Judgements = verdicts[e.Revision].ToDictionary(v => v.Process, v => v.Judgement),
        };

        IndexedPart Part(IGrouping<Guid, EntryRow> part)
        {
            var first = part.First();
            var choice = first.Choice is { } id ? choices.GetValueOrDefault(id) : null;
            return new(first.Part, first.PartSlug, first.PartName, first.Quantity, first.Role, first.Position, choice?.Id, choice?.Name,
                choice?.DefaultPartId == first.Part, [.. part.Select(Variant).OrderBy(v => v.Slug, StringComparer.Ordinal)])
            {
                Poses = first.Poses,
            };
        }

        var byEdition = entries.ToLookup(e => e.Edition);
        return
        [
            .. figures.Select(row =>
            {
                var f = row.Figure;
                var parts = byEdition[row.Edition].GroupBy(e => e.Part).Select(Part).OrderBy(p => p.Position).ToList();
                return new IndexedFigure
                {
                    Id = f.Id, Slug = f.Slug, Title = f.Title, Summary = f.Summary, HeightMm = f.HeightMm, ScaleDenominator = f.ScaleDenominator,
                    Licence = f.Licence, EditionNumber = row.Number, PublishedAt = row.PublishedAt, Version = f.Version, Parts = parts,
                    Joints = [.. joints[f.Id].Select(j => Judged(j, processes))],
                    SearchText = string.Join('\n', parts.Select(p => p.Name).Concat(hardware[f.Id]).Prepend(f.Summary).Prepend(f.Title)).ToLowerInvariant(),
                };
            }),
        ];
    }

    private static IndexedJoint Judged(Joint joint, IReadOnlyList<Process> processes)
    {
        var spec = joint.Spec;
        return new(joint.Id, joint.FirstPartId, joint.SecondPartId, joint.StrainedPartId, processes.Where(p => joint.IsUsedOn(p.Code))
            .ToDictionary(p => p.Code, p => JointMechanics.Judge(spec, p)));
    }

    private sealed record EntryRow(
        Guid Edition, Guid Part, string PartSlug, string PartName, int Quantity, PartRole Role, int Position, Guid? Choice, IReadOnlyList<Pose> Poses,
        Guid Variant, string VariantSlug, string VariantName, Guid Revision, int Number, string Sha256, LengthUnit? StatedUnit, Guid Inspection,
        double SizeX, double SizeY, double SizeZ, double VolumeMm3, double AreaMm2, InspectionState State, byte[] FitProfile);
}
