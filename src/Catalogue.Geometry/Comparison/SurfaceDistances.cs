using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Comparison;

/// <summary>For each triangle of one surface how far it is from another.</summary>
public static class SurfaceDistances
{
    /// <returns>
    /// The largest distance of its corners, the middles of its sides and its own middle from the other surface, mm; a large triangle may be a little farther off in between. O(m log n), all cores.
    /// </returns>
    public static float[] Of(TriangleMesh mesh, TriangleTree other, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(other);
        var ofVertex = new float[mesh.VertexCount];
        InBlocks(ofVertex.Length, v => ofVertex[v] = Distance(mesh.Vertex(v)), cancel);
        var of = new float[mesh.TriangleCount];
        InBlocks(of.Length, t =>
        {
            var (a, b, c) = mesh.Triangle(t);
            var corners = mesh.Indices.Slice(3 * t, 3);
            var most = Math.Max(ofVertex[corners[0]], Math.Max(ofVertex[corners[1]], ofVertex[corners[2]]));
            foreach (var p in (ReadOnlySpan<Vec3>)[(a + b) / 2, (b + c) / 2, (c + a) / 2, (a + b + c) / 3]) most = Math.Max(most, Distance(p));
            of[t] = most;
        }, cancel);
        return of;

        float Distance(Vec3 p) => (float)(other.Nearest(p)?.Distance ?? double.PositiveInfinity);
    }

    private static void InBlocks(int count, Action<int> each, CancellationToken cancel)
    {
        const int Block = 4096;
        var next = -1;
        Fork.Join(() =>
        {
            for (int block; (block = Interlocked.Increment(ref next)) * Block < count;)
            {
                cancel.ThrowIfCancellationRequested();
                for (var i = block * Block; i < Math.Min(count, (block + 1) * Block); i++) each(i);
            }
        });
    }
}
