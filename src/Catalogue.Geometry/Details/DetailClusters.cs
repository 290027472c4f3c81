using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Details;

/// <summary>Joins samples that lie near each other to features, at every size of a ladder.</summary>
/// <remarks>Samples come in by size, each looks once for neighbours that are there already (cubes of the reach hold them): O(samples · neighbours + sizes · samples).</remarks>
/// <param name="spacing">Of samples on the surface, mm.</param>
internal sealed class DetailClusters(double spacing, CancellationToken cancel)
{
    /// <summary>The band beside an edge whose area tells its length: narrow, so that corners count little, but no narrower than samples lie apart.</summary>
    private readonly double _band = Math.Clamp(spacing, 0.5, DetailMeasures.ReachMm);

    /// <summary>Samples further apart than this belong to different features, mm.</summary>
    private readonly double _near = Math.Max(2, 4 * spacing);

    /// <summary>What measures this little less than a size is that size, drawn.</summary>
    private const double Rounding = 0.005;

    /// <param name="touches">Of one kind.</param>
    /// <param name="sizes">Ascending.</param>
    /// <param name="byHeight">By the heights of edges, else by the widths of ridges or grooves.</param>
    public List<DetailStep> Ladder(IEnumerable<ReliefTouch> touches, IReadOnlyList<double> sizes, bool byHeight)
    {
        var sorted = touches.Where(t => SizeOf(t) < sizes[^1]).OrderBy(SizeOf).ToList();
        var parent = Enumerable.Range(0, sorted.Count).ToArray();
        var cubes = new Dictionary<(int, int, int), List<int>>();
        var steps = new List<DetailStep>();
        var count = 0;
        foreach (var size in sizes)
        {
            for (; count < sorted.Count && SizeOf(sorted[count]) < size - Rounding; count++)
            {
                if ((count & 0xff) == 0) cancel.ThrowIfCancellationRequested();
                Add(count);
            }

            cancel.ThrowIfCancellationRequested();
            var features = Enumerable.Range(0, count).GroupBy(Root).Select(g => Feature([.. g.Select(i => sorted[i])], byHeight))
                .Where(f => f.LengthMm >= (byHeight ? DetailMeasures.ShortestMm : DetailMeasures.ShortestMm / 2))
                .OrderByDescending(f => f.LengthMm).ThenBy(f => f.At.X).ThenBy(f => f.At.Y).ThenBy(f => f.At.Z).ToList();
            steps.Add(new(size, features.Count, features.Sum(f => f.AreaMm2), features.Sum(f => f.LengthMm), [.. features.Take(DetailMeasures.Most)]));
        }

        return steps;

        double SizeOf(ReliefTouch touch) => byHeight ? touch.Height : touch.Width;

        void Add(int i)
        {
            var (x, y, z) = Cube(sorted[i].At);
            for (var dx = -1; dx <= 1; dx++)
                for (var dy = -1; dy <= 1; dy++)
                    for (var dz = -1; dz <= 1; dz++)
                        if (cubes.TryGetValue((x + dx, y + dy, z + dz), out var others)) Join(i, others);
            if (!cubes.TryGetValue((x, y, z), out var mine)) cubes[(x, y, z)] = mine = [];
            mine.Add(i);
        }

        void Join(int i, List<int> others)
        {
            foreach (var j in others)
                if ((sorted[i].At - sorted[j].At).LengthSquared <= _near * _near) parent[Root(j)] = Root(i);
        }

        int Root(int i)
        {
            while (parent[i] != i) i = parent[i] = parent[parent[i]];
            return i;
        }
    }

    private DetailFeature Feature(List<ReliefTouch> touches, bool byHeight)
    {
        // A ridge has two edges; of something broad the band beside each counts.
        var length = byHeight
            ? touches.Sum(t => double.IsFinite(t.Width) ? 2 * t.AreaMm2 / t.Width : t.Distance < _band ? t.AreaMm2 / _band : 0)
            : touches.Sum(t => t.AreaMm2 / t.Width);
        var middle = touches.Aggregate(Vec3.Zero, (sum, t) => sum + t.At) / touches.Count;
        var at = touches.MinBy(t => (t.At - middle).LengthSquared).At;
        return new(
            byHeight ? null : Rounded(Median(touches, t => t.Width)), Rounded(Median(touches, t => t.Height)), Rounded(touches.Sum(t => t.AreaMm2)), Rounded(length),
            new(Rounded(at.X), Rounded(at.Y), Rounded(at.Z)));
    }

    /// <summary>To a thousandth of a millimetre: it is stored, and not known better.</summary>
    private static double Rounded(double value) => Math.Round(value, 3);

    private static double Median(List<ReliefTouch> touches, Func<ReliefTouch, double> of) => touches.Select(of).Order().ElementAt(touches.Count / 2);

    private (int, int, int) Cube(Vec3 p) => ((int)Math.Floor(p.X / _near), (int)Math.Floor(p.Y / _near), (int)Math.Floor(p.Z / _near));
}
