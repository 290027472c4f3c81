using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Benchmarks;

/// <summary>Meshes that the benchmarks of all rooms share.</summary>
internal static class Samples
{
    /// <summary>Side of a building block in mm; the figure is eleven blocks tall.</summary>
    private const double Block = 13;

    /// <summary>Bones of the figure, from and to in blocks (x across, y deep, z up), with a radius in blocks.</summary>
    private static readonly (Vec3 From, Vec3 To, double Radius)[] Bones =
    [
        (new(0.5, 0.5, 0.3), new(0.5, 0.5, 4.2), 0.46), (new(2.5, 0.5, 0.3), new(2.5, 0.5, 4.2), 0.46), // legs
        (new(1.5, 0.5, 4.6), new(1.5, 0.5, 7.4), 0.95), // trunk
        (new(0.6, 0.5, 7.5), new(2.4, 0.5, 7.5), 0.55), // shoulders
        (new(-1.7, 0.5, 7.5), new(0.5, 0.5, 7.5), 0.4), (new(2.5, 0.5, 7.5), new(4.7, 0.5, 7.5), 0.4), // arms
        (new(1.5, 0.5, 8), new(1.5, 0.5, 9), 0.35), (new(1.5, 0.5, 9.6), new(1.5, 0.5, 10.1), 0.62), // neck and head
    ];

    /// <summary>Writes the figure as binary STL, to time the whole program with from outside.</summary>
    public static void Write(int triangles, string file)
    {
        using var stream = File.Create(file);
        StlWriter.Write(Figure(triangles), stream);
    }

    /// <summary>
    /// A standing figure with arms spread, about 143 mm tall: one closed, smooth, slightly rough surface of at least
    /// <paramref name="triangles"/> triangles, a few per cent more at most above 20 000. Coherent order runs along the surface, as programs export it.
    /// </summary>
    /// <remarks>The surface of a pile of cubes, each face a grid, moved onto a smooth blend of capsules around the bones.</remarks>
    public static TriangleMesh Figure(int triangles, bool shuffled = false)
    {
        var faces = Faces();
        var grid = Math.Max(1, (int)Math.Ceiling(Math.Sqrt(triangles / (2.0 * faces.Count))));
        var numbers = new Dictionary<(int, int, int), int>();
        var positions = new List<float>();
        var indices = new int[6 * grid * grid * faces.Count];
        var at = 0;
        foreach (var (corner, u, v) in faces)
        {
            for (var i = 0; i < grid; i++)
            {
                for (var j = 0; j < grid; j++)
                {
                    var (a, b, c, d) = (Vertex(i, j), Vertex(i + 1, j), Vertex(i + 1, j + 1), Vertex(i, j + 1));
                    ReadOnlySpan<int> two = [a, b, c, a, c, d];
                    two.CopyTo(indices.AsSpan(at));
                    at += 6;
                }
            }

            int Vertex(int i, int j)
            {
                var key = (
                    (corner.X * grid) + (u.X * i) + (v.X * j),
                    (corner.Y * grid) + (u.Y * i) + (v.Y * j),
                    (corner.Z * grid) + (u.Z * i) + (v.Z * j));
                if (numbers.TryGetValue(key, out var number)) return number;
                var p = OnSurface(new Vec3(key.Item1, key.Item2, key.Item3) / grid) * Block;
                positions.AddRange([(float)p.X, (float)p.Y, (float)p.Z]);
                return numbers[key] = numbers.Count;
            }
        }

        var mesh = new TriangleMesh([.. positions], indices);
        return shuffled ? Shuffled(mesh) : mesh;
    }

