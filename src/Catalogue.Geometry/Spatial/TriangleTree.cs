using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>
/// A bounding-volume tree over the triangles of a mesh: first hit and crossings of a ray, nearest point, pairs of
/// triangles that come close. One tree serves every check.
/// </summary>
/// <remarks>
/// <para>
/// Eight children to a node, four triangles to a leaf, in two flat arrays: a node is the boxes of its children in single
/// precision, side by side so that one vector instruction handles all eight; a leaf is the corners of its triangles, side by
/// side likewise. Boxes are rounded outward, so nothing is missed; triangles are tested in double precision on the mesh's own
/// single-precision corners. The vector types fall back to plain code where the processor has no wide registers.
/// </para>
/// <para>
/// Built top-down by the binned surface-area heuristic (I. Wald, "On fast Construction of SAH-based Bounding Volume
/// Hierarchies", 2007), O(n log n), on all cores; about 80 bytes a triangle. The same mesh gives the same tree whatever the
/// number of cores, hence the same answers. Immutable: any number of threads may ask at once.
/// </para>
/// </remarks>
public sealed partial class TriangleTree
{
    // A node: min x of 8 children, max x of 8, min y, max y, min z, max z, then 8 child numbers; 64 words, four cache lines.
    internal const int NodeWords = 64;
    internal const int ChildWord = 48;
    internal const int Wide = 8;

    // A leaf: ax of 4 triangles, ay, az, bx … cz, then 4 triangle numbers (−1 where unused, corners NaN); 40 words.
    internal const int LeafWords = 40;
    internal const int NumberWord = 36;
    internal const int LeafSize = 4;

    // No path is longer than this many nodes (the builder sees to it), so a stack of 7 siblings a level never overflows.
    internal const int MaxDepth = 64;
    private const int StackSize = (MaxDepth + 1) * Wide;

    private readonly float[] _nodes;
    private readonly int _nodeStart;
    private readonly float[] _leaves;
    private readonly int _leafStart;

    internal TriangleTree(TriangleMesh mesh, (float[] Array, int Start) nodes, int nodeCount, (float[] Array, int Start) leaves, int leafCount)
    {
        Mesh = mesh;
        (_nodes, _nodeStart) = nodes;
        (_leaves, _leafStart) = leaves;
        NodeCount = nodeCount;
        LeafCount = leafCount;
    }

    /// <summary>The mesh whose triangles are in the tree.</summary>
    public TriangleMesh Mesh { get; }

    internal int NodeCount { get; }
    internal int LeafCount { get; }

    /// <summary>Bytes held by the tree itself.</summary>
    public long Bytes => 4L * (_nodes.Length + _leaves.Length);

    /// <summary>Builds the tree. Coordinates must be finite and at most 10^18 in magnitude.</summary>
    /// <exception cref="ArgumentException">A coordinate is not finite or too large.</exception>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> was asked for.</exception>
    public static TriangleTree Build(TriangleMesh mesh, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        return new TriangleTreeBuilder(mesh, cancel).Build();
    }

    /// <summary>The triangle in a lane of a leaf, −1 past the last. Leaves that follow each other lie near each other.</summary>
    internal int TriangleAt(int leaf, int lane) => Number(ref Leaves, leaf, lane);

    /// <summary>All triangle numbers, such that neighbours in the list lie near each other.</summary>
    public int[] TrianglesInOrder()
    {
        var order = new int[Mesh.TriangleCount];
        for (int leaf = 0, i = 0; leaf < LeafCount; leaf++)
        {
            for (var lane = 0; lane < LeafSize && TriangleAt(leaf, lane) is >= 0 and var triangle; lane++) order[i++] = triangle;
        }

        return order;
    }

    private ref float Nodes => ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_nodes), _nodeStart);
    private ref float Leaves => ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_leaves), _leafStart);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Child(ref float nodes, int node, int slot) =>
        Unsafe.As<float, int>(ref Unsafe.Add(ref nodes, (node * NodeWords) + ChildWord + slot));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Number(ref float leaves, int leaf, int lane) =>
        Unsafe.As<float, int>(ref Unsafe.Add(ref leaves, (leaf * LeafWords) + NumberWord + lane));

    /// <summary>Four floats as four doubles.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Widen(Vector128<float> v)
    {
        if (Avx.IsSupported) return Avx.ConvertToVector256Double(v);
        var (low, high) = Vector128.Widen(v);
        return Vector256.Create(low, high);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Corner(ref float leaf, int word) => Widen(Vector128.LoadUnsafe(ref leaf, (nuint)word));

    /// <summary>The float at or above <paramref name="value"/>.</summary>
    private static float RoundUp(double value)
    {
        var f = (float)value;
        return f >= value ? f : MathF.BitIncrement(f);
    }

    private static float RoundDown(double value)
    {
        var f = (float)value;
        return f <= value ? f : MathF.BitDecrement(f);
    }
}
