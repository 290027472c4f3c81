using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Comparison;

/// <summary>How far the points of one surface are from another surface (one way: the directed Hausdorff distance and the mean).</summary>
/// <param name="Largest">A deviation that occurs, at <paramref name="At"/>, mm. No point of the surface deviates by more than <paramref name="Largest"/> + <paramref name="ErrorBound"/>.</param>
/// <param name="ErrorBound">What was asked for, or more where the work had to be cut short, mm.</param>
/// <param name="At">The point of the first surface that deviates by <paramref name="Largest"/>.</param>
/// <param name="To">The point of the other surface nearest to it.</param>
/// <param name="Mean">Mean over the area of the first surface, mm: an estimate from samples of equal area.</param>
/// <param name="MeanError">Standard error of that estimate, mm.</param>
public sealed record SurfaceDeviation(double Largest, double ErrorBound, Vec3 At, Vec3 To, double Mean, double MeanError)
{
    private const int Samples = 50_000;
    private const int LeavesPerBlock = 1024;

    // Nearest-point queries one block may make before its bound is taken as it is: some hundred a triangle.
    private const int QueriesPerBlock = 400_000;
    private const int Recent = 4;

    /// <summary>
    /// Measures the deviation of every point of <paramref name="from"/> to the surface of <paramref name="to"/>.
    /// </summary>
    /// <remarks>
    /// Branch and bound. Distance to one triangle is convex, so over a convex piece its largest value is at a corner: if the
    /// corners are all within L + ε of one triangle of the other surface, so is the piece, L being a deviation already seen. A
    /// piece that fails is cut along the sides of the prism over the triangle nearest to its middle; what lies outside has other
    /// nearest triangles, what lies inside and fails is halved. A piece of radius below ε always passes, so it ends. L begins as
    /// the largest over samples of equal area, which also give the mean, and grows within blocks of fixed content: the result
    /// does not depend on the number of cores. Time about O((n + m) log m) for surfaces that lie close.
    /// </remarks>
    /// <param name="from">The surface whose points are measured.</param>
    /// <param name="to">The surface they are measured to.</param>
    /// <param name="errorBound">ε &gt; 0, mm.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="ArgumentException">One of the surfaces has no triangles.</exception>
    public static SurfaceDeviation Of(TriangleTree from, TriangleTree to, double errorBound, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(errorBound);
        if (from.Mesh.TriangleCount == 0 || to.Mesh.TriangleCount == 0) throw new ArgumentException("A surface without triangles has no distance to another.");
        var sampled = Sample(from, to, cancel);

        var blocks = new Block[(from.LeafCount + LeavesPerBlock - 1) / LeavesPerBlock];
        var next = -1;
        Fork.Join(() =>
        {
            for (int i; (i = Interlocked.Increment(ref next)) < blocks.Length;)
            {
                cancel.ThrowIfCancellationRequested();
                var block = new Block(to, sampled, errorBound, cancel);
                block.Cover(from, i * LeavesPerBlock, Math.Min((i + 1) * LeavesPerBlock, from.LeafCount));
                blocks[i] = block;
            }
        });
        var best = blocks[0].Best;
        var most = 0.0;
        foreach (var block in blocks)
        {
            if (block.Best.Largest > best.Largest) best = block.Best;
            most = Math.Max(most, block.Most);
        }

        return best with { ErrorBound = Math.Max(errorBound, most - best.Largest) };
    }

    /// <summary>Samples of equal area, the triangles laid end to end in the tree's order; each at a point of its triangle from a low-discrepancy sequence.</summary>
    private static SurfaceDeviation Sample(TriangleTree from, TriangleTree to, CancellationToken cancel)
    {
        var order = from.TrianglesInOrder();
        var upTo = new double[order.Length];
        var area = 0.0;
        for (var i = 0; i < order.Length; i++)
        {
            var (a, b, c) = from.Mesh.Triangle(order[i]);
            upTo[i] = area += Vec3.Cross(b - a, c - a).Length / 2;
        }

        const int Parts = 64;
        var best = new (double Distance, Vec3 At, Vec3 To)[Parts];
        var sums = new (double Sum, double Squares)[Parts];
        var next = -1;
        Fork.Join(() =>
        {
            for (int part; (part = Interlocked.Increment(ref next)) < Parts;)
            {
                cancel.ThrowIfCancellationRequested();
                var hint = 0;
                best[part].Distance = -1;
                for (var i = part * Samples / Parts; i < (part + 1) * Samples / Parts; i++)
                {
                    var at = Array.BinarySearch(upTo, area * ((i + 0.5) / Samples));
                    var (a, b, c) = from.Mesh.Triangle(order[Math.Min(at < 0 ? ~at : at, order.Length - 1)]);

                    // The plastic-number sequence in the unit square, folded onto the triangle.
                    var (u, v) = (i * 0.7548776662466927 % 1, i * 0.5698402909980532 % 1);
                    if (u + v > 1) (u, v) = (1 - u, 1 - v);
                    var p = a + ((b - a) * u) + ((c - a) * v);
                    var nearest = Near(to, p, ref hint, out _);
                    sums[part].Sum += nearest.Distance;
                    sums[part].Squares += nearest.Distance * nearest.Distance;
                    if (nearest.Distance > best[part].Distance) best[part] = (nearest.Distance, p, nearest.Point);
                }
            }
        });
        var mean = sums.Sum(s => s.Sum) / Samples;
        var variance = Math.Max(0, (sums.Sum(s => s.Squares) / Samples) - (mean * mean));
        var largest = best.MaxBy(b => b.Distance);
        return new(largest.Distance, 0, largest.At, largest.To, mean, Math.Sqrt(variance / Samples));
    }

