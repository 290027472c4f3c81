using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Simplify;

/// <summary>A mesh with fewer triangles that looks the same from farther away.</summary>
/// <param name="Mesh">The simpler mesh; the very same object where nothing was taken away.</param>
/// <param name="DeviationMm">How far the two surfaces are apart at most, over <see cref="MeshSimplification.PlacesCompared"/> places of each; 0 for the same mesh.</param>
public sealed record SimplerMesh(TriangleMesh Mesh, double DeviationMm);

/// <summary>Simplifies a mesh by collapsing edges, in several steps of one run.</summary>
/// <remarks>
/// <para>
/// The edge whose collapse moves the surface least goes first, by the sum of squared distances to the planes of all triangles it stands for, weighted by their areas
/// (Garland, Heckbert, "Surface Simplification Using Quadric Error Metrics", SIGGRAPH 1997; from memory). Kept: how the surface hangs together (shells, voids, handles and open
/// edges stay as many as they were, see the link condition in <see cref="EdgeCollapses"/>), which side is out, the outline of open edges. Nothing is moved where three or more triangles
/// meet at an edge. Not promised: that surfaces that nearly touch do not run through each other; it is for looking, not for judging.
/// </para>
/// <para>
/// The result may have more triangles than asked for where nothing more can be collapsed: every shell keeps at least four. O(m log m) time, about 150 bytes a triangle while it works.
/// Deterministic, one thread. The deviation is measured, not estimated, but on samples: between them it may be a little more.
/// </para>
/// </remarks>
public static class MeshSimplification
{
    /// <summary>Places of each surface at which the other is looked for.</summary>
    public const int PlacesCompared = 20_000;

    /// <param name="mesh">n vertices in mm, m triangles, welded.</param>
    /// <param name="most">How many triangles each step may have, falling.</param>
    /// <returns>One for each step, in that order.</returns>
    public static IReadOnlyList<SimplerMesh> Of(TriangleMesh mesh, IReadOnlyList<int> most, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(most);
        var simpler = new SimplerMesh[most.Count];
        EdgeCollapses? collapses = null;
        TriangleTree? whole = null;
        for (var i = 0; i < most.Count; i++)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(most[i]);
            if (mesh.TriangleCount <= most[i])
            {
                simpler[i] = new(mesh, 0);
                continue;
            }

            collapses ??= new(mesh, cancel);
            collapses.Reduce(most[i], cancel);
            var reduced = collapses.ToMesh();
            whole ??= TriangleTree.Build(mesh, cancel);
            simpler[i] = new(reduced, reduced.TriangleCount == 0 ? 0 : Math.Max(Farthest(mesh, TriangleTree.Build(reduced, cancel)), Farthest(reduced, whole)));
        }

        return simpler;
    }

    /// <summary>The largest distance from evenly numbered vertices and triangles' middles of one surface to the other.</summary>
    private static double Farthest(TriangleMesh from, TriangleTree to)
    {
        var farthest = 0.0;
        var each = PlacesCompared / 2;
        for (var i = 0; i < Math.Min(each, from.VertexCount); i++)
            Ask(from.Vertex((int)((long)i * from.VertexCount / Math.Min(each, from.VertexCount))));
        for (var i = 0; i < Math.Min(each, from.TriangleCount); i++)
        {
            var (a, b, c) = from.Triangle((int)((long)i * from.TriangleCount / Math.Min(each, from.TriangleCount)));
            Ask((a + b + c) / 3);
        }

        return farthest;

        void Ask(Vec3 p)
        {
            if (to.Nearest(p) is { } nearest) farthest = Math.Max(farthest, nearest.Distance);
        }
    }
}
