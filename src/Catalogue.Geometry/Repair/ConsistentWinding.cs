using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>Turns triangles around so that neighbours agree about which side is out.</summary>
/// <remarks>
/// Patches are triangles joined over edges of exactly two. In a patch that has two sides the fewer are turned to agree with the more; one
/// without (a Möbius strip) is left alone. Which side is then out is another question: see <see cref="RepairKind.TurnedShells"/>. O(m).
/// </remarks>
internal static class ConsistentWinding
{
    public static RepairStep Of(TriangleMesh mesh)
    {
        var opposite = EdgeAdjacency.Of(mesh).Opposite;
        var sides = new sbyte[mesh.TriangleCount];
        var indices = mesh.Indices.ToArray();
        var patch = new List<int>();
        var places = new FirstPlaces();
        for (var first = 0; first < sides.Length; first++)
        {
            if (sides[first] != 0 || opposite[3 * first] == EdgeAdjacency.None) continue;
            if (!Divide(mesh, opposite, first, sides, patch)) continue;
            var agreeing = patch.Count(t => sides[t] > 0);
            var wrong = 2 * agreeing >= patch.Count ? -1 : 1;
            foreach (var t in patch)
            {
                if (sides[t] != wrong) continue;
                (indices[(3 * t) + 1], indices[(3 * t) + 2]) = (indices[(3 * t) + 2], indices[(3 * t) + 1]);
                var (a, b, c) = mesh.Triangle(t);
                places.Add((a + b + c) / 3);
            }
        }

        return places.Count == 0 ? RepairStep.None(mesh) : new(mesh.WithTriangles(indices), places.Count, places.All);
    }

    /// <summary>Gives 1 to the triangles of a patch that agree with its first and −1 to the others; false when that cannot be.</summary>
    private static bool Divide(TriangleMesh mesh, ReadOnlySpan<int> opposite, int first, sbyte[] sides, List<int> patch)
    {
        patch.Clear();
        patch.Add(first);
        sides[first] = 1;
        var twoSided = true;
        for (var i = 0; i < patch.Count; i++)
        {
            var t = patch[i];
            for (var h = 3 * t; h < (3 * t) + 3; h++)
            {
                var other = opposite[h];
                if (other < 0) continue;
                var side = mesh.Indices[h] == mesh.Indices[other] ? (sbyte)-sides[t] : sides[t];
                var neighbour = other / 3;
                if (sides[neighbour] == 0)
                {
                    sides[neighbour] = side;
                    patch.Add(neighbour);
                }
                else if (sides[neighbour] != side)
                {
                    twoSided = false;
                }
            }
        }

        return twoSided;
    }
}