    /// <summary>The nearest point, bounded by the distance to the triangle that was nearest last time; with the leaf of a nearer one, or −1.</summary>
    private static NearestPoint Near(TriangleTree to, Vec3 p, ref int hint, out int leaf)
    {
        var (a, b, c) = to.Mesh.Triangle(hint);
        var (point, feature) = NearestPoint.OnTriangle(p, a, b, c);
        var distance = Vec3.Distance(p, point);
        if (to.Nearest(p, distance, out leaf) is not { } nearest) return new(hint, feature, point, distance);
        hint = nearest.Triangle;
        return nearest;
    }

    [InlineArray(Capacity)]
    private struct Corners
    {
        public const int Capacity = 16;
        private Vec3 _first;
    }

    /// <summary>A convex piece of a triangle.</summary>
    private struct Piece
    {
        public Corners Corners;
        public int Count;

        public void Add(Vec3 p) => Corners[Count++] = p;
    }

    /// <summary>Goes through some leaves of the first surface, one after the other.</summary>
    private sealed class Block(TriangleTree to, SurfaceDeviation sampled, double errorBound, CancellationToken cancel)
    {
        // Leaves of the other surface that had a nearest triangle lately, in a ring: the next pieces often lie along one of their triangles.
        private readonly int[] _recent = new int[Recent];
        private int _at;
        private int _hint;
        private int _queriesLeft = QueriesPerBlock;

        /// <summary>The largest deviation seen, at first that of the samples.</summary>
        public SurfaceDeviation Best { get; private set; } = sampled;

        /// <summary>No point that was covered deviates by more.</summary>
        public double Most { get; private set; }

        public void Cover(TriangleTree from, int firstLeaf, int endLeaf)
        {
            for (var leaf = firstLeaf; leaf < endLeaf; leaf++)
            {
                if ((leaf & 63) == 0) cancel.ThrowIfCancellationRequested();
                for (var lane = 0; lane < TriangleTree.LeafSize; lane++)
                {
                    var triangle = from.TriangleAt(leaf, lane);
                    if (triangle < 0) break;
                    var (a, b, c) = from.Mesh.Triangle(triangle);
                    var piece = default(Piece);
                    piece.Add(a);
                    piece.Add(b);
                    piece.Add(c);
                    Cover(piece, 0);
                }
            }
        }

        private bool Passes(double bound)
        {
            if (bound > Best.Largest + errorBound) return false;
            Most = Math.Max(Most, bound);
            return true;
        }

        /// <summary>True when a triangle of a leaf that was met lately is near enough to the whole piece.</summary>
        private bool PassesAlongRecent(in Piece piece)
        {
            for (var i = 0; i < Recent; i++)
            {
                if (PassesAlong(piece, _recent[(_at - i) & (Recent - 1)])) return true;
            }

            return false;
        }

        private bool PassesAlong(in Piece piece, int leaf)
        {
            var limit = Best.Largest + errorBound;
            var most = Vector256.Create(limit * limit);
            var largest = Vector256<double>.Zero;
            var near = Vector256<double>.AllBitsSet;
            for (var i = 0; i < piece.Count; i++)
            {
                var squared = to.SquaredDistancesToLeaf(piece.Corners[i], leaf);
                near &= Vector256.LessThanOrEqual(squared, most);
                if (near == Vector256<double>.Zero) return false;
                largest = Vector256.MaxNative(largest, squared);
            }

            var least = double.PositiveInfinity;
            for (var lane = 0; lane < TriangleTree.LeafSize; lane++)
            {
                if (near.AsInt64()[lane] != 0) least = Math.Min(least, largest[lane]);
            }

            Most = Math.Max(Most, Math.Sqrt(least));
            return true;
        }

