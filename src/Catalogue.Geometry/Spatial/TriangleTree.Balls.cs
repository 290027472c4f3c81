using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>A ball that touches the surface at a given point from one side and an opposite wall on the other.</summary>
/// <param name="Radius">mm; its diameter is the local thickness, or the local gap.</param>
/// <param name="Triangle">The triangle of the opposite wall it touches.</param>
/// <param name="Contact">Where it touches that triangle, mm.</param>
public readonly record struct TouchingBall(double Radius, int Triangle, Vec3 Contact);

/// <summary>The largest ball between a point of the surface and the wall opposite.</summary>
public sealed partial class TriangleTree
{
    /// <summary>Walls are opposite when their planes make at most this angle (degrees): the edge of a 45° wedge or chamfer is an edge, not a wall.</summary>
    public const double WidestOppositeAngle = 40;

    // A ball may cut into the opposite wall by this part of its radius: the diameter is at most half as much too large.
    private const double CutTolerance = 1e-3;

    private static readonly double OppositeCosineSquared = Math.Pow(Math.Cos(WidestOppositeAngle * Math.PI / 180), 2);

    // A ball that touches two planes at an angle a touches the second where half of a is seen from the first contact; a little
    // more is allowed for facets.
    private static readonly double ConeSine = Math.Sin(((WidestOppositeAngle / 2) + 3) * Math.PI / 180);
    private static readonly double ConeCosine = Math.Cos(((WidestOppositeAngle / 2) + 3) * Math.PI / 180);

    /// <summary>
    /// The largest ball on one side of the surface that touches it at <paramref name="p"/> and has no part of an opposite wall in it;
    /// null when there is no opposite wall within reach. Diameter right to 0.05 %.
    /// </summary>
    /// <remarks>
    /// The shrinking ball of J. Ma, S. W. Bae, S. Choi, "3D medial axis point approximation using nearest neighbors and the
    /// normal field", The Visual Computer 28, 2012, against triangles instead of points: a ball through p and a surface point
    /// inside the present ball is smaller and touches the surface there. Done in one walk of the tree that keeps the smallest
    /// ball yet, begun with the one that a ray along the normal allows. Only walls that face back within
    /// <see cref="WidestOppositeAngle"/> count, so that the ball beside a sharp edge is not squeezed by the neighbouring face.
    /// </remarks>
    /// <param name="p">A point of the surface, mm.</param>
    /// <param name="normal">Outward unit normal there.</param>
    /// <param name="inside">True for the matter's thickness, false for the gap outside.</param>
    /// <param name="maxRadius">No ball larger than this is asked for, mm.</param>
    public TouchingBall? LargestBall(Vec3 p, Vec3 normal, bool inside, double maxRadius)
    {
        var into = inside ? -normal : normal;
        var ball = new TouchingBall(maxRadius, -1, default);
        var start = new FacingVisitor { Limit = 2 * maxRadius, Leaving = inside, Triangle = -1 };
        Walk(new Ray(p, into), ref start);
        if (start.Triangle >= 0)
        {
            var (a, b, c) = Mesh.Triangle(start.Triangle);
            var facing = Vec3.Cross(b - a, c - a);
            var dot = Vec3.Dot(facing, into);
            if (dot * dot >= OppositeCosineSquared * facing.LengthSquared) ball = new(start.Limit / 2, start.Triangle, p + (into * start.Limit));
        }

        Shrink(p, into, new Opposite(into, inside), ref ball);
        return ball.Triangle < 0 ? null : ball;
    }

    /// <summary>The first triangle a ray meets from behind (leaving matter) or from the front.</summary>
    internal RayHit? FirstFacing(in Ray ray, bool leaving, double maxDistance)
    {
        var visitor = new FacingVisitor { Limit = maxDistance, Leaving = leaving, Triangle = -1 };
        Walk(ray, ref visitor);
        return visitor.Triangle < 0 ? null : new(visitor.Triangle, visitor.Limit, !leaving);
    }

    private struct FacingVisitor : IRayVisitor
    {
        public double Limit { get; set; }
        public bool Leaving;
        public int Triangle;

        public readonly bool Done => false;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Visit(in Sheared s, ref float leaf)
        {
            var zero = Vector256<double>.Zero;
            var side = Leaving ? Vector256.LessThan(s.Det, zero) : Vector256.GreaterThan(s.Det, zero);
            for (var bits = (Inside(s) & InReach(s, Limit) & side).ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
            {
                var lane = BitOperations.TrailingZeroCount(bits);
                var number = Unsafe.As<float, int>(ref Unsafe.Add(ref leaf, NumberWord + lane));
                var distance = s.Distance[lane];
                if (distance < Limit || (distance == Limit && (Triangle < 0 || number < Triangle))) (Limit, Triangle) = (distance, number);
            }
        }
    }

