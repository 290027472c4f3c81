using System.Numerics;
using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Health;

/// <summary>Volume, area, bounds and cells of every shell, and the triangles without area. O(m).</summary>
/// <remarks>Volumes are summed from a vertex of the shell itself, so a shell far from the origin loses nothing.</remarks>
internal static class ShellMeasures
{
    /// <summary>Twice the area over the square of the longest edge at or below which a triangle counts as a line: rounding of the double-precision cross product.</summary>
    private const double Flatness = 1e-12;

    private struct Sums
    {
        public Vec3 Origin;
        public double SixVolumes;
        public double TwiceArea;
        public int Triangles;
        public int PairedHalfEdges;
        public int OtherEdges;
        public bool Odd;
        public bool Disoriented;
        public Vector3 Min;
        public Vector3 Max;
        public Vector3 Highest;
    }

    /// <summary>Shells with their kind still <see cref="ShellKind.Unclear"/> when closed, the count of degenerate triangles and the first of their places.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static (Shell[] Shells, int Degenerate, List<Vec3> Places) Of(
        TriangleMesh mesh, EdgeAdjacency edges, ReadOnlySpan<int> shellOf, int count, VertexFans fans)
    {
        var indices = mesh.Indices;
        var vertices = mesh.Vertices;
        var opposite = edges.Opposite;
        var checkOrientation = edges.DisorientedEdges > 0;
        var sums = new Sums[count];
        var (degenerate, places) = (0, new List<Vec3>());
        for (var t = 0; t < shellOf.Length; t++)
        {
            var i = 3 * t;
            var (fa, fb, fc) = (vertices[indices[i]], vertices[indices[i + 1]], vertices[indices[i + 2]]);
            var shell = shellOf[t];
            if (shell < 0)
            {
                Degenerate(fa, fb, fc);
                continue;
            }

            ref var sum = ref sums[shell];
            Vec3 a = new(fa.X, fa.Y, fa.Z), b = new(fb.X, fb.Y, fb.Z), c = new(fc.X, fc.Y, fc.Z);
            if (sum.Triangles++ == 0)
            {
                sum.Origin = a;
                sum.Min = sum.Max = sum.Highest = fa;
            }

            sum.Min = Vector3.Min(Vector3.Min(sum.Min, fa), Vector3.Min(fb, fc));
            sum.Max = Vector3.Max(Vector3.Max(sum.Max, fa), Vector3.Max(fb, fc));
            if (fa.Z > sum.Highest.Z) sum.Highest = fa;
            if (fb.Z > sum.Highest.Z) sum.Highest = fb;
            if (fc.Z > sum.Highest.Z) sum.Highest = fc;
            Vec3 ab = b - a, ac = c - a;
            var normal = Vec3.Cross(ab, ac);
            var twiceArea = normal.Length;
            sum.TwiceArea += twiceArea;
            sum.SixVolumes += Vec3.Dot(a - sum.Origin, normal);
            var longest = Math.Max(Math.Max(ab.LengthSquared, ac.LengthSquared), (c - b).LengthSquared);
            if (twiceArea <= Flatness * longest) Degenerate(fa, fb, fc);
            for (var h = i; h < i + 3; h++)
            {
                var other = opposite[h];
                if (other >= 0)
                {
                    sum.PairedHalfEdges++;
                    if (checkOrientation && indices[other] == indices[h]) sum.Disoriented = true;
                }
                else if (other == EdgeAdjacency.Boundary)
                {
                    sum.OtherEdges++;
                    sum.Odd = true;
                }
            }
        }

        for (var e = 0; e < edges.NonManifoldEdges; e++)
        {
            var group = edges.NonManifoldEdge(e);
            ref var sum = ref sums[shellOf[group[0] / 3]];
            sum.OtherEdges++;
            if (group.Length % 2 == 1) sum.Odd = true;
            var balance = 0;
            foreach (var h in group) balance += indices[h] < indices[EdgeAdjacency.Next(h)] ? 1 : -1;
            if (Math.Abs(balance) > 1) sum.Disoriented = true;
        }

        var shells = new Shell[count];
        for (var s = 0; s < count; s++) shells[s] = Finished(sums[s], fans.VerticesOf(s));
        return (shells, degenerate, places);

        void Degenerate(Vector3 a, Vector3 b, Vector3 c)
        {
            degenerate++;
            if (places.Count < MeshHealth.MostPlaces)
                places.Add(new Vec3((double)a.X + b.X + c.X, (double)a.Y + b.Y + c.Y, (double)a.Z + b.Z + c.Z) / 3);
        }
    }

    private static Shell Finished(in Sums sum, int vertices) => new(
        sum.Odd ? ShellKind.Open : ShellKind.Unclear, sum.Triangles, vertices,
        vertices - ((sum.PairedHalfEdges / 2) + sum.OtherEdges) + sum.Triangles,
        !sum.Odd, !sum.Disoriented, sum.SixVolumes / 6, sum.TwiceArea / 2,
        new(new(sum.Min.X, sum.Min.Y, sum.Min.Z), new(sum.Max.X, sum.Max.Y, sum.Max.Z)),
        -1, 0, new(sum.Highest.X, sum.Highest.Y, sum.Highest.Z));
}