        private double LargestTo(in Piece piece, int triangle)
        {
            var (a, b, c) = to.Mesh.Triangle(triangle);
            var largest = 0.0;
            for (var i = 0; i < piece.Count; i++)
            {
                largest = Math.Max(largest, (piece.Corners[i] - NearestPoint.OnTriangle(piece.Corners[i], a, b, c).Point).LengthSquared);
            }

            return Math.Sqrt(largest);
        }

        private void Cover(in Piece piece, int depth)
        {
            if (PassesAlongRecent(piece)) return;
            var middle = Vec3.Zero;
            for (var i = 0; i < piece.Count; i++) middle += piece.Corners[i];
            middle /= piece.Count;
            var radius = 0.0;
            for (var i = 0; i < piece.Count; i++) radius = Math.Max(radius, (piece.Corners[i] - middle).LengthSquared);
            radius = Math.Sqrt(radius);

            _queriesLeft--;
            var nearest = Near(to, middle, ref _hint, out var leaf);
            if (leaf >= 0 && _recent[_at] != leaf) _recent[_at = (_at + 1) & (Recent - 1)] = leaf;
            if (nearest.Distance > Best.Largest) Best = Best with { Largest = nearest.Distance, At = middle, To = nearest.Point };
            var bound = Math.Min(nearest.Distance + radius, LargestTo(piece, nearest.Triangle));
            if (Passes(bound)) return;
            if (_queriesLeft <= 0 || depth > 200)
            {
                Most = Math.Max(Most, bound);
                return;
            }

            // Every fourth cut is a halving: prisms may pare off sliver after sliver where the nearest triangles are far away.
            if (depth % 4 == 3 || piece.Count > Corners.Capacity - 4 || !CutAlongPrism(piece, nearest.Triangle, depth)) Halve(piece, middle, depth);
        }

        /// <summary>Covers the parts of the piece outside the prism over a triangle, and the part inside; false when the prism does not cut it.</summary>
        private bool CutAlongPrism(in Piece piece, int triangle, int depth)
        {
            var (a, b, c) = to.Mesh.Triangle(triangle);
            var normal = Vec3.Cross(b - a, c - a);
            var rest = piece;
            var cut = false;
            for (var side = 0; side < 3; side++)
            {
                var outward = Vec3.Cross(b - a, normal).Normalized();
                if (outward == Vec3.Zero) return cut;

                // The prism is taken wider by a part of the error bound, so that rounding leaves no slivers to go after.
                var reach = Vec3.Dot(outward, a) + (errorBound / 4);
                var inside = default(Piece);
                var outside = default(Piece);
                Cut(rest, outward, reach, ref inside, ref outside);
                if (inside.Count < 3)
                {
                    if (!cut) return false;
                    break;
                }

                if (outside.Count >= 3)
                {
                    cut = true;
                    Cover(outside, depth + 1);
                }

                rest = inside;
                (a, b, c) = (b, c, a);
            }

            if (!cut) return false;
            if (!Passes(LargestTo(rest, triangle))) Cover(rest, depth + 1);
            return true;
        }

        private static void Cut(in Piece piece, Vec3 normal, double reach, ref Piece inside, ref Piece outside)
        {
            var previous = piece.Corners[piece.Count - 1];
            var before = Vec3.Dot(normal, previous) - reach;
            for (var i = 0; i < piece.Count; i++)
            {
                var corner = piece.Corners[i];
                var here = Vec3.Dot(normal, corner) - reach;
                if ((before < 0 && here > 0) || (before > 0 && here < 0))
                {
                    var crossing = previous + ((corner - previous) * (before / (before - here)));
                    inside.Add(crossing);
                    outside.Add(crossing);
                }

                if (here <= 0) inside.Add(corner);
                if (here >= 0) outside.Add(corner);
                (previous, before) = (corner, here);
            }
        }

        /// <summary>Covers the two halves across the longest line from the middle.</summary>
        private void Halve(in Piece piece, Vec3 middle, int depth)
        {
            var (longest, along) = (0.0, Vec3.UnitX);
            for (var i = 0; i < piece.Count; i++)
            {
                var v = piece.Corners[i] - middle;
                if (v.LengthSquared > longest) (longest, along) = (v.LengthSquared, v);
            }

            var inside = default(Piece);
            var outside = default(Piece);
            Cut(piece, along, Vec3.Dot(along, middle), ref inside, ref outside);
            if (inside.Count > 0) Cover(inside, depth + 1);
            if (outside.Count > 0) Cover(outside, depth + 1);
        }
    }
}
