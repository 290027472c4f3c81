using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Tests.Overhangs;

/// <summary>Closed meshes with flat sides whose overhangs are known by hand.</summary>
internal static class Brickwork
{
    /// <summary>The surface of all cells between the given lines (mm) that are full, one closed mesh with shared corners.</summary>
    public static TriangleMesh Of(double[] xs, double[] ys, double[] zs, Func<double, double, double, bool> isFull)
    {
        var numbers = new Dictionary<(int, int, int), int>();
        var (positions, indices) = (new List<float>(), new List<int>());
        for (var i = 0; i + 1 < xs.Length; i++)
        {
            for (var j = 0; j + 1 < ys.Length; j++)
            {
                for (var k = 0; k + 1 < zs.Length; k++)
                {
                    if (!Full(i, j, k)) continue;
                    if (!Full(i - 1, j, k)) Face((i, j, k), (0, 0, 1), (0, 1, 0));
                    if (!Full(i + 1, j, k)) Face((i + 1, j, k), (0, 1, 0), (0, 0, 1));
                    if (!Full(i, j - 1, k)) Face((i, j, k), (1, 0, 0), (0, 0, 1));
                    if (!Full(i, j + 1, k)) Face((i, j + 1, k), (0, 0, 1), (1, 0, 0));
                    if (!Full(i, j, k - 1)) Face((i, j, k), (0, 1, 0), (1, 0, 0));
                    if (!Full(i, j, k + 1)) Face((i, j, k + 1), (1, 0, 0), (0, 1, 0));
                }
            }
        }

        return new([.. positions], [.. indices]);

        bool Full(int i, int j, int k) =>
            i >= 0 && j >= 0 && k >= 0 && i + 1 < xs.Length && j + 1 < ys.Length && k + 1 < zs.Length
            && isFull((xs[i] + xs[i + 1]) / 2, (ys[j] + ys[j + 1]) / 2, (zs[k] + zs[k + 1]) / 2);

        void Face((int X, int Y, int Z) at, (int X, int Y, int Z) u, (int X, int Y, int Z) v)
        {
            var (a, b) = (Corner(at), Corner((at.X + u.X, at.Y + u.Y, at.Z + u.Z)));
            var (c, d) = (Corner((at.X + u.X + v.X, at.Y + u.Y + v.Y, at.Z + u.Z + v.Z)), Corner((at.X + v.X, at.Y + v.Y, at.Z + v.Z)));
            indices.AddRange([a, b, c, a, c, d]);
        }

        int Corner((int X, int Y, int Z) at)
        {
            if (numbers.TryGetValue(at, out var number)) return number;
            positions.AddRange([(float)xs[at.X], (float)ys[at.Y], (float)zs[at.Z]]);
            return numbers[at] = numbers.Count;
        }
    }

    /// <summary>A wall between two curves over x, from y = 0 to <paramref name="depth"/>: bottom and top heights at each x (mm), equal nowhere.</summary>
    public static TriangleMesh Wall(IReadOnlyList<(double X, double Bottom, double TopX, double Top)> profile, double depth)
    {
        var (positions, indices) = (new List<float>(), new List<int>());
        foreach (var (x, bottom, topX, top) in profile)
            positions.AddRange([(float)x, 0, (float)bottom, (float)topX, 0, (float)top, (float)x, (float)depth, (float)bottom, (float)topX, (float)depth, (float)top]);
        for (var i = 0; i + 1 < profile.Count; i++)
        {
            var (a, b) = (4 * i, 4 * (i + 1));
            Quad(a, b, b + 1, a + 1); // front
            Quad(a + 2, a + 3, b + 3, b + 2); // back
            Quad(a, a + 2, b + 2, b); // underside
            Quad(a + 1, b + 1, b + 3, a + 3); // top
        }

        var last = 4 * (profile.Count - 1);
        Quad(0, 1, 3, 2);
        Quad(last, last + 2, last + 3, last + 1);
        return new([.. positions], [.. indices]);
        void Quad(int a, int b, int c, int d) => indices.AddRange([a, b, c, a, c, d]);
    }

    /// <summary>A bar of 40 × 10 × 5 on a stem of 10 × 10 × 20 (mm).</summary>
    public static TriangleMesh Tee() => Of([0, 15, 25, 40], [0, 10], [0, 20, 25], (x, _, z) => z > 20 || (x > 15 && x < 25));

    /// <summary>A slab of 40 × 20 × 5 on two walls 5 thick and 15 high at its ends (mm): 30 from wall to wall.</summary>
    public static TriangleMesh Table() => Of([0, 5, 35, 40], [0, 20], [0, 15, 20], (x, _, z) => z > 15 || x < 5 || x > 35);

    /// <summary>The table with a peg of 4 × 4 that hangs from the middle of its underside down to 8 above the plate.</summary>
    public static TriangleMesh TableWithPeg() => Of([0, 5, 18, 22, 35, 40], [0, 8, 12, 20], [0, 8, 15, 20],
        (x, y, z) => z > 15 || x < 5 || x > 35 || (z > 8 && x > 18 && x < 22 && y > 8 && y < 12));

    /// <summary>A block of 40 × 20 × 30 with a half-round tunnel of radius 15 along y on the plate, in steps of 2.5°.</summary>
    public static TriangleMesh Arch() => Wall(
    [
        (-20, 0, -20, 30),
        .. Enumerable.Range(0, 73).Select(i => Math.PI * (72 - i) / 72).Select(a => (15 * Math.Cos(a), 15 * Math.Sin(a), 15 * Math.Cos(a), 30.0)),
        (20, 0, 20, 30),
    ], 20);

    /// <summary>A plate 3 thick and 30 high that stands on its foot and leans by an angle from the vertical; 20 deep.</summary>
    public static TriangleMesh Leaning(double degrees)
    {
        var shift = 30 * Math.Tan(degrees * Math.PI / 180);
        return Wall([(0, 0, shift, 30), (3, 0, 3 + shift, 30)], 20);
    }
}
