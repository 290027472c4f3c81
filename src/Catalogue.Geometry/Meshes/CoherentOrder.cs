using System.Buffers;
using System.Numerics;
using System.Runtime.CompilerServices;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Meshes;

/// <summary>The same triangles in an order that runs along the surface: near in space, near in memory.</summary>
/// <remarks>
/// Triangles are sorted by the place of their first corner on a Z-order curve of 2³⁰ cells (G. M. Morton, IBM technical
/// report, 1966), vertices numbered as they first appear. A mesh whose triangles lie in random order costs a cache miss at every
/// step of a walk over its surface; one sort makes every such walk several times faster. O(m) time, 36 bytes per triangle while it works.
/// </remarks>
public sealed class CoherentOrder
{
    private const int SmallEnough = 1 << 15;
    private const int Samples = 4096;
    private const int DigitBits = 10;

    private readonly int[] _original;

    private CoherentOrder(TriangleMesh mesh, int[] original) => (Mesh, _original) = (mesh, original);

    /// <summary>The mesh in its new order; vertices that no triangle uses are left out.</summary>
    public TriangleMesh Mesh { get; }

    /// <summary>For each triangle its number in the mesh as it was.</summary>
    public ReadOnlySpan<int> Original => _original;

    /// <summary>Whether a new order would pay: the mesh is too large for the cache and neighbours in the list are seldom neighbours in the surface.</summary>
    public static bool Pays(TriangleMesh mesh)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        if (mesh.TriangleCount < SmallEnough) return false;
        var indices = mesh.Indices;
        var window = Math.Max(1024, mesh.VertexCount / 64);
        var jumps = 0;
        for (var i = 0; i < Samples; i++)
        {
            var at = 3 * (int)((long)i * (mesh.TriangleCount - 1) / Samples);
            if (Math.Abs(indices[at] - indices[at + 3]) > window) jumps++;
        }

        return jumps > Samples / 4;
    }

    public static CoherentOrder Of(TriangleMesh mesh)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        var original = Numbers(mesh);
        var positions = mesh.Positions;
        var indices = mesh.Indices;
        var number = new int[mesh.VertexCount];
        var ordered = GC.AllocateUninitializedArray<int>(indices.Length);
        var kept = GC.AllocateUninitializedArray<float>(positions.Length);
        var used = 0;
        for (int t = 0, to = 0; t < original.Length; t++)
        {
            for (var from = 3 * original[t]; from < (3 * original[t]) + 3; from++)
            {
                var v = indices[from];
                if (number[v] == 0)
                {
                    positions.Slice(3 * v, 3).CopyTo(kept.AsSpan(3 * used));
                    number[v] = ++used;
                }

                ordered[to++] = number[v] - 1;
            }
        }

        if (kept.Length != 3 * used) Array.Resize(ref kept, 3 * used);
        return new(new(kept, ordered), original);
    }

    /// <summary>The numbers of all triangles in the new order, without making the mesh of it.</summary>
    internal static int[] Numbers(TriangleMesh mesh)
    {
        var (count, half) = (mesh.TriangleCount, mesh.TriangleCount / 2);
        var places = ArrayPool<ulong>.Shared.Rent(count);
        var other = ArrayPool<ulong>.Shared.Rent(count);
        try
        {
            Fork.Both(() => Place(mesh, places, 0, half), () => Place(mesh, places, half, count));
            return Sorted(places.AsSpan(0, count), other.AsSpan(0, count));
        }
        finally
        {
            ArrayPool<ulong>.Shared.Return(places);
            ArrayPool<ulong>.Shared.Return(other);
        }
    }

    /// <summary>For each triangle of a range its place on the curve above its number.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Place(TriangleMesh mesh, ulong[] places, int begin, int end)
    {
        var vertices = mesh.Vertices;
        var indices = mesh.Indices;
        var (min, size) = (mesh.Bounds.Min, mesh.Bounds.Size);
        var low = new Vector3((float)min.X, (float)min.Y, (float)min.Z);
        var scale = new Vector3(Scale(size.X), Scale(size.Y), Scale(size.Z));
        for (var t = begin; t < end; t++)
        {
            var cell = (vertices[indices[3 * t]] - low) * scale;
            var place = Spread((uint)cell.X) | (Spread((uint)cell.Y) << 1) | (Spread((uint)cell.Z) << 2);
            places[t] = ((ulong)place << 32) | (uint)t;
        }

        static float Scale(double size) => size > 0 ? (float)(1023 / size) : 0;
    }

    /// <summary>Ten bits with two gaps after each.</summary>
    private static uint Spread(uint x)
    {
        x = Math.Min(x, 1023);
        x = (x | (x << 16)) & 0x030000FF;
        x = (x | (x << 8)) & 0x0300F00F;
        x = (x | (x << 4)) & 0x030C30C3;
        return (x | (x << 2)) & 0x09249249;
    }

    /// <summary>The numbers in order of their places; equal places keep the order they had. Three passes of a radix sort.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static int[] Sorted(Span<ulong> from, Span<ulong> to)
    {
        Span<int> starts = stackalloc int[1 << DigitBits];
        for (var shift = 32; shift < 32 + (3 * DigitBits); shift += DigitBits)
        {
            starts.Clear();
            foreach (var place in from) starts[(int)(place >> shift) & 0x3FF]++;
            for (int digit = 0, sum = 0; digit < starts.Length; digit++) (starts[digit], sum) = (sum, sum + starts[digit]);
            foreach (var place in from) to[starts[(int)(place >> shift) & 0x3FF]++] = place;
            var sorted = to;
            to = from;
            from = sorted;
        }

        var numbers = GC.AllocateUninitializedArray<int>(from.Length);
        for (var i = 0; i < numbers.Length; i++) numbers[i] = (int)(uint)from[i];
        return numbers;
    }
}
