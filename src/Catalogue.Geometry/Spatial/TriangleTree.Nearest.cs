using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>The nearest point of the surface.</summary>
public sealed partial class TriangleTree
{
    // Single-precision box distances may come out this much too large; they are taken smaller by it.
    private const float NearSlack = 1 - (8 * 5.9604645e-8f);

    /// <summary>
    /// The point of the surface nearest to <paramref name="p"/> and nearer than <paramref name="maxDistance"/> mm; null when
    /// there is none. Exact to double rounding. A good bound makes it much faster.
    /// </summary>
    public NearestPoint? Nearest(Vec3 p, double maxDistance = double.PositiveInfinity) => Nearest(p, maxDistance, new Everything());

    /// <summary>Which of four triangles may be the nearest: all bits set in the lanes that may.</summary>
    internal interface ILaneFilter
    {
        /// <param name="nx">x of the triangles' normals, length twice the area; <paramref name="ny"/>, <paramref name="nz"/> likewise.</param>
        /// <param name="ny">y.</param>
        /// <param name="nz">z.</param>
        /// <param name="nn">The squared lengths.</param>
        Vector256<double> Admits(Vector256<double> nx, Vector256<double> ny, Vector256<double> nz, Vector256<double> nn);
    }

    private readonly struct Everything : ILaneFilter
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Vector256<double> Admits(Vector256<double> nx, Vector256<double> ny, Vector256<double> nz, Vector256<double> nn) =>
            Vector256<double>.AllBitsSet;
    }

    /// <summary>The same among the triangles that <paramref name="filter"/> admits.</summary>
    internal NearestPoint? Nearest<TFilter>(Vec3 p, double maxDistance, TFilter filter)
        where TFilter : struct, ILaneFilter => Nearest(p, maxDistance, filter, out _);

    /// <summary>The same, with the leaf that has the triangle.</summary>
    internal NearestPoint? Nearest(Vec3 p, double maxDistance, out int leaf) => Nearest(p, maxDistance, new Everything(), out leaf);

    /// <summary>Squared distances from <paramref name="p"/> to the triangles of a leaf, four lanes; NaN in a lane without one.</summary>
    internal Vector256<double> SquaredDistancesToLeaf(Vec3 p, int leaf) => Distances(p, ref Unsafe.Add(ref Leaves, leaf * LeafWords), new Everything());

    [SkipLocalsInit]
    private NearestPoint? Nearest<TFilter>(Vec3 p, double maxDistance, TFilter filter, out int found)
        where TFilter : struct, ILaneFilter
    {
        var best = maxDistance * maxDistance;
        var bestLeaf = -1;
        var bestLane = 0;
        var (lowX, highX) = (Vector256.Create(RoundDown(p.X)), Vector256.Create(RoundUp(p.X)));
        var (lowY, highY) = (Vector256.Create(RoundDown(p.Y)), Vector256.Create(RoundUp(p.Y)));
        var (lowZ, highZ) = (Vector256.Create(RoundDown(p.Z)), Vector256.Create(RoundUp(p.Z)));
        ref var nodes = ref Nodes;
        ref var leaves = ref Leaves;
        Span<(int Node, float Near)> stack = stackalloc (int, float)[StackSize];
        ref var bottom = ref MemoryMarshal.GetReference(stack);
        var top = 0;
        var node = 0;
        Unsafe.SkipInit(out LaneValues near);
        while (true)
        {
            if (node >= 0)
            {
                ref var n = ref Unsafe.Add(ref nodes, node * NodeWords);
                var zero = Vector256<float>.Zero;
                var dx = Vector256.MaxNative(Vector256.MaxNative(Vector256.LoadUnsafe(ref n, 0) - highX, lowX - Vector256.LoadUnsafe(ref n, 8)), zero);
                var dy = Vector256.MaxNative(Vector256.MaxNative(Vector256.LoadUnsafe(ref n, 16) - highY, lowY - Vector256.LoadUnsafe(ref n, 24)), zero);
                var dz = Vector256.MaxNative(Vector256.MaxNative(Vector256.LoadUnsafe(ref n, 32) - highZ, lowZ - Vector256.LoadUnsafe(ref n, 40)), zero);
                var d = ((dx * dx) + (dy * dy) + (dz * dz)) * NearSlack;
                var bits = Vector256.LessThan(d, Vector256.Create(RoundUp(best))).ExtractMostSignificantBits();
                if (bits != 0)
                {
                    ref var children = ref Unsafe.As<float, int>(ref Unsafe.Add(ref n, ChildWord));
                    d.StoreUnsafe(ref near.First);
                    var first = top;
                    for (; bits != 0; bits &= bits - 1)
                    {
                        var slot = BitOperations.TrailingZeroCount(bits);
                        var distance = Unsafe.Add(ref near.First, slot);
                        var at = top++;
                        for (; at > first && Unsafe.Add(ref bottom, at - 1).Near < distance; at--) Unsafe.Add(ref bottom, at) = Unsafe.Add(ref bottom, at - 1);
                        Unsafe.Add(ref bottom, at) = (Unsafe.Add(ref children, slot), distance);
                    }
                }
            }
            else
            {
                var distances = Distances(p, ref Unsafe.Add(ref leaves, ~node * LeafWords), filter);
                var closer = Vector256.LessThan(distances, Vector256.Create(best)).ExtractMostSignificantBits();
                for (; closer != 0; closer &= closer - 1)
                {
                    var lane = BitOperations.TrailingZeroCount(closer);
                    if (distances[lane] < best) (best, bestLeaf, bestLane) = (distances[lane], ~node, lane);
                }
            }

            do
            {
                if (top == 0)
                {
                    found = bestLeaf;
                    return bestLeaf < 0 ? null : Describe(p, bestLeaf, bestLane);
                }

                top--;
            }
            while (Unsafe.Add(ref bottom, top).Near >= best);
            node = Unsafe.Add(ref bottom, top).Node;
        }
    }

    private NearestPoint Describe(Vec3 p, int leaf, int lane)
    {
        var triangle = Number(ref Leaves, leaf, lane);
        var (a, b, c) = Mesh.Triangle(triangle);
        var (point, feature) = NearestPoint.OnTriangle(p, a, b, c);
        return new(triangle, feature, point, Vec3.Distance(p, point));
    }

    /// <summary>Squared distances from p to four triangles: to the plane where p is above the triangle, else to the nearest of its three edges.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Distances<TFilter>(Vec3 p, ref float leaf, TFilter filter)
        where TFilter : struct, ILaneFilter
    {
        var zero = Vector256<double>.Zero;
        var (px, py, pz) = (Vector256.Create(p.X), Vector256.Create(p.Y), Vector256.Create(p.Z));
        var (ax, ay, az) = (Corner(ref leaf, 0) - px, Corner(ref leaf, 4) - py, Corner(ref leaf, 8) - pz);
        var (bx, by, bz) = (Corner(ref leaf, 12) - px, Corner(ref leaf, 16) - py, Corner(ref leaf, 20) - pz);
        var (cx, cy, cz) = (Corner(ref leaf, 24) - px, Corner(ref leaf, 28) - py, Corner(ref leaf, 32) - pz);
        var (abx, aby, abz) = (bx - ax, by - ay, bz - az);
        var (bcx, bcy, bcz) = (cx - bx, cy - by, cz - bz);
        var (cax, cay, caz) = (ax - cx, ay - cy, az - cz);
        var nx = (aby * bcz) - (abz * bcy);
        var ny = (abz * bcx) - (abx * bcz);
        var nz = (abx * bcy) - (aby * bcx);
        var nn = (nx * nx) + (ny * ny) + (nz * nz);
        var admitted = filter.Admits(nx, ny, nz, nn);
        var height = (nx * ax) + (ny * ay) + (nz * az);

        // (n × edge) · (corner − p) is at most 0 when p's foot lies on the inner side of the edge.
        var above = Vector256.GreaterThan(nn, zero) &
            Vector256.LessThanOrEqual(Outward(nx, ny, nz, abx, aby, abz, ax, ay, az), zero) &
            Vector256.LessThanOrEqual(Outward(nx, ny, nz, bcx, bcy, bcz, bx, by, bz), zero) &
            Vector256.LessThanOrEqual(Outward(nx, ny, nz, cax, cay, caz, cx, cy, cz), zero);
        var toEdges = Vector256.MinNative(
            ToEdge(ax, ay, az, abx, aby, abz),
            Vector256.MinNative(ToEdge(bx, by, bz, bcx, bcy, bcz), ToEdge(cx, cy, cz, cax, cay, caz)));
        var distances = Vector256.ConditionalSelect(above, height * height / nn, toEdges);
        return Vector256.ConditionalSelect(admitted, distances, Vector256.Create(double.PositiveInfinity));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Outward(
        Vector256<double> nx, Vector256<double> ny, Vector256<double> nz,
        Vector256<double> ex, Vector256<double> ey, Vector256<double> ez,
        Vector256<double> qx, Vector256<double> qy, Vector256<double> qz) =>
        (((ny * ez) - (nz * ey)) * qx) + (((nz * ex) - (nx * ez)) * qy) + (((nx * ey) - (ny * ex)) * qz);

    /// <summary>Squared distance from the origin to the segments q + t e, 0 ≤ t ≤ 1; an edge without length is its corner.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> ToEdge(
        Vector256<double> qx, Vector256<double> qy, Vector256<double> qz, Vector256<double> ex, Vector256<double> ey, Vector256<double> ez)
    {
        var along = -((qx * ex) + (qy * ey) + (qz * ez));
        var length = Vector256.MaxNative((ex * ex) + (ey * ey) + (ez * ez), Vector256.Create(double.Epsilon));
        var t = Vector256.MaxNative(Vector256.MinNative(along / length, Vector256<double>.One), Vector256<double>.Zero);
        var (x, y, z) = (qx + (t * ex), qy + (t * ey), qz + (t * ez));
        return (x * x) + (y * y) + (z * z);
    }
}
