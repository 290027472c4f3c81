using System.Collections.Concurrent;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>Whether a variant goes into a volume, beyond what its outline in the index tells: from its fit profile, and near the edge from its hull.</summary>
/// <remarks>
/// Profiles and hulls are read when they are needed. A clear answer from a profile may spare less than the best there is by the profile's slack, never more.
/// What is kept is bounded: <see cref="MostProfiles"/> profiles (some 10 kB each) and <see cref="MostAnswers"/> answers; when there are more, half are forgotten. Thread-safe.
/// </remarks>
public sealed class FitAnswers(DatabaseChoice database)
{
    public const int MostAnswers = 50_000;
    public const int MostProfiles = 2_000;

    private const int Batch = 200;

    private readonly ConcurrentDictionary<(Guid Inspection, BuildVolume Volume), FitAnswer> _refined = new();
    private readonly ConcurrentDictionary<(Guid Inspection, BuildVolume Volume), bool> _decided = new();
    private readonly ConcurrentDictionary<Guid, FitProfile?> _profiles = new();

    /// <summary>Null while the mesh is not measured.</summary>
    public async ValueTask<FitAnswer?> OfAsync(IndexedVariant variant, BuildVolume volume, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(variant);
        if (!variant.IsMeasured) return null;
        if ((await ProfileAsync(variant, cancellation))?.Query(volume) is { NearEdge: false } clear) return FitAnswer.Of(clear, variant.Size, volume);
        return await ExactAsync(variant, volume, cancellation);
    }

    /// <summary>Null while the mesh is not measured, or when it was before profiles of this version were kept.</summary>
    internal async ValueTask<FitProfile?> ProfileAsync(IndexedVariant variant, CancellationToken cancellation)
    {
        if (_profiles.TryGetValue(variant.InspectionId, out var profile)) return profile;
        await ReadProfilesAsync([variant.InspectionId], cancellation);
        return _profiles.GetValueOrDefault(variant.InspectionId);
    }

    /// <summary>The best spare there is, from the hull: for one part looked at closely. Null while the mesh is not measured.</summary>
    public async ValueTask<FitAnswer?> ExactAsync(IndexedVariant variant, BuildVolume volume, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(variant);
        var key = (variant.InspectionId, volume);
        if (_refined.TryGetValue(key, out var kept)) return kept;
        await using var db = database.Open();
        var bytes = await db.Inspections.AsNoTracking().Where(i => i.Id == variant.InspectionId).Select(i => i.Hull).SingleOrDefaultAsync(cancellation);
        if (bytes is not { Length: > 0 }) return null;
        var answer = FitAnswer.Of(FitSearch.Fit(ConvexHull.FromBytes(bytes), volume, cancellation), variant.Size, volume);
        return Keep(_refined, key, answer, MostAnswers);
    }

    /// <summary>Reads profiles that are going to be asked for, all at once.</summary>
    public async Task PrepareAsync(IEnumerable<IndexedVariant> variants, CancellationToken cancellation)
    {
        var missing = variants.Where(v => v.IsMeasured && !_profiles.ContainsKey(v.InspectionId)).Select(v => v.InspectionId).Distinct().ToList();
        foreach (var batch in missing.Chunk(Batch)) await ReadProfilesAsync(batch, cancellation);
    }

    /// <summary>What was found out before; null when nothing was.</summary>
    internal bool? Known(Guid inspection, BuildVolume volume) =>
        _decided.TryGetValue((inspection, volume), out var fits) ? fits : _refined.TryGetValue((inspection, volume), out var answer) ? answer.Fits : null;

    /// <summary>
    /// Whether the mesh goes in, and nothing more: from the profile when that can tell, else by the shortest search on the hull. Agrees with
    /// <see cref="ExactAsync"/>. True when there is no hull to search: nothing is known against it.
    /// </summary>
    internal async ValueTask<bool> DecideAsync(CatalogueDb db, Guid inspection, BuildVolume volume, CancellationToken cancellation)
    {
        if (Known(inspection, volume) is { } known) return known;
        var row = await db.Inspections.AsNoTracking().Where(i => i.Id == inspection).Select(i => new { i.FitProfile, i.Hull }).SingleOrDefaultAsync(cancellation);
        var fits = row is not { Hull.Length: > 0 } || Decide(row.FitProfile, row.Hull, volume, cancellation);
        return Keep(_decided, (inspection, volume), fits, MostAnswers);
    }

    private static bool Decide(byte[] profileBytes, byte[] hullBytes, BuildVolume volume, CancellationToken cancellation)
    {
        if (FitProfile.TryFromBytes(profileBytes) is { } profile)
        {
            var kept = profile.Query(volume);
            if (kept.SpareMm >= FitSearch.DecisionToleranceMm) return true;
            if (kept.SpareMm + (volume.IsRound ? profile.RoundSlackMm : profile.SlackMm) < 0) return false;
        }

        var hull = ConvexHull.FromBytes(hullBytes);
        return FitSearch.Decide(hull, volume, cancellation) ?? FitSearch.Fit(hull, volume, cancellation).Fits;
    }

    private async Task ReadProfilesAsync(Guid[] inspections, CancellationToken cancellation)
    {
        await using var db = database.Open();
        var rows = await db.Inspections.AsNoTracking().Where(i => inspections.Contains(i.Id)).Select(i => new { i.Id, i.FitProfile }).ToListAsync(cancellation);
        foreach (var row in rows) Keep(_profiles, row.Id, FitProfile.TryFromBytes(row.FitProfile), MostProfiles);
    }

    private static TValue Keep<TKey, TValue>(ConcurrentDictionary<TKey, TValue> kept, TKey key, TValue value, int most)
        where TKey : notnull
    {
        if (kept.Count >= most)
            foreach (var old in kept.Keys.Take(most / 2)) kept.TryRemove(old, out _);
        return kept[key] = value;
    }
}