    /// <summary>The same mesh with triangles, their first corners and vertices in random (always the same) order.</summary>
    public static TriangleMesh Shuffled(TriangleMesh mesh)
    {
        var random = new Random(1);
        var triangles = Enumerable.Range(0, mesh.TriangleCount).ToArray();
        var vertices = Enumerable.Range(0, mesh.VertexCount).ToArray();
        random.Shuffle(triangles);
        random.Shuffle(vertices);
        var p = new float[mesh.Positions.Length];
        var f = new int[mesh.Indices.Length];
        for (var v = 0; v < vertices.Length; v++) mesh.Positions.Slice(3 * v, 3).CopyTo(p.AsSpan(3 * vertices[v]));
        for (var t = 0; t < triangles.Length; t++)
        {
            var first = random.Next(3);
            for (var k = 0; k < 3; k++) f[(3 * t) + k] = vertices[mesh.Indices[(3 * triangles[t]) + ((first + k) % 3)]];
        }

        return new(p, f);
    }

    /// <summary>Outer faces of the pile of cubes: a corner and two edges, counter-clockwise from outside.</summary>
    private static List<((int X, int Y, int Z) Corner, (int X, int Y, int Z) U, (int X, int Y, int Z) V)> Faces()
    {
        var cubes = new HashSet<(int X, int Y, int Z)>();
        for (var z = 0; z < 4; z++) cubes.UnionWith([(0, 0, z), (2, 0, z)]);
        for (var z = 4; z < 8; z++) cubes.UnionWith([(0, 0, z), (1, 0, z), (2, 0, z)]);
        cubes.UnionWith([(-2, 0, 7), (-1, 0, 7), (3, 0, 7), (4, 0, 7), (1, 0, 8), (1, 0, 9), (1, 0, 10)]);
        var faces = new List<((int X, int Y, int Z), (int X, int Y, int Z), (int X, int Y, int Z))>();
        foreach (var (x, y, z) in cubes.OrderBy(c => c.Z).ThenBy(c => c.X))
        {
            if (!cubes.Contains((x - 1, y, z))) faces.Add(((x, y, z), (0, 0, 1), (0, 1, 0)));
            if (!cubes.Contains((x + 1, y, z))) faces.Add(((x + 1, y, z), (0, 1, 0), (0, 0, 1)));
            faces.Add(((x, y, z), (1, 0, 0), (0, 0, 1)));
            faces.Add(((x, y + 1, z), (0, 0, 1), (1, 0, 0)));
            if (!cubes.Contains((x, y, z - 1))) faces.Add(((x, y, z), (0, 1, 0), (1, 0, 0)));
            if (!cubes.Contains((x, y, z + 1))) faces.Add(((x, y, z + 1), (1, 0, 0), (0, 1, 0)));
        }

        return faces;
    }

    private static Vec3 OnSurface(Vec3 p)
    {
        for (var step = 0; step < 8; step++)
        {
            var (distance, gradient) = Blend(p);
            p -= gradient * (distance / Math.Max(gradient.LengthSquared, 0.25));
        }

        // Cloth: fine folds that make neighbouring triangles differ.
        var fold = 0.012 * Math.Sin(23 * p.X) * Math.Sin((19 * p.Y) + (3 * p.X)) * Math.Sin((17 * p.Z) + (5 * p.Y));
        return p + (Blend(p).Gradient.Normalized() * fold);
    }

    /// <summary>A smooth least distance to the capsules, in blocks, and its gradient.</summary>
    private static (double Distance, Vec3 Gradient) Blend(Vec3 p)
    {
        const double Sharpness = 9;
        var sum = 0.0;
        var gradient = Vec3.Zero;
        foreach (var (from, to, radius) in Bones)
        {
            var axis = to - from;
            var along = Math.Clamp(Vec3.Dot(p - from, axis) / axis.LengthSquared, 0, 1);
            var away = p - (from + (axis * along));
            var length = Math.Max(away.Length, 1e-9);
            var weight = Math.Exp(-Sharpness * (length - radius));
            sum += weight;
            gradient += away * (weight / length);
        }

        return (-Math.Log(sum) / Sharpness, gradient / sum);
    }
}
