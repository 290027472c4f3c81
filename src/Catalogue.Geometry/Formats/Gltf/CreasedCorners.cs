using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.Gltf;

/// <summary>The vertices of a mesh with their normals, a vertex once for each side of a crease.</summary>
/// <remarks>
/// A normal runs smoothly over a surface (mean of the triangles around, by area) and is the triangle's own where that is off by more than about 40°. Normals are rounded to
/// a 127th before they are compared. O(n + m).
/// </remarks>
internal sealed class CreasedCorners
{
    private const double CreaseCosine = 0.75;
    private readonly List<int> _vertices;
    private readonly List<int> _normals;

    private CreasedCorners(int[] ofCorner, List<int> vertices, List<int> normals) => (OfCorner, _vertices, _normals) = (ofCorner, vertices, normals);

    /// <summary>The number of each triangle's corners, three a triangle.</summary>
    public int[] OfCorner { get; }

    public int Count => _vertices.Count;

    /// <summary>The vertex of the mesh.</summary>
    public int Vertex(int corner) => _vertices[corner];

    /// <summary>x, y, z as signed bytes, x in the lowest, and an empty one.</summary>
    public uint Normal(int corner) => (uint)_normals[corner];

    public static CreasedCorners Of(TriangleMesh mesh)
    {
        var indices = mesh.Indices;
        var flat = new Vec3[mesh.TriangleCount];
        var smooth = new Vec3[mesh.VertexCount];
        for (var t = 0; t < flat.Length; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            var cross = Vec3.Cross(b - a, c - a);
            for (var k = 0; k < 3; k++) smooth[indices[(3 * t) + k]] += cross;
            flat[t] = cross.Normalized();
        }

        for (var v = 0; v < smooth.Length; v++) smooth[v] = smooth[v].Normalized();
        var ofCorner = new int[indices.Length];
        var (vertices, normals) = (new List<int>(mesh.VertexCount), new List<int>(mesh.VertexCount));
        var first = new int[mesh.VertexCount];
        Array.Fill(first, -1);
        var next = new List<int>(mesh.VertexCount);
        for (var c = 0; c < indices.Length; c++)
        {
            var v = indices[c];
            var normal = Packed(Vec3.Dot(smooth[v], flat[c / 3]) > CreaseCosine ? smooth[v] : flat[c / 3]);
            var at = first[v];
            while (at >= 0 && normals[at] != normal) at = next[at];
            if (at < 0)
            {
                at = vertices.Count;
                vertices.Add(v);
                normals.Add(normal);
                next.Add(first[v]);
                first[v] = at;
            }

            ofCorner[c] = at;
        }

        return new(ofCorner, vertices, normals);
    }

    private static int Packed(Vec3 n)
    {
        // A triangle without area has no normal; the standard wants one of length 1.
        if (n.LengthSquared == 0) n = Vec3.UnitZ;
        return Signed(n.X) | (Signed(n.Y) << 8) | (Signed(n.Z) << 16);
    }

    private static int Signed(double value) => (byte)(sbyte)Math.Round(127 * value);
}
