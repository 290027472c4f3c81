using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>What a plane meets near a place.</summary>
public sealed partial class TriangleTree
{
    // Boxes are compared in single precision: so much of the largest coordinate they may be off.
    private const double PlaneSlack = 1e-6;

    // A ray in the plane is off it by rounding, mm.
    private const double InPlane = 1e-6;

    /// <summary>
    /// Adds the numbers of all triangles that the plane through <paramref name="at"/> crosses within a box, and some that it comes near, each once; in the same
    /// order every time.
    /// </summary>
    /// <param name="at">mm.</param>
    /// <param name="normal">Of length 1.</param>
    /// <param name="room">Triangles outside it are of no interest.</param>
    /// <param name="into">Added to.</param>
    internal void NearPlane(Vec3 at, Vec3 normal, BoundingBox room, List<int> into)
    {
        var visitor = new PlaneNumbers { Into = into };
        WalkPlane(at, normal, room, ref visitor);
    }

    /// <summary>
    /// Whether the plane through a place, square to <paramref name="normal"/>, crosses within <paramref name="reach"/> a triangle that leans against that normal. When not, no ray
    /// from there in the plane meets one; the other way round nothing is said.
    /// </summary>
    /// <param name="at">mm.</param>
    /// <param name="normal">Of length 1.</param>
    /// <param name="reach">mm.</param>
    /// <param name="cosine">Of the least angle between the normals.</param>
    internal bool MeetsLeaning(Vec3 at, Vec3 normal, double reach, double cosine)
    {
        var around = new Vec3(reach, reach, reach);
        var visitor = new LeaningVisitor(at, normal, reach, cosine);
        WalkPlane(at, normal, new(at - around, at + around), ref visitor);
        return visitor.Done;
    }

    private interface IPlaneVisitor
    {
        bool Done { get; }

        void Visit(ref float leaf);
    }

    private struct PlaneNumbers : IPlaneVisitor
    {
        public List<int> Into;

        public readonly bool Done => false;

        public readonly void Visit(ref float leaf)
        {
            for (var lane = 0; lane < LeafSize && Unsafe.As<float, int>(ref Unsafe.Add(ref leaf, NumberWord + lane)) is >= 0 and var number; lane++) Into.Add(number);
        }
    }

    private struct LeaningVisitor(Vec3 at, Vec3 normal, double reach, double cosine) : IPlaneVisitor
    {
        private readonly double _reach = reach * (1 + 1e-6) * reach;

        public bool Done { get; private set; }

        public void Visit(ref float leaf)
        {
            var (px, py, pz) = (Vector256.Create(at.X), Vector256.Create(at.Y), Vector256.Create(at.Z));
            var (ax, ay, az) = (Corner(ref leaf, 0) - px, Corner(ref leaf, 4) - py, Corner(ref leaf, 8) - pz);
            var (bx, by, bz) = (Corner(ref leaf, 12) - px, Corner(ref leaf, 16) - py, Corner(ref leaf, 20) - pz);
            var (cx, cy, cz) = (Corner(ref leaf, 24) - px, Corner(ref leaf, 28) - py, Corner(ref leaf, 32) - pz);
            var (a, b, c) = (Along(ax, ay, az), Along(bx, by, bz), Along(cx, cy, cz));
            var crossed = Vector256.LessThanOrEqual(Vector256.MinNative(a, Vector256.MinNative(b, c)), Vector256.Create(InPlane))
                & Vector256.GreaterThanOrEqual(Vector256.MaxNative(a, Vector256.MaxNative(b, c)), Vector256.Create(-InPlane));
            if (crossed == Vector256<double>.Zero) return;
            var (ux, uy, uz) = (bx - ax, by - ay, bz - az);
            var (vx, vy, vz) = (cx - ax, cy - ay, cz - az);
            var (nx, ny, nz) = ((uy * vz) - (uz * vy), (uz * vx) - (ux * vz), (ux * vy) - (uy * vx));
            var leaning = Vector256.LessThanOrEqual(Along(nx, ny, nz), Vector256.Sqrt((nx * nx) + (ny * ny) + (nz * nz)) * (cosine + 1e-9));
            var (x, y, z) = (Away(ax, bx, cx), Away(ay, by, cy), Away(az, bz, cz));
            var near = Vector256.LessThanOrEqual((x * x) + (y * y) + (z * z), Vector256.Create(_reach));
            Done = (crossed & leaning & near) != Vector256<double>.Zero;
        }

