using Catalogue.Geometry.Meshes;
using CsCheck;

namespace Catalogue.Geometry.Tests;

/// <summary>Meshes and changes of them for properties.</summary>
internal static class AnyMesh
{
    /// <summary>Closed solids of all kinds, lying askew.</summary>
    public static readonly Gen<TriangleMesh> Solid = Gen.Select(Gen.Int[0, 4], Gen.Double[1, 50], Gen.Double[1, 50], Gen.Double[1, 50], Gen.Int[3, 12]).Select((kind, x, y, z, n) => kind switch
    {
        0 => Solids.Box(x, y, z),
        1 => Solids.Icosphere(x, n % 4),
        2 => Solids.Cylinder(x, y, n),
        3 => Solids.Torus(x + y, y, 3 * n, 2 * n),
        _ => Solids.Together(Solids.Box(100, 100, 100), Solids.Inverted(Solids.Icosphere(20, n % 3, new Vec3(30 + (x / 3), 50, 50)))),
    });

    public static readonly Gen<Rotation> Turn =
        Gen.Select(Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[0, 3]).Select((x, y, z, a) => Rotation.About(new(x, y, z + 1e-3), a));

    public static readonly Gen<Vec3> Shift = Gen.Select(Gen.Double[-200, 200], Gen.Double[-200, 200], Gen.Double[-200, 200]).Select((x, y, z) => new Vec3(x, y, z));

    /// <summary>Any triangles at all: few places, so that corners, edges and triangles coincide in every way.</summary>
    public static readonly Gen<TriangleMesh> Heap = Gen.Select(Gen.Int[0, 3].Array[3, 60], Gen.Int[0, 1_000_000].Array[0, 120]).Select((numbers, corners) =>
    {
        var positions = numbers.Take(numbers.Length / 3 * 3).Select(n => (float)n).ToArray();
        return new TriangleMesh(positions, [.. corners.Take(corners.Length / 3 * 3).Select(c => c % (positions.Length / 3))]);
    });

    /// <summary>The same mesh with triangles, first corners and vertices in another order.</summary>
    public static TriangleMesh Shuffled(TriangleMesh mesh, int seed)
    {
        var random = new Random(seed);
        var triangles = Enumerable.Range(0, mesh.TriangleCount).ToArray();
        var vertices = Enumerable.Range(0, mesh.VertexCount).ToArray();
        random.Shuffle(triangles);
        random.Shuffle(vertices);
        var p = new float[mesh.Positions.Length];
        for (var v = 0; v < vertices.Length; v++) mesh.Positions.Slice(3 * v, 3).CopyTo(p.AsSpan(3 * vertices[v]));
        var f = new List<int>(mesh.Indices.Length);
        foreach (var t in triangles)
        {
            var first = random.Next(3);
            for (var k = 0; k < 3; k++) f.Add(vertices[mesh.Indices[(3 * t) + ((first + k) % 3)]]);
        }

        return new(p, [.. f]);
    }

    /// <summary>The coordinates of every corner in order, as bits.</summary>
    public static int[] Corners(TriangleMesh mesh) =>
        [.. mesh.Indices.ToArray().SelectMany(i => mesh.Positions.Slice(3 * i, 3).ToArray()).Select(v => BitConverter.SingleToInt32Bits(v + 0f))];
}
