using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Health;

/// <summary>The shell number of every triangle, shells numbered by their first triangle; −1 for a triangle with a repeated corner. O(m).</summary>
internal static class ShellLabels
{
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public static (int[] ShellOf, int Count) Of(TriangleMesh mesh, EdgeAdjacency edges)
    {
        var opposite = edges.Opposite;
        var labels = GC.AllocateUninitializedArray<int>(mesh.TriangleCount);
        Array.Fill(labels, -1);
        var stack = new int[1024];
        var count = 0;
        for (var first = 0; first < labels.Length; first++)
        {
            if (labels[first] >= 0 || opposite[3 * first] == EdgeAdjacency.None) continue;
            labels[first] = count;
            stack[0] = first;
            for (var height = 1; height > 0;)
            {
                var h = 3 * stack[--height];
                if (height + 3 > stack.Length) Array.Resize(ref stack, 2 * stack.Length);
                for (var end = h + 3; h < end; h++)
                {
                    var other = opposite[h];
                    if (other < 0) continue;
                    var t = (int)((uint)other / 3);
                    if (labels[t] >= 0) continue;
                    labels[t] = count;
                    stack[height++] = t;
                }
            }

            count++;
        }

        return edges.NonManifoldEdges == 0 ? (labels, count) : Joined(labels, count, edges);
    }

    /// <summary>Joins the pieces that meet at edges of three triangles or more.</summary>
    private static (int[] ShellOf, int Count) Joined(int[] labels, int count, EdgeAdjacency edges)
    {
        var root = new int[count];
        for (var i = 0; i < count; i++) root[i] = i;
        for (var e = 0; e < edges.NonManifoldEdges; e++)
        {
            var group = edges.NonManifoldEdge(e);
            var a = Find(labels[group[0] / 3]);
            foreach (var h in group[1..])
            {
                var b = Find(labels[h / 3]);
                if (a == b) continue;
                (a, b) = (Math.Min(a, b), Math.Max(a, b));
                root[b] = a;
            }
        }

        // The root is the lowest of its set, so it is numbered before its members ask for it.
        var number = new int[count];
        var joined = 0;
        for (var i = 0; i < count; i++) number[i] = Find(i) == i ? joined++ : number[Find(i)];
        for (var t = 0; t < labels.Length; t++)
            if (labels[t] >= 0) labels[t] = number[labels[t]];
        return (labels, joined);

        int Find(int i)
        {
            while (root[i] != i) i = root[i] = root[root[i]];
            return i;
        }
    }
}
