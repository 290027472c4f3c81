using System.Buffers;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>Builds a <see cref="TriangleTree"/>: a node takes its widest child apart until it has eight, or only leaves.</summary>
/// <remarks>
/// The upper part is built first (large ranges are binned and partitioned in two halves side by side), then its subtrees on
/// all cores, each into its own buffer; the buffers are joined in a fixed order. A buffer holds nodes and the runs of references that are
/// leaves; the leaves themselves are written once, where they stay, when their number is known: fresh memory costs more than the work done in it. How a range is split depends on its content
/// and length only. Triangles in random order are taken in one that runs along the surface (<see cref="CoherentOrder"/>): near ones then mostly
/// go the same way at every split, and lie in the same cache lines, which is worth more than sorting them costs.
/// </remarks>
internal sealed class TriangleTreeBuilder(TriangleMesh mesh, CancellationToken cancel, int parallelAbove = 1 << 16)
{
    private const int BinCount = 16;
    private const float LargestCoordinate = 1e18f;

    // Set in the number of a reference, so that it is never a denormal or NaN when read as a float among the others.
    private const int NumberTag = 0x4000_0000;

    private Reference[] _references = [];
    private Reference[] _scratch = [];

    // In the order that references count them: the numbers of triangles, and their corners. Empty when that is the mesh's own.
    private int[] _numbers = [];
    private int[] _corners = [];
    private float _areaScale = 1;

    /// <summary>A triangle's box; the fourth number of <see cref="Min"/> is the tagged triangle number.</summary>
    private struct Reference
    {
        public Vector128<float> Min;
        public Vector128<float> Max;
    }

    /// <summary>A run of references with their box and the box of their (doubled) centres.</summary>
    private struct Range
    {
        public int Begin;
        public int End;
        public Vector128<float> Min;
        public Vector128<float> Max;
        public Vector128<float> CentreMin;
        public Vector128<float> CentreMax;

        public static Range None => new()
        {
            Min = Vector128.Create(float.PositiveInfinity),
            Max = Vector128.Create(float.NegativeInfinity),
            CentreMin = Vector128.Create(float.PositiveInfinity),
            CentreMax = Vector128.Create(float.NegativeInfinity),
        };

        public readonly int Count => End - Begin;

        public void Merge(in Range other)
        {
            Min = Vector128.MinNative(Min, other.Min);
            Max = Vector128.MaxNative(Max, other.Max);
            CentreMin = Vector128.MinNative(CentreMin, other.CentreMin);
            CentreMax = Vector128.MaxNative(CentreMax, other.CentreMax);
        }
    }

    [InlineArray(BinCount)]
    private struct BinVectors
    {
        private Vector128<float> _first;
    }

    [InlineArray(BinCount)]
    private struct BinCounts
    {
        private int _first;
    }

    private struct Bins
    {
        public BinVectors Min;
        public BinVectors Max;
        public BinCounts Count;

        public void Clear()
        {
            for (var i = 0; i < BinCount; i++)
            {
                Min[i] = Vector128.Create(float.PositiveInfinity);
                Max[i] = Vector128.Create(float.NegativeInfinity);
                Count[i] = 0;
            }
        }

        public void Merge(in Bins other)
        {
            for (var i = 0; i < BinCount; i++)
            {
                Min[i] = Vector128.MinNative(Min[i], other.Min[i]);
                Max[i] = Vector128.MaxNative(Max[i], other.Max[i]);
                Count[i] += other.Count[i];
            }
        }
    }

    private sealed class Buffer
    {
        public float[] Nodes = new float[TriangleTree.NodeWords * 16];
        public int[] LeafBegins = new int[64];
        public byte[] LeafCounts = new byte[64];
        public int NodeCount;
        public int LeafCount;

        public int NewNode()
        {
            if ((NodeCount + 1) * TriangleTree.NodeWords > Nodes.Length) Array.Resize(ref Nodes, Nodes.Length * 2);
            return NodeCount++;
        }