    private readonly struct Opposite(Vec3 into, bool inside) : ILaneFilter
    {
        private readonly Vector256<double> _x = Vector256.Create(inside ? into.X : -into.X);
        private readonly Vector256<double> _y = Vector256.Create(inside ? into.Y : -into.Y);
        private readonly Vector256<double> _z = Vector256.Create(inside ? into.Z : -into.Z);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Vector256<double> Admits(Vector256<double> nx, Vector256<double> ny, Vector256<double> nz, Vector256<double> nn)
        {
            var dot = (nx * _x) + (ny * _y) + (nz * _z);
            return Vector256.GreaterThan(dot, Vector256<double>.Zero) & Vector256.GreaterThanOrEqual(dot * dot, nn * OppositeCosineSquared);
        }
    }

    [SkipLocalsInit]
    private void Shrink(Vec3 p, Vec3 into, in Opposite filter, ref TouchingBall ball)
    {
        ref var nodes = ref Nodes;
        ref var leaves = ref Leaves;
        Span<int> stack = stackalloc int[StackSize];
        ref var bottom = ref MemoryMarshal.GetReference(stack);
        var top = 0;
        var node = 0;
        var (px, py, pz) = (Vector256.Create((float)p.X), Vector256.Create((float)p.Y), Vector256.Create((float)p.Z));
        var (dx, dy, dz) = (Vector256.Create((float)into.X), Vector256.Create((float)into.Y), Vector256.Create((float)into.Z));
        var (sine, cosine) = (Vector256.Create((float)ConeSine), Vector256.Create((float)ConeCosine));
        Unsafe.SkipInit(out LaneValues deep);
        while (true)
        {
            if (node >= 0)
            {
                // Children that reach into the ball and into the cone in which an opposite wall can be touched.
                ref var n = ref Unsafe.Add(ref nodes, node * NodeWords);
                var (lowX, highX) = (Vector256.LoadUnsafe(ref n, 0), Vector256.LoadUnsafe(ref n, 8));
                var (lowY, highY) = (Vector256.LoadUnsafe(ref n, 16), Vector256.LoadUnsafe(ref n, 24));
                var (lowZ, highZ) = (Vector256.LoadUnsafe(ref n, 32), Vector256.LoadUnsafe(ref n, 40));
                var centre = p + (into * ball.Radius);
                var (cx, cy, cz) = (Vector256.Create((float)centre.X), Vector256.Create((float)centre.Y), Vector256.Create((float)centre.Z));
                var zero = Vector256<float>.Zero;
                var x = Vector256.MaxNative(Vector256.MaxNative(lowX - cx, cx - highX), zero);
                var y = Vector256.MaxNative(Vector256.MaxNative(lowY - cy, cy - highY), zero);
                var z = Vector256.MaxNative(Vector256.MaxNative(lowZ - cz, cz - highZ), zero);
                var near = (x * x) + (y * y) + (z * z);
                var reach = (float)(ball.Radius * (1 - (CutTolerance / 2)));
                var inside = Vector256.LessThan(near, Vector256.Create(reach * reach));
                var (ex, ey, ez) = (highX - lowX, highY - lowY, highZ - lowZ);
                var half = Vector256.Sqrt((ex * ex) + (ey * ey) + (ez * ez)) * 0.5001f;
                var (vx, vy, vz) = (((lowX + highX) * 0.5f) - px, ((lowY + highY) * 0.5f) - py, ((lowZ + highZ) * 0.5f) - pz);
                var along = (vx * dx) + (vy * dy) + (vz * dz);
                var across = Vector256.Sqrt(Vector256.MaxNative((vx * vx) + (vy * vy) + (vz * vz) - (along * along), zero));
                var seen = Vector256.LessThanOrEqual((across * cosine) - (along * sine), half + (Vector256.Abs(along) * 1e-5f));
                var bits = (inside & seen).ExtractMostSignificantBits();
                if (bits != 0)
                {
                    // The one whose middle is deepest in the ball on top: it is likely to shrink it most.
                    var (mx, my, mz) = (vx + px - cx, vy + py - cy, vz + pz - cz);
                    ((mx * mx) + (my * my) + (mz * mz)).StoreUnsafe(ref deep.First);
                    ref var children = ref Unsafe.As<float, int>(ref Unsafe.Add(ref n, ChildWord));
                    var best = BitOperations.TrailingZeroCount(bits);
                    for (var others = bits & (bits - 1); others != 0; others &= others - 1)
                    {
                        var slot = BitOperations.TrailingZeroCount(others);
                        if (Unsafe.Add(ref deep.First, slot) < Unsafe.Add(ref deep.First, best)) best = slot;
                    }

                    for (bits &= ~(1u << best); bits != 0; bits &= bits - 1)
                        Unsafe.Add(ref bottom, top++) = (node << 3) | BitOperations.TrailingZeroCount(bits);
                    node = Unsafe.Add(ref children, best);
                    continue;
                }
            }
            else
            {
                ShrinkToLeaf(p, into, ref Unsafe.Add(ref leaves, ~node * LeafWords), filter, ref ball);
            }

            // A child waits as its parent and slot: the ball may have shrunk away from its box.
            do
            {
                if (top == 0) return;
                var waiting = Unsafe.Add(ref bottom, --top);
                ref var n = ref Unsafe.Add(ref nodes, (waiting >> 3) * NodeWords);
                var slot = waiting & 7;
                node = ReachesInto(ref Unsafe.Add(ref n, slot), p + (into * ball.Radius), ball.Radius * (1 - (CutTolerance / 2)))
                    ? Unsafe.As<float, int>(ref Unsafe.Add(ref n, ChildWord + slot))
                    : NoNode;
            }
            while (node == NoNode);
        }
    }

