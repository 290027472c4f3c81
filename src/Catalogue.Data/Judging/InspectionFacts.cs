using System.IO.Compression;
using Catalogue.Model.Inspections;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Judging;

/// <summary>The measurements that one check judges by limits, apart from all others, so that a changed limit reads only what it concerns.</summary>
public sealed class InspectionFacts
{
    private InspectionFacts()
    {
    }

    public InspectionFacts(Guid inspectionId, string check, byte[] packed) => (InspectionId, Check, Packed) = (inspectionId, check, packed);

    public Guid InspectionId { get; private set; }

    /// <summary>The name of a <see cref="Catalogue.Model.Verdicts.Check"/>.</summary>
    public string Check { get; private set; } = "";

    /// <summary><see cref="CheckedFacts.ToJson"/>, deflated.</summary>
    public byte[] Packed { get; private set; } = [];

    /// <summary>Adds or replaces what belongs to an inspection just finished; the caller saves.</summary>
    public static async Task KeepAsync(CatalogueDb db, MeshInspection inspection, MeshFacts facts, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(db);
        ArgumentNullException.ThrowIfNull(inspection);
        var kept = await db.CheckFacts.Where(f => f.InspectionId == inspection.Id).ToListAsync(cancellation);
        foreach (var fresh in Of(inspection.Id, CheckedFacts.Of(facts)))
        {
            if (kept.Find(k => k.Check == fresh.Check) is { } old) old.Packed = fresh.Packed;
            else db.CheckFacts.Add(fresh);
        }
    }

    /// <summary>What belongs to each check.</summary>
    public static IEnumerable<InspectionFacts> Of(Guid inspection, CheckedFacts facts) =>
        Catalogue.Model.Verdicts.Check.All.Select(c => new InspectionFacts(inspection, c.Name, Pack(c.PartOf(facts).ToJson())));

    public static CheckedFacts Unpack(byte[] packed)
    {
        using var deflated = new DeflateStream(new MemoryStream(packed), CompressionMode.Decompress);
        using var json = new MemoryStream(8 * packed.Length);
        deflated.CopyTo(json);
        return CheckedFacts.FromJson(json.GetBuffer().AsSpan(0, (int)json.Length));
    }

    private static byte[] Pack(byte[] json)
    {
        using var packed = new MemoryStream();
        using (var deflate = new DeflateStream(packed, CompressionLevel.Optimal, leaveOpen: true)) deflate.Write(json);
        return packed.ToArray();
    }
}
