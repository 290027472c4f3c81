using Catalogue.Geometry.Meshes;

namespace Catalogue.Benchmarks.Spatial;

/// <summary>A closed, knobbly ring about 60 mm wide: curved everywhere, with folds that face each other, in any number of triangles.</summary>
internal static class KnobblyRing
{
    /// <summary>About <paramref name="triangles"/> triangles, in the order they are swept or shuffled together with their vertices.</summary>
    public static TriangleMesh Make(int triangles, bool shuffled = false)
    {
        var tube = (int)Math.Round(Math.Sqrt(triangles / 4.0));
        var mesh = Solids.Tube(2 * tube, tube, (u, w) =>
        {
            var r = 6 * (1 + (0.25 * Math.Sin(7 * u)) + (0.08 * Math.Sin((23 * u) + (5 * w))) + (0.1 * Math.Cos((3 * w) + (2 * u))));
            var k = (25 * (1 + (0.3 * Math.Sin(2 * u)))) + (r * Math.Cos(w));
            return new(k * Math.Cos(u), k * Math.Sin(u) * 0.8, (r * Math.Sin(w) * 1.2) + (8 * Math.Sin(3 * u)));
        });
        return shuffled ? Shuffled(mesh) : mesh;
    }

    private static TriangleMesh Shuffled(TriangleMesh mesh)
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
            for (var k = 0; k < 3; k++) f[(3 * t) + k] = vertices[mesh.Indices[(3 * triangles[t]) + k]];
        }

        return new(p, f);
    }
}
