using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Overhangs;

/// <summary>How far it is from overhanging surface down to the plate or to the part below, by the angle of the surface.</summary>
/// <remarks>
/// Samples lie evenly by area seen from above, along triangles that are near each other (systematic sampling), within a triangle by a low-discrepancy sequence (M. Roberts, "The Unreasonable
/// Effectiveness of Quasirandom Sequences", 2018, from memory). From each a ray goes down. What it finds is only used as a share of the volume down to the plate, which is known exactly: without the part below there is no sampling
/// error at all. Cost: one ray a sample, whatever the number of triangles.
/// </remarks>
internal sealed class SupportColumns
{
    /// <summary>A column for every such area, unless that would be too many or too few (mm²).</summary>
    private const double SampleMm2 = 0.05;
    private const int FewestRays = 4_000;
    private const double Offset = 1e-3; // mm below the surface: far more than rounding, far less than a layer
    private const int Chunk = 512;

    private readonly OverhangPose _pose;
    private readonly int[] _triangles;
    private readonly Column[] _columns;

    /// <summary>Prism: down to the plate. Gap: down to what is below, 0 where that is matter. Counted: false where the sample rests on the plate.</summary>
    private record struct Column(float Prism, float Gap, bool Counted, bool OnPart, bool Buried);

    private SupportColumns(OverhangPose pose, int[] triangles)
    {
        (_pose, _triangles) = (pose, triangles);
        _columns = new Column[triangles.Length];
    }

    /// <summary>Cumulative by degree, as <see cref="OverhangMeasures"/> gives them.</summary>
    public double[] Area { get; private set; } = [];

    public double[] Volume { get; private set; } = [];
    public double[] OnPart { get; private set; } = [];

    /// <summary>Looks down from samples of all the surface that hangs over.</summary>
    public static SupportColumns Under(OverhangPose pose, int mostRays, CancellationToken stop)
    {
        var shadow = pose.Shadows.Sum();
        var rays = (int)Math.Clamp(shadow / SampleMm2, FewestRays, mostRays);
        var columns = new SupportColumns(pose, shadow > 0 ? Sampled(pose, shadow / rays, rays) : []);
        columns.Look(stop);
        columns.Sum();
        return columns;
    }

    private static int[] Sampled(OverhangPose pose, double step, int expected)
    {
        var samples = new List<int>(expected + 1);
        var (taken, next) = (0.0, step / 2);
        foreach (var t in pose.Surface.Order)
        {
            taken += pose.Shadow[t];
            for (; next < taken; next += step) samples.Add(t);
        }

        return [.. samples];
    }

    private void Look(CancellationToken stop)
    {
        var next = 0;
        Fork.Join(() =>
        {
            for (int begin; (begin = Interlocked.Add(ref next, Chunk) - Chunk) < _triangles.Length;)
            {
                stop.ThrowIfCancellationRequested();
                for (var i = begin; i < Math.Min(begin + Chunk, _triangles.Length); i++) _columns[i] = Below(i);
            }
        });
    }

    /// <summary>The place of a sample in its triangle, along two of its sides: neighbours in number lie far apart, all together evenly.</summary>
    internal static (double U, double V) Spread(int sample)
    {
        var (u, v) = (0.5 + (0.7548776662466927 * sample), 0.5 + (0.5698402909980532 * sample));
        (u, v) = (u - Math.Floor(u), v - Math.Floor(v));
        return u + v > 1 ? (1 - u, 1 - v) : (u, v);
    }

    private Column Below(int sample)
    {
        var (a, b, c) = _pose.Mesh.Triangle(_triangles[sample]);
        var (u, v) = Spread(sample);
        var point = a + ((b - a) * u) + ((c - a) * v);
        var prism = _pose.HeightOf(point);
        if (prism <= OverhangMeasures.RestingMm) return default;
        var up = _pose.Rotation.RowZ;
        var hit = _pose.Surface.Tree.FirstHit(new(point - (up * Offset), -up), prism);
        return hit switch
        {
            null => new((float)prism, (float)prism, true, false, false),
            { FromFront: true } => new((float)prism, (float)Math.Min(prism, hit.Value.Distance + Offset), true, true, false),
            _ => new((float)prism, 0, true, false, true),
        };
    }

    private void Sum()
    {
        Span<double> prisms = stackalloc double[OverhangPose.Degrees];
        Span<double> gaps = stackalloc double[OverhangPose.Degrees];
        Span<int> counted = stackalloc int[OverhangPose.Degrees];
        Span<int> onPart = stackalloc int[OverhangPose.Degrees];
        Span<int> buried = stackalloc int[OverhangPose.Degrees];
        for (var i = 0; i < _columns.Length; i++)
        {
            var column = _columns[i];
            if (!column.Counted) continue;
            var k = _pose.Degree[_triangles[i]];
            prisms[k] += column.Prism;
            gaps[k] += column.Gap;
            counted[k]++;
            if (column.OnPart) onPart[k]++;
            if (column.Buried) buried[k]++;
        }

        var (area, volume, standing) = (new double[OverhangPose.Degrees], new double[OverhangPose.Degrees], new double[OverhangPose.Degrees]);
        for (var k = OverhangPose.Degrees - 1; k >= 0; k--)
        {
            var n = Math.Max(1, counted[k]);
            var share = prisms[k] > 0 ? gaps[k] / prisms[k] : 1;
            var above = k + 1 < OverhangPose.Degrees ? (area[k + 1], volume[k + 1], standing[k + 1]) : (0, 0, 0);
            area[k] = above.Item1 + (_pose.Areas[k] * (n - buried[k]) / n);
            volume[k] = above.Item2 + (_pose.Prisms[k] * share);
            standing[k] = above.Item3 + (_pose.Shadows[k] * onPart[k] / n);
        }

        (Area, Volume, OnPart) = (Table(area), Table(volume), Table(standing));
        static double[] Table(double[] values) => Array.ConvertAll(values, OverhangSurface.Rounded);
    }

    /// <summary>Gives each bridge the volume of the columns under it.</summary>
    public void Fill(BridgeSearch bridges)
    {
        if (bridges.Regions.Count == 0) return;
        var (prisms, gaps) = (new double[bridges.Regions.Count], new double[bridges.Regions.Count]);
        for (var i = 0; i < _columns.Length; i++)
        {
            var region = bridges.RegionOf(_triangles[i]);
            if (region < 0 || !_columns[i].Counted) continue;
            prisms[region] += _columns[i].Prism;
            gaps[region] += _columns[i].Gap;
        }

        for (var r = 0; r < prisms.Length; r++)
        {
            var region = bridges.Regions[r];
            region.Volume = region.Prism * region.HeldShare * (prisms[r] > 0 ? gaps[r] / prisms[r] : 1);
        }
    }
}
