namespace Catalogue.Geometry.Meshes;

/// <summary>Closed meshes of simple solids, welded and outward-facing: building blocks for demos, tests and benchmarks.</summary>
public static class Solids
{
    /// <summary>A box from the origin to (<paramref name="x"/>, <paramref name="y"/>, <paramref name="z"/>) mm: 8 vertices, 12 triangles.</summary>
    public static TriangleMesh Box(double x, double y, double z)
    {
        var p = new float[24];
        for (var i = 0; i < 8; i++)
        {
            p[3 * i] = (float)((i & 1) == 0 ? 0 : x);
            p[(3 * i) + 1] = (float)((i & 2) == 0 ? 0 : y);
            p[(3 * i) + 2] = (float)((i & 4) == 0 ? 0 : z);
        }

        return new(p,
        [
            0, 2, 3, 0, 3, 1, // bottom
            4, 5, 7, 4, 7, 6, // top
            0, 1, 5, 0, 5, 4, // front
            2, 6, 7, 2, 7, 3, // back
            0, 4, 6, 0, 6, 2, // left
            1, 3, 7, 1, 7, 5, // right
        ]);
    }

    /// <summary>A regular icosahedron subdivided <paramref name="level"/> times onto its sphere: 20 · 4^level triangles, vertices exactly on the sphere (to rounding).</summary>
    public static TriangleMesh Icosphere(double radius, int level, Vec3 center = default)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(level);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(level, 10);
        var t = (1 + Math.Sqrt(5)) / 2;
        List<Vec3> v =
        [
            new(-1, t, 0), new(1, t, 0), new(-1, -t, 0), new(1, -t, 0), new(0, -1, t), new(0, 1, t),
            new(0, -1, -t), new(0, 1, -t), new(t, 0, -1), new(t, 0, 1), new(-t, 0, -1), new(-t, 0, 1),
        ];
        int[] f =
        [
            0, 11, 5, 0, 5, 1, 0, 1, 7, 0, 7, 10, 0, 10, 11, 1, 5, 9, 5, 11, 4, 11, 10, 2, 10, 7, 6, 7, 1, 8,
            3, 9, 4, 3, 4, 2, 3, 2, 6, 3, 6, 8, 3, 8, 9, 4, 9, 5, 2, 4, 11, 6, 2, 10, 8, 6, 7, 9, 8, 1,
        ];
        for (var i = 0; i < v.Count; i++) v[i] = v[i].Normalized();
        for (var step = 0; step < level; step++)
        {
            var middles = new Dictionary<(int, int), int>(f.Length);
            var next = new int[f.Length * 4];
            for (int i = 0, o = 0; i < f.Length; i += 3)
            {
                var (a, b, c) = (f[i], f[i + 1], f[i + 2]);
                var (ab, bc, ca) = (Middle(a, b), Middle(b, c), Middle(c, a));
                ReadOnlySpan<int> four = [a, ab, ca, b, bc, ab, c, ca, bc, ab, bc, ca];
                four.CopyTo(next.AsSpan(o));
                o += 12;
            }

            f = next;
            int Middle(int a, int b)
            {
                var key = a < b ? (a, b) : (b, a);
                if (middles.TryGetValue(key, out var m)) return m;
                v.Add(((v[a] + v[b]) * 0.5).Normalized());
                return middles[key] = v.Count - 1;
            }
        }

        return FromPoints(v.Select(p => center + (p * radius)), f);
    }

    /// <summary>An upright prism of <paramref name="sides"/> sides, corners on a circle of <paramref name="radius"/> mm about z, from z = 0 to <paramref name="height"/>.</summary>
    public static TriangleMesh Cylinder(double radius, double height, int sides)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(sides, 3);
        var v = new List<Vec3>(2 * sides);
        for (var i = 0; i < sides; i++)
        {
            var (s, c) = Math.SinCos(2 * Math.PI * i / sides);
            v.Add(new(radius * c, radius * s, 0));
            v.Add(new(radius * c, radius * s, height));
        }

        var f = new List<int>(12 * sides);
        for (var i = 0; i < sides; i++)
        {
            var (a, b) = (2 * i, 2 * ((i + 1) % sides));
            f.AddRange([a, b, b + 1, a, b + 1, a + 1]);
            if (i > 0 && i < sides - 1) f.AddRange([0, b, a, 1, a + 1, b + 1]);
        }

        return FromPoints(v, [.. f]);
    }

    /// <summary>A torus about z: circle of <paramref name="major"/> mm swept by a circle of <paramref name="minor"/> mm, <paramref name="around"/> × <paramref name="tube"/> quads.</summary>
    public static TriangleMesh Torus(double major, double minor, int around, int tube) =>
        Tube(around, tube, (u, w) =>
        {
            var r = major + (minor * Math.Cos(w));
            return new(r * Math.Cos(u), r * Math.Sin(u), minor * Math.Sin(w));
        });

    /// <summary>
    /// A closed tube from a doubly periodic map of (u, w) in [0, 2π)²: 2 · around · tube triangles. The map must be
    /// one-to-one and wind so that ∂u × ∂w points outward, as <see cref="Torus"/> does.
    /// </summary>
    public static TriangleMesh Tube(int around, int tube, Func<double, double, Vec3> map)
    {
        ArgumentNullException.ThrowIfNull(map);
        var v = new Vec3[around * tube];
        var f = new int[6 * around * tube];
        for (int i = 0, o = 0; i < around; i++)
        {
            for (var j = 0; j < tube; j++)
            {
                v[(i * tube) + j] = map(2 * Math.PI * i / around, 2 * Math.PI * j / tube);
                var (i1, j1) = ((i + 1) % around, (j + 1) % tube);
                var (a, b, c, d) = ((i * tube) + j, (i1 * tube) + j, (i1 * tube) + j1, (i * tube) + j1);
                ReadOnlySpan<int> two = [a, b, c, a, c, d];
                two.CopyTo(f.AsSpan(o));
                o += 6;
            }
        }

        return FromPoints(v, f);
    }

    /// <summary>All parts in one mesh, vertices and triangles in the order given; nothing is merged.</summary>
    public static TriangleMesh Together(params ReadOnlySpan<TriangleMesh> parts)
    {
        var (points, corners) = (0, 0);
        foreach (var part in parts) (points, corners) = (points + part.Positions.Length, corners + part.Indices.Length);
        var p = new float[points];
        var f = new int[corners];
        var (po, fo) = (0, 0);
        foreach (var part in parts)
        {
            part.Positions.CopyTo(p.AsSpan(po));
            for (var i = 0; i < part.Indices.Length; i++) f[fo + i] = part.Indices[i] + (po / 3);
            po += part.Positions.Length;
            fo += part.Indices.Length;
        }

        return new(p, f);
    }

    /// <summary>The same surface seen from the other side: every triangle reversed (a solid becomes a void).</summary>
    public static TriangleMesh Inverted(TriangleMesh mesh)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var f = mesh.Indices.ToArray();
        for (var i = 0; i < f.Length; i += 3) (f[i + 1], f[i + 2]) = (f[i + 2], f[i + 1]);
        return new(mesh.Positions.ToArray(), f);
    }

    private static TriangleMesh FromPoints(IEnumerable<Vec3> points, int[] indices) =>
        new([.. points.SelectMany(p => new[] { (float)p.X, (float)p.Y, (float)p.Z })], indices);
}
