using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>Drops triangles that have the same three corners as another.</summary>
/// <remarks>
/// Of copies that run the same way the first stays. Of copies that run both ways one stays, or none, whichever leaves the edges around most evenly
/// used: none where two solids share a wall or a fold sticks out, one where a triangle was drawn over in reverse. O(m).
/// </remarks>
internal static class DuplicateTriangles
{
    public static RepairStep Dropped(TriangleMesh mesh)
    {
        var groups = Groups(mesh, EdgeAdjacency.Of(mesh));
        if (groups.Count == 0) return RepairStep.None(mesh);
        var balance = Balances(mesh, groups);
        var dropped = new HashSet<int>();
        var places = new FirstPlaces();
        foreach (var group in groups)
        {
            var keep = Kept(mesh, group, balance);
            foreach (var t in group)
            {
                if (t == keep) continue;
                dropped.Add(t);
                AddBalance(mesh, t, -1, balance);
                var (a, b, c) = mesh.Triangle(t);
                places.Add((a + b + c) / 3);
            }
        }

        // Everything lies on itself back to back: there is no telling what was meant.
        if (dropped.Count == mesh.TriangleCount) return RepairStep.None(mesh);
        return new(mesh.WithTriangles(DegenerateTriangles.Without(mesh.Indices.ToArray(), dropped)), places.Count, places.All);
    }

    /// <summary>Triangles of the same corners, in order of the first.</summary>
    private static List<List<int>> Groups(TriangleMesh mesh, EdgeAdjacency edges)
    {
        var byCorners = new Dictionary<(int, int, int), List<int>>();
        var order = new List<List<int>>();
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            // Every edge of a triangle that is there twice is either shared by just the two, or by three and more.
            var h = 3 * t;
            var corners = Sorted(mesh, t);
            if (!MayBeShared(h, corners) || !MayBeShared(h + 1, corners) || !MayBeShared(h + 2, corners)) continue;
            ref var group = ref CollectionsMarshal.GetValueRefOrAddDefault(byCorners, corners, out var known);
            if (!known) order.Add(group = []);
            group!.Add(t);
        }

        return order.FindAll(g => g.Count > 1);

        bool MayBeShared(int h, (int, int, int) corners) => edges.Opposite[h] switch
        {
            EdgeAdjacency.NonManifold => true,
            >= 0 and var other => Sorted(mesh, other / 3) == corners,
            _ => false,
        };
    }

    /// <summary>The triangle of the group that stays, −1 for none.</summary>
    private static int Kept(TriangleMesh mesh, List<int> group, Dictionary<(int, int), int> balance)
    {
        var first = group[0];
        var reverse = group.FindIndex(t => !RunsAs(mesh, t, first));
        if (reverse < 0) return first;
        var net = group.Sum(t => RunsAs(mesh, t, first) ? 1 : -1);
        var (best, least) = (-1, Unevenness(0));
        if (Unevenness(1) < least) (best, least) = (first, Unevenness(1));
        if (Unevenness(-1) < least) best = group[reverse];
        return best;

        // What the edges would sum to if the group came down to "kept" triangles running as the first.
        int Unevenness(int kept)
        {
            var sum = 0;
            for (var k = 0; k < 3; k++)
            {
                var (from, to) = Edge(mesh, (3 * first) + k);
                var others = (from < to ? balance[(from, to)] : -balance[(to, from)]) - net;
                sum += Math.Abs(others + kept);
            }

            return sum;
        }
    }

    /// <summary>Upward less downward uses of every edge of the groups.</summary>
    private static Dictionary<(int, int), int> Balances(TriangleMesh mesh, List<List<int>> groups)
    {
        var balance = new Dictionary<(int, int), int>();
        foreach (var group in groups)
        {
            for (var k = 0; k < 3; k++)
            {
                var (from, to) = Edge(mesh, (3 * group[0]) + k);
                balance[from < to ? (from, to) : (to, from)] = 0;
            }
        }

        for (var t = 0; t < mesh.TriangleCount; t++) AddBalance(mesh, t, 1, balance);
        return balance;
    }

    private static void AddBalance(TriangleMesh mesh, int t, int sign, Dictionary<(int, int), int> balance)
    {
        for (var k = 0; k < 3; k++)
        {
            var (from, to) = Edge(mesh, (3 * t) + k);
            ref var sum = ref CollectionsMarshal.GetValueRefOrNullRef(balance, from < to ? (from, to) : (to, from));
            if (!System.Runtime.CompilerServices.Unsafe.IsNullRef(ref sum)) sum += from < to ? sign : -sign;
        }
    }

    private static (int From, int To) Edge(TriangleMesh mesh, int h) => (mesh.Indices[h], mesh.Indices[EdgeAdjacency.Next(h)]);

    private static bool RunsAs(TriangleMesh mesh, int t, int other)
    {
        var (a, b) = (mesh.Indices[3 * other], mesh.Indices[(3 * other) + 1]);
        for (var k = 0; k < 3; k++)
            if (Edge(mesh, (3 * t) + k) == (a, b)) return true;
        return false;
    }

    private static (int, int, int) Sorted(TriangleMesh mesh, int t)
    {
        var (a, b, c) = (mesh.Indices[3 * t], mesh.Indices[(3 * t) + 1], mesh.Indices[(3 * t) + 2]);
        if (a > b) (a, b) = (b, a);
        if (b > c) (b, c) = (c, b);
        return a > b ? (b, a, c) : (a, b, c);
    }
}
