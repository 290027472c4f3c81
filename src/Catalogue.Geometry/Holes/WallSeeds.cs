using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Holes;

/// <summary>A place on a bent wall whose opposite is near: where a hole or a peg may be.</summary>
/// <param name="Point">On an edge of the mesh.</param>
/// <param name="Across">Unit vector to the other side.</param>
/// <param name="Distance">To the other side, mm.</param>
internal readonly record struct WallSeed(Vec3 Point, Vec3 Across, double Distance);

/// <summary>
/// Edges at which the surface bends as a round wall's does (hollow for holes, outward for pegs) and from which a ray straight across meets the same
/// surface again, facing back, within the widest diameter looked for. In the order of the triangles, whatever the number of cores. O(m log m).
/// </summary>
internal static class WallSeeds
{
    /// <summary>Facets of ten sides and more meet at 36° or less; the rest is room for roughness.</summary>
    private const double SharpestBend = 0.9;

    /// <summary>Of the two directions of an edge's facets, flatter than this (0.3°) is flat.</summary>
    private const double FlattestBend = 0.005;

    private const int Batch = 8192;

    public static List<WallSeed> Find(TriangleMesh mesh, TriangleTree tree, EdgeAdjacency edges, bool inward, double mostDiameter, ProgressPart progress, CancellationToken cancel)
    {
        var batches = ((3 * mesh.TriangleCount) + Batch - 1) / Batch;
        var found = new List<WallSeed>?[batches];
        var (next, done) = (-1, 0);
        Fork.Join(() =>
        {
            for (int b; (b = Interlocked.Increment(ref next)) < batches;)
            {
                cancel.ThrowIfCancellationRequested();
                found[b] = InBatch(b, mesh, new WallRays(tree, inward), edges, inward, mostDiameter);
                progress.Report(Interlocked.Increment(ref done) / (double)batches);
            }
        });

        var all = new List<WallSeed>();
        foreach (var batch in found)
            if (batch is not null) all.AddRange(batch);
        return all;
    }

    private static List<WallSeed>? InBatch(int batch, TriangleMesh mesh, WallRays rays, EdgeAdjacency edges, bool inward, double mostDiameter)
    {
        List<WallSeed>? seeds = null;
        var opposite = edges.Opposite;
        var end = Math.Min((batch + 1) * Batch, opposite.Length);
        for (var h = batch * Batch; h < end; h++)
        {
            var other = opposite[h];
            if (other < h) continue;
            var a = mesh.Vertex(mesh.Indices[h]);
            var b = mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(h)]);
            var c = mesh.Vertex(mesh.Indices[EdgeAdjacency.Previous(h)]);
            var d = mesh.Vertex(mesh.Indices[EdgeAdjacency.Previous(other)]);
            var edge = b - a;
            var n1 = Vec3.Cross(edge, c - a);
            var n2 = Vec3.Cross(d - a, edge);
            var hollow = Vec3.Dot(n1, d - a) > 0;
            if (hollow != inward) continue;
            var (l1, l2, length) = (n1.Length, n2.Length, edge.Length);
            if (!(l1 > 0 && l2 > 0)) continue;
            (n1, n2) = (n1 / l1, n2 / l2);
            var bend = Vec3.Cross(n1, n2).Length;
            if (bend is < FlattestBend or > SharpestBend || Vec3.Dot(n1, n2) < 0) continue;

            // Bent over the mean height of its two triangles; a wall of the widest diameter bends by that over twice its radius. Half of it may be lost.
            if (bend * mostDiameter * length < 0.5 * (l1 + l2)) continue;
            var across = (n1 + n2).Normalized();
            if (!inward) across = -across;
            var pieces = Math.Clamp((int)length, 1, 8);
            for (var i = 0; i < pieces; i++)
            {
                var p = a + (edge * ((i + 0.5) / pieces));
                if (!rays.Meet(p + (across * 1e-4), across, mostDiameter, out var hit)) continue;
                if (Vec3.Dot(rays.Outward(hit.Triangle), across) < 0.7 || hit.Distance < 0.1) continue;
                (seeds ??= []).Add(new(p, across, hit.Distance + 1e-4));
            }
        }

        return seeds;
    }
}
