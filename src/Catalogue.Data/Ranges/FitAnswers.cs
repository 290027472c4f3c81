using System.Collections.Concurrent;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Model.Verdicts;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Ranges;

/// <summary>Whether a variant goes into a volume: at once from its fit profile, and near the edge from its hull.</summary>
/// <remarks>
/// A clear answer costs about a microsecond and no memory beyond the index; its spare may be less than the best there is by the profile's slack, never more.
/// Answers from hulls are kept, at most <see cref="MostKept"/>; then half of them are forgotten. Thread-safe.
/// </remarks>
public sealed class FitAnswers(DatabaseChoice database)
{
    public const int MostKept = 50_000;

    private readonly ConcurrentDictionary<(Guid Inspection, BuildVolume Volume), FitAnswer> _refined = new();

    /// <summary>Null while the mesh is not measured.</summary>
    public async ValueTask<FitAnswer?> OfAsync(IndexedVariant variant, BuildVolume volume, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(variant);
        if (!variant.IsMeasured) return null;
        if (variant.FitProfile?.Query(volume) is { NearEdge: false } clear) return FitAnswer.Of(clear, variant.Size, volume);
        return await ExactAsync(variant, volume, cancellation);
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
        if (_refined.Count >= MostKept)
            foreach (var old in _refined.Keys.Take(MostKept / 2)) _refined.TryRemove(old, out _);
        _refined[key] = answer;
        return answer;
    }
}