        public int NewLeaf(in Range range)
        {
            if (LeafCount == LeafBegins.Length)
            {
                Array.Resize(ref LeafBegins, LeafBegins.Length * 2);
                Array.Resize(ref LeafCounts, LeafCounts.Length * 2);
            }

            (LeafBegins[LeafCount], LeafCounts[LeafCount]) = (range.Begin, (byte)range.Count);
            return LeafCount++;
        }
    }

    private readonly record struct Deferred(Range Range, int Node, int Slot, int Depth);

    public TriangleTree Build()
    {
        try
        {
            return BuildAll();
        }
        finally
        {
            if (_references.Length > 0) ArrayPool<Reference>.Shared.Return(_references);
            if (_scratch.Length > 0) ArrayPool<Reference>.Shared.Return(_scratch);
            (_references, _scratch) = ([], []);
        }
    }

    private TriangleTree BuildAll()
    {
        var root = MakeReferences();
        _scratch = root.Count > parallelAbove ? ArrayPool<Reference>.Shared.Rent(root.Count) : [];
        var extent = root.Max - root.Min;
        var widest = root.Count == 0 ? 0 : Math.Max(extent[0], Math.Max(extent[1], extent[2]));
        _areaScale = widest > 0 ? 1 / widest : 1;

        var top = new Buffer();
        var deferred = new List<Deferred>();
        BuildNode(root, top, 0, root.Count > parallelAbove ? deferred : null, Math.Max(root.Count / 24, 1024));

        var parts = new Buffer[deferred.Count];
        var largestFirst = Enumerable.Range(0, deferred.Count).OrderByDescending(i => deferred[i].Range.Count).ThenBy(i => i).ToArray();
        var next = -1;
        void Work()
        {
            for (int k; (k = Interlocked.Increment(ref next)) < largestFirst.Length;)
            {
                cancel.ThrowIfCancellationRequested();
                var part = new Buffer();
                BuildNode(deferred[largestFirst[k]].Range, part, deferred[largestFirst[k]].Depth, null, 0);
                parts[largestFirst[k]] = part;
            }
        }

        if (deferred.Count > 0) Fork.Join(Work);
        return Join(top, deferred, parts);
    }

    private Range MakeReferences()
    {
        var count = mesh.TriangleCount;
        if (count >= NumberTag - 0x80_0000) throw new ArgumentException("The mesh has too many triangles for one tree.");
        _references = ArrayPool<Reference>.Shared.Rent(count);
        if (count <= parallelAbove) return Fill(0, count);
        if (CoherentOrder.Pays(mesh)) TakeInOrder();
        var (left, right) = (Range.None, Range.None);
        Fork.Both(() => left = Fill(0, count / 2), () => right = Fill(count / 2, count));
        left.Merge(right);
        left.End = count;
        return left;
    }

    private void TakeInOrder()
    {
        _numbers = CoherentOrder.Numbers(mesh);
        cancel.ThrowIfCancellationRequested();
        _corners = GC.AllocateUninitializedArray<int>(3 * _numbers.Length);
        var half = _numbers.Length / 2;
        Fork.Both(() => Copy(0, half), () => Copy(half, _numbers.Length));

        void Copy(int begin, int end)
        {
            var indices = mesh.Indices;
            for (var i = begin; i < end; i++)
            {
                var from = 3 * _numbers[i];
                (_corners[3 * i], _corners[(3 * i) + 1], _corners[(3 * i) + 2]) = (indices[from], indices[from + 1], indices[from + 2]);
            }
        }
    }

    private ReadOnlySpan<int> Corners => _corners.Length > 0 ? _corners : mesh.Indices;