        private readonly Vector256<double> Along(Vector256<double> x, Vector256<double> y, Vector256<double> z) => (x * normal.X) + (y * normal.Y) + (z * normal.Z);

        /// <summary>From the place to the triangle's box, along one axis.</summary>
        private static Vector256<double> Away(Vector256<double> a, Vector256<double> b, Vector256<double> c) => Vector256.MaxNative(
            Vector256.MaxNative(Vector256.MinNative(a, Vector256.MinNative(b, c)), -Vector256.MaxNative(a, Vector256.MaxNative(b, c))), Vector256<double>.Zero);
    }

    [SkipLocalsInit]
    private void WalkPlane<TVisitor>(Vec3 at, Vec3 normal, in BoundingBox room, ref TVisitor visitor)
        where TVisitor : struct, IPlaneVisitor
    {
        var (low, high) = (Mesh.Bounds.Min, Mesh.Bounds.Max);
        var largest = Math.Max(Math.Max(Math.Max(-low.X, high.X), Math.Max(-low.Y, high.Y)), Math.Max(Math.Max(-low.Z, high.Z), Math.Max(high.Length, at.Length)));
        var slack = Vector256.Create((float)(PlaneSlack * largest));
        var (x, y, z) = (new PlaneAxis(at.X, normal.X, room.Min.X, room.Max.X), new PlaneAxis(at.Y, normal.Y, room.Min.Y, room.Max.Y), new PlaneAxis(at.Z, normal.Z, room.Min.Z, room.Max.Z));
        ref var nodes = ref Nodes;
        ref var leaves = ref Leaves;
        Span<int> stack = stackalloc int[StackSize];
        ref var bottom = ref MemoryMarshal.GetReference(stack);
        var top = 0;
        Unsafe.Add(ref bottom, top++) = 0;
        while (top > 0)
        {
            var node = Unsafe.Add(ref bottom, --top);
            if (node < 0)
            {
                visitor.Visit(ref Unsafe.Add(ref leaves, ~node * LeafWords));
                if (visitor.Done) return;
                continue;
            }

            ref var n = ref Unsafe.Add(ref nodes, node * NodeWords);
            var (along, half, within) = (Vector256<float>.Zero, slack, Vector256<float>.AllBitsSet);
            Take(x, ref n, ref along, ref half, ref within);
            Take(y, ref Unsafe.Add(ref n, 16), ref along, ref half, ref within);
            Take(z, ref Unsafe.Add(ref n, 32), ref along, ref half, ref within);
            for (var bits = (within & Vector256.LessThanOrEqual(Vector256.Abs(along), half)).ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
                Unsafe.Add(ref bottom, top++) = Unsafe.As<float, int>(ref Unsafe.Add(ref n, ChildWord + BitOperations.TrailingZeroCount(bits)));
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        static void Take(in PlaneAxis axis, ref float words, ref Vector256<float> along, ref Vector256<float> half, ref Vector256<float> within)
        {
            var (from, to) = (Vector256.LoadUnsafe(ref words, 0), Vector256.LoadUnsafe(ref words, 8));
            along += (((from + to) * 0.5f) - axis.At) * axis.Normal;
            half += (to - from) * 0.5f * axis.Length;
            within &= Vector256.LessThanOrEqual(from, axis.Max) & Vector256.GreaterThanOrEqual(to, axis.Min);
        }
    }

    /// <summary>What a box test against a plane needs of one axis.</summary>
    private readonly struct PlaneAxis(double at, double normal, double min, double max)
    {
        public readonly Vector256<float> At = Vector256.Create((float)at), Normal = Vector256.Create((float)normal), Length = Vector256.Create(Math.Abs((float)normal));
        public readonly Vector256<float> Min = Vector256.Create(RoundDown(min)), Max = Vector256.Create(RoundUp(max));
    }
}
