using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Contouring;

/// <summary>
/// Turns a <see cref="Shape"/> into a closed, manifold, outward-facing triangle mesh with its sharp edges kept: dual contouring on an
/// adaptive octree, with the steps that make it manifold. Hardly any self-intersections are left; the kernel finds those on thin folds.
/// </summary>
/// <remarks>
/// <para>
/// Steps. (1) <see cref="ContourTree"/> divides space near the surface. (2) <see cref="ContourNet"/> finds every smallest grid edge that passes
/// through the surface with the three or four leaves around it, and joins those edges across the smallest leaf faces into loops on the leaves'
/// boundaries. (3) Each loop gets one vertex inside its leaf, on the surface: where the tangent planes of its edges meet (sharp) or the
/// nearest surface point to their mean (smooth). (4) Each edge gets the polygon of the vertices around it, as two triangles where these
/// provably stay within the edge's own envelope, else as a fan around the crossing itself, with extra vertices on leaf faces that
/// two neighbouring vertices do not see each other through.
/// </para>
/// <para>
/// Why it holds. Every loop segment on a face belongs to two leaves and every mesh edge between two loop vertices to the two grid edges the
/// segment joins, so each mesh edge has two triangles: closed and manifold by construction. The envelopes (tetrahedra of a grid edge and two
/// neighbouring vertices) do not overlap where the vertices see each other through their shared face. With two separate loops in one leaf (two
/// sheets closer than the finest cell) crossing triangles are possible, not open edges.
/// </para>
/// Sources: Ju, Losasso, Schaefer, Warren, "Dual contouring of Hermite data", 2002; Ju, Udeshi, "Intersection-free contouring on an octree
/// grid", 2006 (the envelope idea); one vertex per loop follows Nielson, "Dual marching cubes", 2004. From memory. Cost: O(surface / cell²).
/// </remarks>
internal static class Contour
{
    /// <exception cref="ArgumentException">The shape is too large for the finest cell, or holds nothing.</exception>
    /// <exception cref="OperationCanceledException"/>
    public static TriangleMesh Of(Shape shape, ContourSettings? settings = null, CancellationToken cancel = default)
    {
        settings ??= ContourSettings.Default;
        var tree = new ContourTree(shape, settings, cancel);
        var net = new ContourNet(tree);
        if (net.EdgeCount == 0) throw new ArgumentException("The shape has no surface that cells of this size can see.", nameof(shape));
        cancel.ThrowIfCancellationRequested();
        var vertices = new LoopVertices(tree, net, settings);
        cancel.ThrowIfCancellationRequested();
        return new NetTriangles(net, vertices).Build();
    }
}
