using System.Numerics;

namespace Catalogue.Geometry.Meshes;

/// <summary>A mesh whose vertices closer than a tolerance have been merged.</summary>
/// <remarks>
/// Vertices are taken in order: each joins the nearest of those kept so far that is no farther than the tolerance, the earlier one
/// if two are as near, or else is kept itself. So no vertex moves farther than the tolerance, kept vertices do not move and are
/// farther apart than it. Triangles that lose a corner by it are left out; the order of the others stays.
/// A cubic grid twice as wide as the tolerance is hashed, eight cells are looked at, and no cell holds more than a few kept vertices:
/// expected O(n), some 30 bytes per vertex while it works. Deterministic; thread-safe.
/// </remarks>
/// <param name="Mesh">The welded mesh, without unused vertices.</param>
/// <param name="MergedVertices">Vertices that joined another, those at exactly the same place among them.</param>
/// <param name="LostTriangles">Triangles left out because two of their corners became one.</param>
/// <param name="FarthestMoveMm">The largest distance any vertex moved.</param>
public sealed record ToleranceWeld(TriangleMesh Mesh, int MergedVertices, int LostTriangles, double FarthestMoveMm)
{
    /// <param name="mesh">Any mesh.</param>
    /// <param name="toleranceMm">Above 0 and finite.</param>
    /// <param name="cancel">Stops the work.</param>
    public static ToleranceWeld Of(TriangleMesh mesh, double toleranceMm, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        if (!(toleranceMm > 0) || !double.IsFinite(toleranceMm)) throw new ArgumentOutOfRangeException(nameof(toleranceMm), toleranceMm, "A tolerance is above 0 and finite.");
        var n = mesh.VertexCount;
        var joins = new int[n];
        var grid = new PointGrid(mesh, toleranceMm);
        var farthest = 0.0;
        var merged = 0;
        for (var v = 0; v < n; v++)
        {
            if ((v & 0xFFFF) == 0) cancel.ThrowIfCancellationRequested();
            var (near, distance) = grid.Nearest(mesh.Vertex(v));
            joins[v] = near < 0 ? v : near;
            if (near < 0)
            {
                grid.Add(v);
                continue;
            }

            merged++;
            farthest = Math.Max(farthest, distance);
        }

        var indices = new List<int>(mesh.Indices.Length);
        for (var i = 0; i < mesh.Indices.Length; i += 3)
        {
            var (a, b, c) = (joins[mesh.Indices[i]], joins[mesh.Indices[i + 1]], joins[mesh.Indices[i + 2]]);
            if (a == b || b == c || c == a) continue;
            indices.AddRange([a, b, c]);
        }

        return new(mesh.WithTriangles([.. indices]), merged, mesh.TriangleCount - (indices.Count / 3), farthest);
    }

    /// <summary>Kept vertices in chains by hashed cell.</summary>
    private sealed class PointGrid
    {
        private readonly TriangleMesh _mesh;
        private readonly double _tolerance;
        private readonly int[] _heads;
        private readonly int[] _next;

        public PointGrid(TriangleMesh mesh, double tolerance)
        {
            (_mesh, _tolerance) = (mesh, tolerance);
            _heads = new int[BitOperations.RoundUpToPowerOf2((uint)Math.Max(16, mesh.VertexCount))];
            _next = new int[mesh.VertexCount];
        }

        public void Add(int vertex)
        {
            ref var head = ref _heads[Bucket(_mesh.Vertex(vertex), 0, 0)];
            (_next[vertex], head) = (head, vertex + 1);
        }

        /// <summary>The nearest kept vertex within the tolerance, −1 for none.</summary>
        public (int Vertex, double Distance) Nearest(Vec3 p)
        {
            var (best, least) = (-1, _tolerance * _tolerance);
            for (var corner = 0; corner < 8; corner++)
            {
                for (var v = _heads[Bucket(p, corner, 1)] - 1; v >= 0; v = _next[v] - 1)
                {
                    var squared = (_mesh.Vertex(v) - p).LengthSquared;
                    if (squared < least || (squared == least && (best < 0 || v < best))) (best, least) = (v, squared);
                }
            }

            return (best, Math.Sqrt(least));
        }

        /// <summary>The bucket of the cell of p, or, shifted by half a cell, of one of the eight around its nearest cell corner.</summary>
        private int Bucket(Vec3 p, int corner, int shifted)
        {
            var (size, half) = (2 * _tolerance, shifted * 0.5);
            var x = (long)Math.Floor((p.X / size) - half) + (corner & 1);
            var y = (long)Math.Floor((p.Y / size) - half) + ((corner >> 1) & 1);
            var z = (long)Math.Floor((p.Z / size) - half) + (corner >> 2);
            return HashCode.Combine(x, y, z) & (_heads.Length - 1);
        }
    }
}
