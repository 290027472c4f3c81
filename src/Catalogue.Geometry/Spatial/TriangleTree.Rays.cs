using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>Rays: the first hit, any hit, all crossings.</summary>
/// <remarks>
/// Triangles are tested by shearing space so that the ray becomes the z axis and looking at the signs of three edge functions,
/// which two neighbours compute from the same numbers: no ray slips between them (S. Woop, C. Benthin, I. Wald, "Watertight
/// Ray/Triangle Intersection", Journal of Computer Graphics Techniques 2(1), 2013). A triangle seen edge-on is not hit.
/// </remarks>
public sealed partial class TriangleTree
{
    // Single-precision box tests: a few rounding steps of 2⁻²⁴ each, allowed for on the far side.
    private const float FarSlack = 1 + (8 * 5.9604645e-8f);

    /// <summary>The nearest hit at a distance in [0, <paramref name="maxDistance"/>] mm; null when there is none. Edges and corners count as hit.</summary>
    public RayHit? FirstHit(in Ray ray, double maxDistance = double.PositiveInfinity)
    {
        var visitor = new FirstHitVisitor { Limit = maxDistance, Triangle = -1 };
        Walk(ray, ref visitor);
        return visitor.Triangle < 0 ? null : new(visitor.Triangle, visitor.Limit, visitor.Front);
    }

    /// <summary>True when something is hit at a distance in [0, <paramref name="maxDistance"/>] mm; stops at the first thing found.</summary>
    public bool AnyHit(in Ray ray, double maxDistance = double.PositiveInfinity)
    {
        var visitor = new AnyHitVisitor { Limit = maxDistance };
        Walk(ray, ref visitor);
        return visitor.Found;
    }

    /// <summary>
    /// How often the ray passes through the surface, and the sum of passages (leaving +1, entering −1): in a closed,
    /// consistently oriented mesh the sum is how many solids the origin is in. A ray through an edge or corner counts once
    /// for the surface there, as if it were moved aside by an infinitely small amount.
    /// </summary>
    public (int Count, int Winding) Crossings(in Ray ray)
    {
        var visitor = new CrossingVisitor { Limit = double.PositiveInfinity };
        Walk(ray, ref visitor);
        return (visitor.Count, visitor.Winding);
    }

    /// <summary>Every triangle hit, by distance, equal distances by number, added to <paramref name="hits"/>. Counts edges and corners like <see cref="Crossings"/>.</summary>
    public void AllHits(in Ray ray, List<RayHit> hits)
    {
        ArgumentNullException.ThrowIfNull(hits);
        var from = hits.Count;
        var visitor = new CrossingVisitor { Limit = double.PositiveInfinity, Hits = hits };
        Walk(ray, ref visitor);
        hits.Sort(from, hits.Count - from, ByDistance.Instance);
    }

    /// <summary>
    /// True when <paramref name="point"/> is in the matter of a closed, consistently oriented mesh: the surfaces around it,
    /// voids counted negative, add up to one or more. Decided by a ray in a fixed odd direction; on the surface itself either answer may come.
    /// </summary>
    public bool Contains(Vec3 point) => Crossings(new(point, new(0.5403023, 0.3817732, 0.7498112))).Winding > 0;

    private sealed class ByDistance : IComparer<RayHit>
    {
        public static readonly ByDistance Instance = new();

        public int Compare(RayHit a, RayHit b) =>
            a.Distance != b.Distance ? a.Distance.CompareTo(b.Distance) : a.Triangle.CompareTo(b.Triangle);
    }

    /// <summary>Takes the four lanes of a leaf; <see cref="Limit"/> is how far the walk still has to look.</summary>
    private interface IRayVisitor
    {
        double Limit { get; }

        bool Done { get; }

        /// <summary>Edge functions u (bc), v (ca), w (ab), their sum, the distances, and the leaf's first word.</summary>
        void Visit(in Sheared s, ref float leaf);
    }

