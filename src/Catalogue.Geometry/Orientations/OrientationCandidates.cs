using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Orientations;

/// <summary>Ways up that are worth measuring: see <see cref="OrientationAdvice"/>.</summary>
internal sealed class OrientationCandidates
{
    internal const int OverTheSphere = 500;
    private const int MostSides = 60;
    private const double SideDegrees = 2;
    private const double ApartDegrees = 3;
    private const double NeighbourDegrees = 4;
    private const int Neighbours = 6;
    private const double SpreadDegrees = 20;

    private readonly UprightFit _fit;
    private readonly SurfaceSamples _samples;
    private readonly double _limitDegrees;
    private readonly List<Vec3> _tried = [];
    private readonly List<Candidate> _fitting = [];

    /// <summary>A rotation that fits with its rough merits.</summary>
    private sealed record Candidate(Rotation Rotation, bool Stands, double[] Merits);

    private OrientationCandidates(UprightFit fit, SurfaceSamples samples, double limitDegrees) =>
        (_fit, _samples, _limitDegrees) = (fit, samples, limitDegrees);

    /// <summary>At most <paramref name="most"/> rotations that fit, off the rough front, and some more spread over all directions.</summary>
    public static List<Rotation> Promising(
        ConvexHull hull, Rotation bestFit, UprightFit fit, SurfaceSamples samples, double limitDegrees, int most, int spread, CancellationToken cancel)
    {
        var candidates = new OrientationCandidates(fit, samples, limitDegrees);
        foreach (var axis in (ReadOnlySpan<Vec3>)[Vec3.UnitZ, -Vec3.UnitZ, Vec3.UnitX, -Vec3.UnitX, Vec3.UnitY, -Vec3.UnitY]) candidates.Consider(axis);
        foreach (var side in Sides(hull)) candidates.Consider(-side);
        for (var i = 0; i < OverTheSphere; i++)
        {
            if (i % 50 == 0) cancel.ThrowIfCancellationRequested();
            candidates.Consider(OnSphere(i));
        }

        candidates.Add(bestFit);
        var front = candidates.Front(most);
        foreach (var candidate in front)
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var up in Around(candidate.Rotation)) candidates.Consider(up);
        }

        var promising = candidates.Front(most);
        promising.AddRange(candidates.Spread(promising, spread));
        return promising.ConvertAll(c => c.Rotation);
    }

    /// <summary>Others with upright directions far from each other's, the first of them being axes and flat sides.</summary>
    private List<Candidate> Spread(List<Candidate> taken, int count)
    {
        var apart = Math.Cos(SpreadDegrees * Math.PI / 180);
        var spread = new List<Candidate>();
        foreach (var candidate in Standing())
        {
            if (spread.Count == count) break;
            if (!taken.Concat(spread).Any(t => Vec3.Dot(t.Rotation.RowZ, candidate.Rotation.RowZ) > apart)) spread.Add(candidate);
        }

        return spread;
    }

    private List<Candidate> Front(int most) => ParetoSpread.Thinned(ParetoSpread.Front(Standing(), c => c.Merits), c => c.Merits, most);

    /// <summary>Those that stand, where any does.</summary>
    private List<Candidate> Standing() => _fitting.FindAll(c => c.Stands) is { Count: > 0 } standing ? standing : _fitting;

    private void Consider(Vec3 up)
    {
        var apart = Math.Cos(ApartDegrees * Math.PI / 180);
        if (_tried.Exists(t => Vec3.Dot(t, up) > apart)) return;
        _tried.Add(up);
        if (_fit.Upright(up) is { } rotation) Add(rotation);
    }

    private void Add(Rotation rotation)
    {
        var up = rotation.RowZ;
        var plate = _fit.PlateAlong(up);
        var (contact, resting) = _samples.Along(up, plate, _limitDegrees);
        _fitting.Add(new(rotation, _samples.Stands(rotation, plate, _limitDegrees), [contact, _fit.HeightAlong(up), contact + resting]));
    }

    /// <summary>Outward normals of the hull's largest flat or nearly flat sides.</summary>
    private static List<Vec3> Sides(ConvexHull hull)
    {
        var near = Math.Cos(SideDegrees * Math.PI / 180);
        var faces = new (double Area, Vec3 Normal)[hull.FaceCount];
        for (var f = 0; f < faces.Length; f++)
        {
            var (a, b, c) = (hull.Vertex(hull.Faces[3 * f]), hull.Vertex(hull.Faces[(3 * f) + 1]), hull.Vertex(hull.Faces[(3 * f) + 2]));
            var cross = Vec3.Cross(b - a, c - a);
            faces[f] = (cross.Length / 2, cross.Normalized());
        }

        // The largest faces lead; those that lie like one of them are added to it.
        var sides = new List<(double Area, Vec3 Normal)>();
        foreach (var (area, normal) in faces.OrderByDescending(f => f.Area).Take(4000))
        {
            var like = sides.FindIndex(s => Vec3.Dot(s.Normal, normal) > near);
            if (like >= 0) sides[like] = (sides[like].Area + area, sides[like].Normal);
            else if (sides.Count < 8 * MostSides) sides.Add((area, normal));
        }

        return [.. sides.OrderByDescending(s => s.Area).Take(MostSides).Select(s => s.Normal)];
    }

    /// <summary>Evenly spread: equal steps along the axis, the golden angle about it.</summary>
    internal static Vec3 OnSphere(int i)
    {
        var z = 1 - (((2 * i) + 1.0) / OverTheSphere);
        var (s, c) = Math.SinCos(i * Math.PI * (3 - Math.Sqrt(5)));
        var r = Math.Sqrt(1 - (z * z));
        return new(r * c, r * s, z);
    }

    private static IEnumerable<Vec3> Around(Rotation rotation)
    {
        var (tilt, lean) = Math.SinCos(NeighbourDegrees * Math.PI / 180);
        for (var i = 0; i < Neighbours; i++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * i / Neighbours);
            yield return ((rotation.RowZ * lean) + (((rotation.RowX * c) + (rotation.RowY * s)) * tilt)).Normalized();
        }
    }
}