    private Range Fill(int begin, int end)
    {
        var vertices = mesh.Vertices;
        var indices = Corners;
        var range = Range.None;
        (range.Begin, range.End) = (begin, end);
        for (var i = begin; i < end; i++)
        {
            var a = vertices[indices[3 * i]].AsVector128();
            var b = vertices[indices[(3 * i) + 1]].AsVector128();
            var c = vertices[indices[(3 * i) + 2]].AsVector128();
            var min = Vector128.MinNative(Vector128.MinNative(a, b), c);
            var max = Vector128.MaxNative(Vector128.MaxNative(a, b), c);
            range.Min = Vector128.MinNative(range.Min, min);
            range.Max = Vector128.MaxNative(range.Max, max);
            var centre = min + max;
            range.CentreMin = Vector128.MinNative(range.CentreMin, centre);
            range.CentreMax = Vector128.MaxNative(range.CentreMax, centre);
            // A NaN or too large number anywhere fails this, in whichever corner it is.
            var size = Vector128.MaxNative(Vector128.Abs(a), Vector128.MaxNative(Vector128.Abs(b), Vector128.Abs(c)));
            if (!Vector128.LessThanOrEqualAll(size, Vector128.Create(LargestCoordinate)) || !Vector128.EqualsAll(a + b + c, a + b + c))
            {
                throw new ArgumentException($"Triangle {(_numbers.Length > 0 ? _numbers[i] : i)} has a coordinate that is not finite or beyond 10^18; nothing can be measured on it.");
            }

            _references[i].Min = min.AsInt32().WithElement(3, i | NumberTag).AsSingle();
            _references[i].Max = max;
        }

        return range;
    }

    private int BuildNode(in Range range, Buffer into, int depth, List<Deferred>? deferred, int deferBelow)
    {
        Span<Range> children = stackalloc Range[TriangleTree.Wide];
        children[0] = range;
        var count = range.Count == 0 ? 0 : 1;
        while (count is > 0 and < TriangleTree.Wide)
        {
            var (widest, area) = (-1, -1f);
            for (var i = 0; i < count; i++)
            {
                if (children[i].Count <= TriangleTree.LeafSize) continue;
                var a = HalfArea(children[i].Min, children[i].Max);
                if (a > area) (widest, area) = (i, a);
            }

            if (widest < 0) break;
            if (children[widest].Count > parallelAbove) cancel.ThrowIfCancellationRequested();
            var whole = children[widest];
            Split(whole, depth, out children[widest], out children[count++]);
        }

        var node = into.NewNode();
        for (var i = 0; i < TriangleTree.Wide; i++)
        {
            var box = i < count ? children[i] : Range.None;
            var words = into.Nodes.AsSpan((node * TriangleTree.NodeWords) + i);
            for (var axis = 0; axis < 3; axis++)
            {
                words[16 * axis] = box.Min[axis];
                words[(16 * axis) + 8] = box.Max[axis];
            }

            SetChild(into.Nodes, node, i, int.MinValue);
        }

        for (var i = 0; i < count; i++)
        {
            if (children[i].Count <= TriangleTree.LeafSize) SetChild(into.Nodes, node, i, ~into.NewLeaf(children[i]));
            else if (deferred != null && children[i].Count <= deferBelow) deferred.Add(new(children[i], node, i, depth + 1));
            else
            {
                var child = BuildNode(children[i], into, depth + 1, deferred, deferBelow);
                SetChild(into.Nodes, node, i, child);
            }
        }

        return node;
    }

    private static void SetChild(float[] nodes, int node, int slot, int child) =>
        nodes[(node * TriangleTree.NodeWords) + TriangleTree.ChildWord + slot] = BitConverter.Int32BitsToSingle(child);