    /// <summary>Four triangles seen along the ray.</summary>
    private ref struct Sheared
    {
        public Vector256<double> Ax, Ay, Bx, By, Cx, Cy, U, V, W, Det, Distance;
    }

    private struct FirstHitVisitor : IRayVisitor
    {
        public double Limit { get; set; }
        public int Triangle;
        public bool Front;

        public readonly bool Done => false;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Visit(in Sheared s, ref float leaf)
        {
            var mask = Inside(s) & InReach(s, Limit);
            for (var bits = mask.ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
            {
                var lane = BitOperations.TrailingZeroCount(bits);
                var number = Unsafe.As<float, int>(ref Unsafe.Add(ref leaf, NumberWord + lane));
                var distance = s.Distance[lane];
                if (distance < Limit || (distance == Limit && (Triangle < 0 || number < Triangle)))
                {
                    (Limit, Triangle, Front) = (distance, number, s.Det[lane] > 0);
                }
            }
        }
    }

    private struct AnyHitVisitor : IRayVisitor
    {
        public double Limit { get; set; }
        public bool Found;

        public readonly bool Done => Found;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Visit(in Sheared s, ref float leaf) => Found |= (Inside(s) & InReach(s, Limit)) != Vector256<double>.Zero;
    }

    private struct CrossingVisitor : IRayVisitor
    {
        public double Limit { get; set; }
        public int Count;
        public int Winding;
        public List<RayHit>? Hits;

        public readonly bool Done => false;

