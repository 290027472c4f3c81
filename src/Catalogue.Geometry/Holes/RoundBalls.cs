using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>A round place in a surface: a ball that stands out, or a socket.</summary>
/// <param name="Center">In the mesh's coordinates, mm.</param>
/// <param name="DiameterMm">Of the sphere fitted to the middles of its triangles, weighed by area.</param>
/// <param name="Share">The area found, as a part of a whole sphere's.</param>
public sealed record RoundBall(Vec3 Center, double DiameterMm, double Share);

/// <summary>Balls and sockets of a diameter that is known, as joints say it.</summary>
/// <remarks>
/// Each triangle votes for the point one radius behind it (or before it, for a socket); where a sphere is, the votes meet (Hough's transform, from memory). Around each meeting a sphere is fitted by least squares.
/// Counts as a ball: at least <see cref="LeastShare"/> of a sphere, of the diameter within a tenth, its votes within an eighth of a radius, its normals towards all sides (which those of a cylinder are not).
/// Bounds are our own. O(triangles) a ball; 80 bytes a triangle.
/// </remarks>
public static class RoundBalls
{
    /// <summary>A smaller cap is no joint.</summary>
    public const double LeastShare = 0.12;

    private const int Most = 20;

    /// <summary>The largest share first.</summary>
    /// <param name="mesh">Triangles that face outward.</param>
    /// <param name="diameterMm">About which; mm, above 0.</param>
    /// <param name="hollow">True for sockets.</param>
    public static IReadOnlyList<RoundBall> Find(TriangleMesh mesh, double diameterMm, bool hollow, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(diameterMm);
        var votes = Votes(mesh, diameterMm / 2, hollow, cancel);
        var found = new List<RoundBall>();
        var cells = Count(votes, 0.15 * diameterMm / 2);
        foreach (var (cell, _) in cells.OrderByDescending(c => Around(cells, c.Key)).Take(200))
        {
            cancel.ThrowIfCancellationRequested();
            if (found.Count == Most) break;
            var middle = new Vec3(cell.X + 0.5, cell.Y + 0.5, cell.Z + 0.5) * (0.15 * diameterMm / 2);
            if (found.Exists(b => Vec3.Distance(b.Center, middle) < 0.5 * diameterMm)) continue;
            if (Fit(votes, middle, diameterMm / 2) is { } ball) found.Add(ball);
        }

        return [.. found.OrderByDescending(b => b.Share)];
    }

    private readonly record struct Vote(Vec3 Center, Vec3 Point, Vec3 Normal, double Area);

    private static List<Vote> Votes(TriangleMesh mesh, double radius, bool hollow, CancellationToken cancel)
    {
        var votes = new List<Vote>(mesh.TriangleCount);
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            if (t % 65_536 == 0) cancel.ThrowIfCancellationRequested();
            var (a, b, c) = mesh.Triangle(t);
            var normal = Vec3.Cross(b - a, c - a);
            var twice = normal.Length;
            if (!(twice > 0)) continue;
            normal /= twice;
            var point = (a + b + c) / 3;
            votes.Add(new(point + (normal * (hollow ? radius : -radius)), point, normal, twice / 2));
        }

        return votes;
    }

    private static Dictionary<(int X, int Y, int Z), double> Count(List<Vote> votes, double size)
    {
        var cells = new Dictionary<(int X, int Y, int Z), double>();
        foreach (var vote in votes)
        {
            ref var area = ref CollectionsMarshal.GetValueRefOrAddDefault(
                cells, ((int)Math.Floor(vote.Center.X / size), (int)Math.Floor(vote.Center.Y / size), (int)Math.Floor(vote.Center.Z / size)), out _);
            area += vote.Area;
        }

        return cells;
    }

    private static double Around(Dictionary<(int X, int Y, int Z), double> cells, (int X, int Y, int Z) cell)
    {
        var sum = 0.0;
        for (var x = -1; x <= 1; x++)
            for (var y = -1; y <= 1; y++)
                for (var z = -1; z <= 1; z++) sum += cells.GetValueOrDefault((cell.X + x, cell.Y + y, cell.Z + z));
        return sum;
    }

    private static RoundBall? Fit(List<Vote> votes, Vec3 middle, double radius)
    {
        var near = votes.FindAll(v => (v.Center - middle).LengthSquared < Square(0.35 * radius));
        var area = near.Sum(v => v.Area);
        if (area < LeastShare * 4 * Math.PI * Square(radius)) return null;
        var center = near.Aggregate(Vec3.Zero, (sum, v) => sum + (v.Center * v.Area)) / area;
        var spread = Math.Sqrt(near.Sum(v => v.Area * (v.Center - center).LengthSquared) / area);
        if (spread > radius / 8 || AllSides(near, area) < 0.002) return null;

        // Gauss–Newton on the distances of points from the centre; the votes began it near enough for three steps.
        var fitted = radius;
        for (var step = 0; step < 3; step++)
        {
            fitted = near.Sum(v => v.Area * Vec3.Distance(v.Point, center)) / area;
            var off = near.Aggregate(Vec3.Zero, (sum, v) =>
            {
                var d = v.Point - center;
                return sum + (d * (v.Area * (d.Length - fitted) / d.Length));
            }) / area;
            center += off * 3; // On a whole sphere the mean of n nᵀ is a third.
        }

        return Math.Abs(fitted - radius) > 0.1 * radius ? null : new(center, 2 * fitted, area / (4 * Math.PI * Square(fitted)));
    }

    /// <summary>The determinant of the mean of n nᵀ: 1/27 for all directions alike, 0 where all lie in a plane.</summary>
    private static double AllSides(List<Vote> votes, double area)
    {
        Vec3 x = Vec3.Zero, y = Vec3.Zero, z = Vec3.Zero;
        foreach (var vote in votes)
        {
            var weighed = vote.Normal * (vote.Area / area);
            x += weighed * vote.Normal.X;
            y += weighed * vote.Normal.Y;
            z += weighed * vote.Normal.Z;
        }

        return Vec3.Dot(x, Vec3.Cross(y, z));
    }

    private static double Square(double v) => v * v;
}