    private const int NoNode = int.MaxValue;

    /// <summary>Whether a child's box, whose first number is given, comes nearer to a point than <paramref name="reach"/>.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool ReachesInto(ref float box, Vec3 centre, double reach)
    {
        var x = Math.Max(Math.Max(box - centre.X, centre.X - Unsafe.Add(ref box, 8)), 0);
        var y = Math.Max(Math.Max(Unsafe.Add(ref box, 16) - centre.Y, centre.Y - Unsafe.Add(ref box, 24)), 0);
        var z = Math.Max(Math.Max(Unsafe.Add(ref box, 32) - centre.Z, centre.Z - Unsafe.Add(ref box, 40)), 0);
        return (x * x) + (y * y) + (z * z) < reach * reach;
    }

    /// <summary>Whether the box of any of a leaf's triangles comes nearer to a point than <paramref name="reach"/>: much cheaper than the distances, and mostly no.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool AnyBoxReachesInto(ref float leaf, Vec3 centre, float reach)
    {
        var x = Beyond(ref leaf, 0, (float)centre.X);
        var y = Beyond(ref leaf, 4, (float)centre.Y);
        var z = Beyond(ref leaf, 8, (float)centre.Z);
        return Vector128.LessThanAny((x * x) + (y * y) + (z * z), Vector128.Create(reach * reach));

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        static Vector128<float> Beyond(ref float leaf, int axis, float at)
        {
            var (a, b, c) = (Vector128.LoadUnsafe(ref leaf, (nuint)axis), Vector128.LoadUnsafe(ref leaf, (nuint)axis + 12), Vector128.LoadUnsafe(ref leaf, (nuint)axis + 24));
            var (low, high) = (Vector128.MinNative(a, Vector128.MinNative(b, c)), Vector128.MaxNative(a, Vector128.MaxNative(b, c)));
            var centre = Vector128.Create(at);
            return Vector128.MaxNative(Vector128.MaxNative(low - centre, centre - high), Vector128<float>.Zero);
        }
    }

    /// <summary>Whether any of a leaf's triangles faces back: around a round limb most of what the ball comes near does not.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool AnyFaces(ref float leaf, in Opposite filter)
    {
        var (ax, ay, az) = (Corner(ref leaf, 0), Corner(ref leaf, 4), Corner(ref leaf, 8));
        var (ux, uy, uz) = (Corner(ref leaf, 12) - ax, Corner(ref leaf, 16) - ay, Corner(ref leaf, 20) - az);
        var (vx, vy, vz) = (Corner(ref leaf, 24) - ax, Corner(ref leaf, 28) - ay, Corner(ref leaf, 32) - az);
        var (nx, ny, nz) = ((uy * vz) - (uz * vy), (uz * vx) - (ux * vz), (ux * vy) - (uy * vx));
        return filter.Admits(nx, ny, nz, (nx * nx) + (ny * ny) + (nz * nz)) != Vector256<double>.Zero;
    }

    private void ShrinkToLeaf(Vec3 p, Vec3 into, ref float leaf, in Opposite filter, ref TouchingBall ball)
    {
        var reach = ball.Radius * (1 - CutTolerance);
        if (!AnyBoxReachesInto(ref leaf, p + (into * ball.Radius), (float)(ball.Radius * (1 - (CutTolerance / 2)))) || !AnyFaces(ref leaf, filter)) return;
        var distances = Distances(p + (into * ball.Radius), ref leaf, filter);
        for (var bits = Vector256.LessThan(distances, Vector256.Create(reach * reach)).ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
        {
            var number = Unsafe.As<float, int>(ref Unsafe.Add(ref leaf, NumberWord + BitOperations.TrailingZeroCount(bits)));
            var (a, b, c) = Mesh.Triangle(number);
            var radius = ball.Radius;
            for (var step = 0; step < 32; step++)
            {
                var centre = p + (into * radius);
                var q = NearestPoint.OnTriangle(centre, a, b, c).Point;
                var w = q - p;
                var along = Vec3.Dot(w, into);
                if (Vec3.Distance(q, centre) >= radius * (1 - CutTolerance))
                {
                    // Settled: it counts when the wall is touched opposite p.
                    if (step > 0 && along > 0 && along * along >= ConeCosine * ConeCosine * w.LengthSquared) ball = new(radius, number, q);
                    break;
                }

                if (along <= 0) break;
                radius = w.LengthSquared / (2 * along);
            }
        }
    }
}