    private void WriteLeaf(int begin, int count, Span<float> words)
    {
        var indices = Corners;
        var positions = mesh.Positions;
        for (var lane = 0; lane < TriangleTree.LeafSize; lane++)
        {
            if (lane >= count)
            {
                for (var word = 0; word < TriangleTree.NumberWord; word += TriangleTree.LeafSize) words[word + lane] = float.NaN;
                words[TriangleTree.NumberWord + lane] = BitConverter.Int32BitsToSingle(-1);
                continue;
            }

            var triangle = _references[begin + lane].Min.AsInt32()[3] & ~NumberTag;
            for (var corner = 0; corner < 3; corner++)
            {
                var p = positions.Slice(3 * indices[(3 * triangle) + corner], 3);
                words[(12 * corner) + lane] = p[0];
                words[(12 * corner) + 4 + lane] = p[1];
                words[(12 * corner) + 8 + lane] = p[2];
            }

            words[TriangleTree.NumberWord + lane] = BitConverter.Int32BitsToSingle(_numbers.Length > 0 ? _numbers[triangle] : triangle);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private float HalfArea(Vector128<float> min, Vector128<float> max)
    {
        var d = (max - min) * _areaScale;
        var turned = Vector128.Shuffle(d, Vector128.Create(1, 2, 0, 3));
        var products = d * turned;
        return products[0] + products[1] + products[2];
    }

    /// <summary>Cuts a range of more than four where the heuristic says, or in half by count when the centres cannot be told apart.</summary>
    private void Split(in Range range, int depth, out Range left, out Range right)
    {
        var extent = range.CentreMax - range.CentreMin;
        var axis = extent[0] >= extent[1] ? (extent[0] >= extent[2] ? 0 : 2) : (extent[1] >= extent[2] ? 1 : 2);
        var low = range.CentreMin[axis];
        var scale = (BinCount - 1e-3f) / extent[axis];
        if (!(extent[axis] > 0) || !float.IsFinite(scale) || depth > TriangleTree.MaxDepth / 2)
        {
            Halve(range, out left, out right);
            return;
        }

        var bins = default(Bins);
        var middle = range.Begin + (range.Count / 2);
        if (range.Count > parallelAbove)
        {
            var whole = range;
            var other = default(Bins);
            Fork.Both(() => FillBins(whole.Begin, middle, axis, low, scale, ref bins), () => FillBins(middle, whole.End, axis, low, scale, ref other));
            bins.Merge(other);
        }
        else
        {
            FillBins(range.Begin, range.End, axis, low, scale, ref bins);
        }

        // From the right: cost of the right side for every cut; then from the left, keeping the cheapest.
        Span<float> rightCost = stackalloc float[BinCount];
        var (min, max, count) = (Vector128.Create(float.PositiveInfinity), Vector128.Create(float.NegativeInfinity), 0);
        for (var i = BinCount - 1; i > 0; i--)
        {
            min = Vector128.MinNative(min, bins.Min[i]);
            max = Vector128.MaxNative(max, bins.Max[i]);
            count += bins.Count[i];
            rightCost[i] = count == 0 ? float.PositiveInfinity : HalfArea(min, max) * ((count + 3) >> 2);
        }

        (min, max, count) = (Vector128.Create(float.PositiveInfinity), Vector128.Create(float.NegativeInfinity), 0);
        var (cut, best, leftCount) = (-1, float.PositiveInfinity, 0);
        for (var i = 1; i < BinCount; i++)
        {
            min = Vector128.MinNative(min, bins.Min[i - 1]);
            max = Vector128.MaxNative(max, bins.Max[i - 1]);
            count += bins.Count[i - 1];
            if (count == 0) continue;
            var cost = (HalfArea(min, max) * ((count + 3) >> 2)) + rightCost[i];
            if (cost < best) (cut, best, leftCount) = (i, cost, count);
        }

        if (cut < 0)
        {
            Halve(range, out left, out right);
            return;
        }

        left = right = Range.None;
        if (range.Count > parallelAbove) PartitionApart(range, axis, low, scale, cut, leftCount, ref left, ref right);
        else Partition(range, axis, low, scale, cut, ref left, ref right);
        (left.Begin, left.End, right.Begin, right.End) = (range.Begin, range.Begin + leftCount, range.Begin + leftCount, range.End);
        for (var i = 0; i < BinCount; i++)
        {
            ref var side = ref i < cut ? ref left : ref right;
            side.Min = Vector128.MinNative(side.Min, bins.Min[i]);
            side.Max = Vector128.MaxNative(side.Max, bins.Max[i]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Centre(ref Reference reference, int axis) =>
        Unsafe.Add(ref Unsafe.As<Vector128<float>, float>(ref reference.Min), axis) +
        Unsafe.Add(ref Unsafe.As<Vector128<float>, float>(ref reference.Max), axis);

    private void FillBins(int begin, int end, int axis, float low, float scale, ref Bins bins)
    {
        bins.Clear();
        ref var r = ref MemoryMarshal.GetArrayDataReference(_references);
        ref var min = ref bins.Min[0];
        ref var max = ref bins.Max[0];
        ref var counts = ref bins.Count[0];
        for (var i = begin; i < end; i++)
        {
            ref var item = ref Unsafe.Add(ref r, i);
            var bin = Math.Min((int)((Centre(ref item, axis) - low) * scale), BinCount - 1);
            ref var binMin = ref Unsafe.Add(ref min, bin);
            ref var binMax = ref Unsafe.Add(ref max, bin);
            binMin = Vector128.MinNative(binMin, item.Min);
            binMax = Vector128.MaxNative(binMax, item.Max);
            Unsafe.Add(ref counts, bin)++;
        }
    }

    private void Partition(in Range range, int axis, float low, float scale, int cut, ref Range left, ref Range right)
    {
        ref var r = ref MemoryMarshal.GetArrayDataReference(_references);
        var (i, j) = (range.Begin, range.End - 1);
        var (leftMin, leftMax, rightMin, rightMax) = (left.CentreMin, left.CentreMax, right.CentreMin, right.CentreMax);
        while (true)
        {
            while (i <= j && IsLeft(ref Unsafe.Add(ref r, i), axis, low, scale, cut))
            {
                var centre = Unsafe.Add(ref r, i).Min + Unsafe.Add(ref r, i).Max;
                leftMin = Vector128.MinNative(leftMin, centre);
                leftMax = Vector128.MaxNative(leftMax, centre);
                i++;
            }

            while (i <= j && !IsLeft(ref Unsafe.Add(ref r, j), axis, low, scale, cut))
            {
                var centre = Unsafe.Add(ref r, j).Min + Unsafe.Add(ref r, j).Max;
                rightMin = Vector128.MinNative(rightMin, centre);
                rightMax = Vector128.MaxNative(rightMax, centre);
                j--;
            }

            if (i >= j) break;
            (Unsafe.Add(ref r, i), Unsafe.Add(ref r, j)) = (Unsafe.Add(ref r, j), Unsafe.Add(ref r, i));
        }

        (left.CentreMin, left.CentreMax, right.CentreMin, right.CentreMax) = (leftMin, leftMax, rightMin, rightMax);
    }

    /// <summary>The same for a large range: both halves are distributed side by side into the scratch array and copied back.</summary>
    private void PartitionApart(in Range range, int axis, float low, float scale, int cut, int leftCount, ref Range left, ref Range right)
    {
        var middle = range.Begin + (range.Count / 2);
        var (begin, end) = (range.Begin, range.End);
        var firstLeft = 0;
        for (var i = begin; i < middle; i++) firstLeft += IsLeft(ref _references[i], axis, low, scale, cut) ? 1 : 0;
        var (l0, r0, l1, r1) = (Range.None, Range.None, Range.None, Range.None);
        Fork.Both(
            () => Distribute(begin, middle, begin, begin + leftCount, ref l0, ref r0),
            () => Distribute(middle, end, begin + firstLeft, begin + leftCount + (middle - begin - firstLeft), ref l1, ref r1));
        Fork.Both(
            () => Array.Copy(_scratch, begin, _references, begin, middle - begin),
            () => Array.Copy(_scratch, middle, _references, middle, end - middle));
        left.Merge(l0);
        left.Merge(l1);
        right.Merge(r0);
        right.Merge(r1);

        void Distribute(int from, int to, int leftAt, int rightAt, ref Range l, ref Range r)
        {
            for (var i = from; i < to; i++)
            {
                ref var item = ref _references[i];
                var centre = item.Min + item.Max;
                if (IsLeft(ref item, axis, low, scale, cut))
                {
                    _scratch[leftAt++] = item;
                    l.CentreMin = Vector128.MinNative(l.CentreMin, centre);
                    l.CentreMax = Vector128.MaxNative(l.CentreMax, centre);
                }
                else
                {
                    _scratch[rightAt++] = item;
                    r.CentreMin = Vector128.MinNative(r.CentreMin, centre);
                    r.CentreMax = Vector128.MaxNative(r.CentreMax, centre);
                }
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool IsLeft(ref Reference item, int axis, float low, float scale, int cut) =>
        Math.Min((int)((Centre(ref item, axis) - low) * scale), BinCount - 1) < cut;

    private void Halve(in Range range, out Range left, out Range right)
    {
        var middle = range.Begin + (range.Count / 2);
        left = Measured(range.Begin, middle);
        right = Measured(middle, range.End);

        Range Measured(int begin, int end)
        {
            var r = Range.None;
            (r.Begin, r.End) = (begin, end);
            for (var i = begin; i < end; i++)
            {
                ref var item = ref _references[i];
                var centre = item.Min + item.Max;
                r.Merge(new Range { Min = item.Min, Max = item.Max, CentreMin = centre, CentreMax = centre });
            }

            return r;
        }
    }

    private TriangleTree Join(Buffer top, List<Deferred> deferred, Buffer[] parts)
    {
        var nodes = top.NodeCount + parts.Sum(p => p.NodeCount);
        var leaves = top.LeafCount + parts.Sum(p => p.LeafCount);
        var nodeMemory = Aligned((long)nodes * TriangleTree.NodeWords);
        var leafMemory = Aligned((long)leaves * TriangleTree.LeafWords);
        var places = new (int Node, int Leaf)[parts.Length];
        var (nodeAt, leafAt) = (top.NodeCount, top.LeafCount);
        for (var k = 0; k < parts.Length; k++)
        {
            SetChild(top.Nodes, deferred[k].Node, deferred[k].Slot, nodeAt);
            places[k] = (nodeAt, leafAt);
            nodeAt += parts[k].NodeCount;
            leafAt += parts[k].LeafCount;
        }

        Place(top, 0, 0);
        var next = -1;
        void Work()
        {
            for (int k; (k = Interlocked.Increment(ref next)) < parts.Length;)
            {
                cancel.ThrowIfCancellationRequested();
                Place(parts[k], places[k].Node, places[k].Leaf);
            }
        }

        if (parts.Length > 0) Fork.Join(Work);
        return new(mesh, nodeMemory, nodes, leafMemory, leaves);

        void Place(Buffer part, int nodeShift, int leafShift)
        {
            for (var i = 0; i < part.NodeCount && (nodeShift | leafShift) != 0; i++)
            {
                var children = MemoryMarshal.Cast<float, int>(part.Nodes.AsSpan((i * TriangleTree.NodeWords) + TriangleTree.ChildWord, TriangleTree.Wide));
                foreach (ref var child in children)
                {
                    if (child >= 0) child += nodeShift;
                    else if (child != int.MinValue) child -= leafShift;
                }
            }

            part.Nodes.AsSpan(0, part.NodeCount * TriangleTree.NodeWords)
                .CopyTo(nodeMemory.Array.AsSpan(nodeMemory.Start + (nodeShift * TriangleTree.NodeWords)));
            var words = leafMemory.Array.AsSpan(leafMemory.Start + (leafShift * TriangleTree.LeafWords));
            for (var i = 0; i < part.LeafCount; i++)
            {
                WriteLeaf(part.LeafBegins[i], part.LeafCounts[i], words.Slice(i * TriangleTree.LeafWords, TriangleTree.LeafWords));
            }
        }
    }

    /// <summary>An array that stays where it is, and the place in it that begins a cache line.</summary>
    private static (float[] Array, int Start) Aligned(long words)
    {
        var array = GC.AllocateUninitializedArray<float>(checked((int)(words + 16)), pinned: true);
        var address = (long)Marshal.UnsafeAddrOfPinnedArrayElement(array, 0);
        return (array, (int)((64 - (address & 63)) & 63) / sizeof(float));
    }
}
