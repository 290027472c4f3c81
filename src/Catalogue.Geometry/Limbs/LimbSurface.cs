using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Limbs;

/// <summary>The surface of a limb beyond the section it would break at.</summary>
public static class LimbSurface
{
    /// <param name="tree">Of the mesh the limb was found in.</param>
    /// <param name="section">One of its sections.</param>
    /// <param name="beyond">Set for each triangle that is reached from the tip without crossing the section's plane; others stay as they are.</param>
    public static void Mark(TriangleTree tree, EdgeAdjacency edges, Limb limb, LimbSection section, Span<bool> beyond)
    {
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentNullException.ThrowIfNull(edges);
        ArgumentNullException.ThrowIfNull(limb);
        ArgumentNullException.ThrowIfNull(section);
        var mesh = tree.Mesh;
        if (tree.Nearest(limb.Tip) is not { } tip || !IsBeyond(tip.Triangle)) return;
        var seen = new bool[mesh.TriangleCount];
        var stack = new Stack<int>([tip.Triangle]);
        seen[tip.Triangle] = true;
        while (stack.TryPop(out var t))
        {
            beyond[t] = true;
            for (var h = 3 * t; h < (3 * t) + 3; h++)
            {
                var other = edges.Opposite[h];
                if (other < 0 || seen[other / 3] || !IsBeyond(other / 3)) continue;
                seen[other / 3] = true;
                stack.Push(other / 3);
            }
        }

        bool IsBeyond(int triangle)
        {
            var (a, b, c) = mesh.Triangle(triangle);
            return Vec3.Dot(((a + b + c) / 3) - section.At, section.Axis) > 0;
        }
    }
}
