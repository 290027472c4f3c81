using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Thickness;

/// <summary>
/// The normal of the curved surface that a facet stands for, at any point of the facet: the mean of both facets' normals at the middle of
/// each edge, in between linear (the non-conforming linear element of textbooks).
/// </summary>
/// <remarks>
/// On a cylinder of any number of sides this is the cylinder's own normal. Across an edge sharper than <see cref="Crease"/> degrees the facet
/// is taken as flat, and so it is beside a facet much smaller than itself: that one is the rounding at the end of a flat face.
/// </remarks>
internal readonly struct FacetNormals
{
    /// <summary>Degrees between facets from which on their common edge is an edge of the shape. Cylinders of 12 sides up are round.</summary>
    public const double Crease = 35;

    private const double MuchSmaller = 1 / 3.0;
    private static readonly double CreaseCosine = Math.Cos(Crease * Math.PI / 180);

    private readonly Vec3 _ab;
    private readonly Vec3 _bc;
    private readonly Vec3 _ca;

    /// <param name="mesh">The mesh.</param>
    /// <param name="edges">Its neighbours.</param>
    /// <param name="triangle">The facet.</param>
    public FacetNormals(TriangleMesh mesh, EdgeAdjacency edges, int triangle)
    {
        var (flat, doubled) = Of(mesh, triangle);
        (Flat, DoubledArea) = (flat, doubled);
        _ab = AtEdge(mesh, edges, 3 * triangle, flat, doubled);
        _bc = AtEdge(mesh, edges, (3 * triangle) + 1, flat, doubled);
        _ca = AtEdge(mesh, edges, (3 * triangle) + 2, flat, doubled);
    }

    /// <summary>The facet's own normal; zero for a triangle without area.</summary>
    public Vec3 Flat { get; }

    public double DoubledArea { get; }

    /// <summary>The unit normal at the point that the corners' weights make.</summary>
    public Vec3 At(Vec3 weights) =>
        ((_ab * (1 - (2 * weights.Z))) + (_bc * (1 - (2 * weights.X))) + (_ca * (1 - (2 * weights.Y)))).Normalized();

    private static Vec3 AtEdge(TriangleMesh mesh, EdgeAdjacency edges, int halfEdge, Vec3 flat, double doubled)
    {
        var opposite = edges.Opposite[halfEdge];
        if (opposite < 0) return flat;
        var (other, otherDoubled) = Of(mesh, opposite / 3);
        return otherDoubled < doubled * MuchSmaller || Vec3.Dot(flat, other) < CreaseCosine ? flat : (flat + other).Normalized();
    }

    private static (Vec3 Normal, double DoubledArea) Of(TriangleMesh mesh, int triangle)
    {
        var (a, b, c) = mesh.Triangle(triangle);
        var normal = Vec3.Cross(b - a, c - a);
        var length = normal.Length;
        return length > 0 ? (normal / length, length) : (Vec3.Zero, 0);
    }
}