        public void Visit(in Sheared s, ref float leaf)
        {
            // A zero edge function is settled by the direction of the edge, opposite for the two triangles that share it,
            // so exactly one of them has the ray: the rule that fills each pixel once.
            var u = Settled(s.U, s.Cx - s.Bx, s.Cy - s.By);
            var v = Settled(s.V, s.Ax - s.Cx, s.Ay - s.Cy);
            var w = Settled(s.W, s.Bx - s.Ax, s.By - s.Ay);
            var zero = Vector256<double>.Zero;
            var positive = Vector256.GreaterThan(u, zero) & Vector256.GreaterThan(v, zero) & Vector256.GreaterThan(w, zero);
            var negative = Vector256.LessThan(u, zero) & Vector256.LessThan(v, zero) & Vector256.LessThan(w, zero);
            var mask = (positive | negative) & InReach(s, Limit);
            for (var bits = mask.ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
            {
                var lane = BitOperations.TrailingZeroCount(bits);
                Count++;
                Winding += s.Det[lane] > 0 ? -1 : 1;
                Hits?.Add(new(Unsafe.As<float, int>(ref Unsafe.Add(ref leaf, NumberWord + lane)), s.Distance[lane], s.Det[lane] > 0));
            }
        }

        private static Vector256<double> Settled(Vector256<double> e, Vector256<double> dx, Vector256<double> dy)
        {
            var zero = Vector256<double>.Zero;
            var byEdge = Vector256.ConditionalSelect(Vector256.Equals(dy, zero), dx, dy);
            return Vector256.ConditionalSelect(Vector256.Equals(e, zero), byEdge, e);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Inside(in Sheared s)
    {
        var zero = Vector256<double>.Zero;
        var least = Vector256.MinNative(Vector256.MinNative(s.U, s.V), s.W);
        var most = Vector256.MaxNative(Vector256.MaxNative(s.U, s.V), s.W);
        return Vector256.GreaterThanOrEqual(least, zero) | Vector256.LessThanOrEqual(most, zero);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> InReach(in Sheared s, double limit) =>
        Vector256.GreaterThanOrEqual(s.Distance, Vector256<double>.Zero) & Vector256.LessThanOrEqual(s.Distance, Vector256.Create(limit)) &
        ~Vector256.Equals(s.Det, Vector256<double>.Zero);

    /// <summary>What a box test needs of one axis: the padded origin for the near and the far plane, 1 / direction, and which plane is near.</summary>
    private readonly struct AxisOfRay
    {
        public readonly Vector256<float> Near, Far, Inverse;
        public readonly int NearWord, FarWord;

        public AxisOfRay(double origin, double direction, int axis)
        {
            // A ray that runs in the plane of a box's side must not be lost: no component is taken for zero, and the origin is
            // widened by a hair, over which such a ray takes more than 10¹⁰ mm to leave the box.
            const double Least = 1e-25;
            const double Hair = 1e-15;
            var d = Math.Abs(direction) < Least ? Math.CopySign(Least, direction) : direction;
            var (low, high) = (RoundDown(origin - Hair), RoundUp(origin + Hair));
            Inverse = Vector256.Create((float)(1 / d));
            (Near, Far) = d > 0 ? (Vector256.Create(high), Vector256.Create(low)) : (Vector256.Create(low), Vector256.Create(high));
            (NearWord, FarWord) = d > 0 ? (16 * axis, (16 * axis) + 8) : ((16 * axis) + 8, 16 * axis);
        }
    }

    [SkipLocalsInit] // the stack: clearing its 4 KB costs as much as a short ray
    private void Walk<TVisitor>(in Ray ray, ref TVisitor visitor)
        where TVisitor : struct, IRayVisitor
    {
        var (o, d) = (ray.Origin, ray.Direction);
        var x = new AxisOfRay(o.X, d.X, 0);
        var y = new AxisOfRay(o.Y, d.Y, 1);
        var z = new AxisOfRay(o.Z, d.Z, 2);

        // The shear: kz is the axis the ray runs along most, kx and ky the others, kept right-handed.
        var (ax, ay, az) = (Math.Abs(d.X), Math.Abs(d.Y), Math.Abs(d.Z));
        var kz = ax > ay ? (ax > az ? 0 : 2) : (ay > az ? 1 : 2);
        var kx = kz == 2 ? 0 : kz + 1;
        var ky = kx == 2 ? 0 : kx + 1;
        var dz = Axis(d, kz);
        if (dz < 0) (kx, ky) = (ky, kx);
        var shear = new Shear(o, d, kx, ky, kz);

        ref var nodes = ref Nodes;
        ref var leaves = ref Leaves;
        Span<(int Node, float Near)> stack = stackalloc (int, float)[StackSize];
        ref var bottom = ref MemoryMarshal.GetReference(stack);
        var top = 0;
        var node = 0;
        Unsafe.SkipInit(out LaneValues near);
        while (true)
        {
            ref var n = ref Unsafe.Add(ref nodes, node * NodeWords);
            var reach = Vector256.Create(RoundUp(visitor.Limit));
            var nearX = (Vector256.LoadUnsafe(ref n, (nuint)x.NearWord) - x.Near) * x.Inverse;
            var nearY = (Vector256.LoadUnsafe(ref n, (nuint)y.NearWord) - y.Near) * y.Inverse;
            var nearZ = (Vector256.LoadUnsafe(ref n, (nuint)z.NearWord) - z.Near) * z.Inverse;
            var farX = (Vector256.LoadUnsafe(ref n, (nuint)x.FarWord) - x.Far) * x.Inverse;
            var farY = (Vector256.LoadUnsafe(ref n, (nuint)y.FarWord) - y.Far) * y.Inverse;
            var farZ = (Vector256.LoadUnsafe(ref n, (nuint)z.FarWord) - z.Far) * z.Inverse;
            var enter = Vector256.MaxNative(Vector256.MaxNative(nearX, nearY), Vector256.MaxNative(nearZ, Vector256<float>.Zero));
            var leave = Vector256.MinNative(Vector256.MinNative(farX, farY), Vector256.MinNative(farZ, reach));
            var bits = Vector256.LessThanOrEqual(enter, leave * FarSlack).ExtractMostSignificantBits();
            if (bits != 0)
            {
                ref var children = ref Unsafe.As<float, int>(ref Unsafe.Add(ref n, ChildWord));
                var slot = BitOperations.TrailingZeroCount(bits);
                bits &= bits - 1;
                if (bits == 0)
                {
                    // One child: no need to sort.
                    node = Unsafe.Add(ref children, slot);
                    if (node >= 0) continue;
                    VisitLeaf(shear, ref Unsafe.Add(ref leaves, ~node * LeafWords), ref visitor);
                    if (visitor.Done) return;
                }
                else
                {
                    // Onto the stack, the farthest first.
                    enter.StoreUnsafe(ref near.First);
                    var first = top;
                    Unsafe.Add(ref bottom, top++) = (Unsafe.Add(ref children, slot), Unsafe.Add(ref near.First, slot));
                    for (; bits != 0; bits &= bits - 1)
                    {
                        slot = BitOperations.TrailingZeroCount(bits);
                        var distance = Unsafe.Add(ref near.First, slot);
                        var at = top++;
                        for (; at > first && Unsafe.Add(ref bottom, at - 1).Near < distance; at--) Unsafe.Add(ref bottom, at) = Unsafe.Add(ref bottom, at - 1);
                        Unsafe.Add(ref bottom, at) = (Unsafe.Add(ref children, slot), distance);
                    }
                }
            }

            while (true)
            {
                if (top == 0) return;
                var next = Unsafe.Add(ref bottom, --top);
                if (next.Near > visitor.Limit * FarSlack) continue;
                node = next.Node;
                if (node >= 0) break;
                VisitLeaf(shear, ref Unsafe.Add(ref leaves, ~node * LeafWords), ref visitor);
                if (visitor.Done) return;
            }
        }
    }

    [InlineArray(Wide)]
    private struct LaneValues
    {
        public float First;
    }

    private readonly struct Shear(Vec3 o, Vec3 d, int kx, int ky, int kz)
    {
        public readonly int Kx = 4 * kx, Ky = 4 * ky, Kz = 4 * kz;
        public readonly Vector256<double> Ox = Vector256.Create(Axis(o, kx)), Oy = Vector256.Create(Axis(o, ky)), Oz = Vector256.Create(Axis(o, kz));
        public readonly Vector256<double> Sx = Vector256.Create(Axis(d, kx) / Axis(d, kz));
        public readonly Vector256<double> Sy = Vector256.Create(Axis(d, ky) / Axis(d, kz));
        public readonly Vector256<double> Sz = Vector256.Create(1 / Axis(d, kz));
    }

    private static double Axis(Vec3 v, int axis) => axis == 0 ? v.X : axis == 1 ? v.Y : v.Z;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void VisitLeaf<TVisitor>(in Shear k, ref float leaf, ref TVisitor visitor)
        where TVisitor : struct, IRayVisitor
    {
        Unsafe.SkipInit(out Sheared s);
        var az = Corner(ref leaf, k.Kz) - k.Oz;
        var bz = Corner(ref leaf, 12 + k.Kz) - k.Oz;
        var cz = Corner(ref leaf, 24 + k.Kz) - k.Oz;
        s.Ax = Corner(ref leaf, k.Kx) - k.Ox - (k.Sx * az);
        s.Ay = Corner(ref leaf, k.Ky) - k.Oy - (k.Sy * az);
        s.Bx = Corner(ref leaf, 12 + k.Kx) - k.Ox - (k.Sx * bz);
        s.By = Corner(ref leaf, 12 + k.Ky) - k.Oy - (k.Sy * bz);
        s.Cx = Corner(ref leaf, 24 + k.Kx) - k.Ox - (k.Sx * cz);
        s.Cy = Corner(ref leaf, 24 + k.Ky) - k.Oy - (k.Sy * cz);
        s.U = (s.Cx * s.By) - (s.Cy * s.Bx);
        s.V = (s.Ax * s.Cy) - (s.Ay * s.Cx);
        s.W = (s.Bx * s.Ay) - (s.By * s.Ax);
        s.Det = s.U + s.V + s.W;
        s.Distance = ((s.U * az) + (s.V * bz) + (s.W * cz)) * k.Sz / s.Det;
        visitor.Visit(s, ref leaf);
    }
}
