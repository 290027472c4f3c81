using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Catalogue.Geometry.Spatial;

/// <summary>Told of every pair of triangles whose boxes touch.</summary>
public interface IPairVisitor
{
    /// <summary>True when this visitor wants to hear of no more pairs.</summary>
    bool Enough { get; }

    void Visit(int first, int second);
}

/// <summary>Pairs of triangles that come close: within one tree, or between two.</summary>
public sealed partial class TriangleTree
{
    private const int PairTasks = 256;

    /// <summary>Two subtrees, or a subtree or leaf (a complement) and another, with the boxes their parents keep of them.</summary>
    private readonly record struct Task(int First, int Second, Box FirstBox, Box SecondBox)
    {
        public bool Self => First == Second;
    }

    private readonly record struct Box(Vector128<float> Min, Vector128<float> Max)
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public bool Touches(in Box other) => Vector128.LessThanOrEqualAll(Min, other.Max) && Vector128.LessThanOrEqualAll(other.Min, Max);
    }

    /// <summary>
    /// Visits every unordered pair of different triangles whose boxes touch, once. The work is cut into pieces for all cores;
    /// each piece has a visitor of its own from <paramref name="start"/>, and all are returned in an order that is always the same.
    /// </summary>
    public TVisitor[] VisitTouchingPairs<TVisitor>(Func<TVisitor> start, IProgress<double>? progress = null, CancellationToken cancel = default)
        where TVisitor : struct, IPairVisitor
    {
        ArgumentNullException.ThrowIfNull(start);
        var tasks = new List<Task> { new(0, 0, Everywhere, Everywhere) };
        Expand(this, tasks, true);
        return Visit(this, tasks, start, true, progress, cancel);
    }

    /// <summary>Visits every pair (triangle of this tree, triangle of <paramref name="other"/>) whose boxes touch, once; see <see cref="VisitTouchingPairs{TVisitor}(Func{TVisitor}, IProgress{double}, CancellationToken)"/>.</summary>
    public TVisitor[] VisitTouchingPairs<TVisitor>(TriangleTree other, Func<TVisitor> start, CancellationToken cancel = default)
        where TVisitor : struct, IPairVisitor
    {
        ArgumentNullException.ThrowIfNull(other);
        ArgumentNullException.ThrowIfNull(start);
        var tasks = new List<Task> { new(0, 0, Everywhere, Everywhere) };
        Expand(other, tasks, false);
        return Visit(other, tasks, start, false, null, cancel);
    }

    private static Box Everywhere => new(Vector128.Create(float.NegativeInfinity), Vector128.Create(float.PositiveInfinity));

    private TVisitor[] Visit<TVisitor>(TriangleTree other, List<Task> tasks, Func<TVisitor> start, bool self, IProgress<double>? progress, CancellationToken cancel)
        where TVisitor : struct, IPairVisitor
    {
        var visitors = new TVisitor[tasks.Count];
        for (var i = 0; i < visitors.Length; i++) visitors[i] = start();
        var (next, done) = (-1, 0);
        Fork.Join(() =>
        {
            for (int i; (i = Interlocked.Increment(ref next)) < visitors.Length;)
            {
                cancel.ThrowIfCancellationRequested();
                var visitor = visitors[i];
                Descend(other, tasks[i], self, ref visitor);
                visitors[i] = visitor;
                progress?.Report(Interlocked.Increment(ref done) / (double)visitors.Length);
            }
        });
        return visitors;
    }

    /// <summary>Replaces tasks by their parts until there are enough to share out.</summary>
    private void Expand(TriangleTree other, List<Task> tasks, bool self)
    {
        while (tasks.Count < PairTasks)
        {
            var parts = new List<Task>();
            foreach (var task in tasks)
            {
                if (task.First < 0 && task.Second < 0) parts.Add(task);
                else Parts(other, task, self, parts);
            }

            var same = parts.Count == tasks.Count && parts.SequenceEqual(tasks);
            tasks.Clear();
            tasks.AddRange(parts);
            if (same || tasks.Count == 0) return;
        }
    }

    private void Parts(TriangleTree other, in Task task, bool self, List<Task> parts)
    {
        if (self && task.Self)
        {
            for (var i = 0; i < Wide; i++)
            {
                var first = Child(ref Nodes, task.First, i);
                if (first == int.MinValue) continue;
                var box = ChildBox(ref Nodes, task.First, i);
                parts.Add(new(first, first, box, box));
                for (var j = i + 1; j < Wide; j++)
                {
                    var second = Child(ref Nodes, task.First, j);
                    var secondBox = ChildBox(ref Nodes, task.First, j);
                    if (second != int.MinValue && box.Touches(secondBox)) parts.Add(new(first, second, box, secondBox));
                }
            }

            return;
        }

        var takeFirst = task.First >= 0;
        for (var i = 0; i < Wide; i++)
        {
            ref var nodes = ref takeFirst ? ref Nodes : ref other.Nodes;
            var parent = takeFirst ? task.First : task.Second;
            var child = Child(ref nodes, parent, i);
            if (child == int.MinValue) continue;
            var box = ChildBox(ref nodes, parent, i);
            if (!box.Touches(takeFirst ? task.SecondBox : task.FirstBox)) continue;
            parts.Add(takeFirst ? new(child, task.Second, box, task.SecondBox) : new(task.First, child, task.FirstBox, box));
        }
    }

    private void Descend<TVisitor>(TriangleTree other, in Task task, bool self, ref TVisitor visitor)
        where TVisitor : struct, IPairVisitor
    {
        if (self && task.Self) WithItself(task.First, ref visitor);
        else WithOther(other, task.First, task.Second, task.FirstBox, task.SecondBox, ref visitor);
    }

    private void WithItself<TVisitor>(int node, ref TVisitor visitor)
        where TVisitor : struct, IPairVisitor
    {
        if (visitor.Enough) return;
        if (node < 0)
        {
            LeafWithItself(~node, ref visitor);
            return;
        }

        ref var nodes = ref Nodes;
        for (var i = 0; i < Wide; i++)
        {
            var child = Child(ref nodes, node, i);
            if (child == int.MinValue) return;
            WithItself(child, ref visitor);
            var box = ChildBox(ref nodes, node, i);
            var bits = Touching(ref nodes, node, box) & (~1u << i);
            for (; bits != 0; bits &= bits - 1)
            {
                var j = BitOperations.TrailingZeroCount(bits);
                WithOther(this, child, Child(ref nodes, node, j), box, ChildBox(ref nodes, node, j), ref visitor);
            }
        }
    }

    private void WithOther<TVisitor>(TriangleTree other, int first, int second, in Box firstBox, in Box secondBox, ref TVisitor visitor)
        where TVisitor : struct, IPairVisitor
    {
        if (visitor.Enough) return;
        if (first < 0 && second < 0)
        {
            LeafWithLeaf(ref Leaves, ~first, ref other.Leaves, ~second, firstBox, secondBox, ref visitor);
            return;
        }

        // The larger of two inner nodes is opened: the pairs stay of like size.
        var openFirst = first >= 0 && (second < 0 || Largest(firstBox) >= Largest(secondBox));
        ref var nodes = ref openFirst ? ref Nodes : ref other.Nodes;
        var node = openFirst ? first : second;
        for (var bits = Touching(ref nodes, node, openFirst ? secondBox : firstBox); bits != 0; bits &= bits - 1)
        {
            var i = BitOperations.TrailingZeroCount(bits);
            var child = Child(ref nodes, node, i);
            var box = ChildBox(ref nodes, node, i);
            if (openFirst) WithOther(other, child, second, box, secondBox, ref visitor);
            else WithOther(other, first, child, firstBox, box, ref visitor);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static float Largest(in Box box)
    {
        var d = box.Max - box.Min;
        return MathF.Max(d[0], MathF.Max(d[1], d[2]));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Box ChildBox(ref float nodes, int node, int slot)
    {
        ref var n = ref Unsafe.Add(ref nodes, (node * NodeWords) + slot);
        return new(
            Vector128.Create(n, Unsafe.Add(ref n, 16), Unsafe.Add(ref n, 32), 0),
            Vector128.Create(Unsafe.Add(ref n, 8), Unsafe.Add(ref n, 24), Unsafe.Add(ref n, 40), 0));
    }

    /// <summary>Bits of the children whose box touches another.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint Touching(ref float nodes, int node, in Box box)
    {
        ref var n = ref Unsafe.Add(ref nodes, node * NodeWords);
        var touching = Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref n, 0), Vector256.Create(box.Max[0]))
            & Vector256.GreaterThanOrEqual(Vector256.LoadUnsafe(ref n, 8), Vector256.Create(box.Min[0]))
            & Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref n, 16), Vector256.Create(box.Max[1]))
            & Vector256.GreaterThanOrEqual(Vector256.LoadUnsafe(ref n, 24), Vector256.Create(box.Min[1]))
            & Vector256.LessThanOrEqual(Vector256.LoadUnsafe(ref n, 32), Vector256.Create(box.Max[2]))
            & Vector256.GreaterThanOrEqual(Vector256.LoadUnsafe(ref n, 40), Vector256.Create(box.Min[2]));
        return touching.ExtractMostSignificantBits();
    }

    private void LeafWithItself<TVisitor>(int leaf, ref TVisitor visitor)
        where TVisitor : struct, IPairVisitor
    {
        ref var l = ref Unsafe.Add(ref Leaves, leaf * LeafWords);
        for (var i = 0; i < LeafSize - 1; i++)
        {
            var number = Unsafe.As<float, int>(ref Unsafe.Add(ref l, NumberWord + i));
            if (number < 0) return;
            var bits = TouchingLanes(ref l, TriangleBox(ref l, i)) & (~1u << i);
            for (; bits != 0; bits &= bits - 1)
            {
                visitor.Visit(number, Unsafe.As<float, int>(ref Unsafe.Add(ref l, NumberWord + BitOperations.TrailingZeroCount(bits))));
            }
        }
    }

    private static void LeafWithLeaf<TVisitor>(
        ref float leaves, int first, ref float otherLeaves, int second, in Box firstBox, in Box secondBox, ref TVisitor visitor)
        where TVisitor : struct, IPairVisitor
    {
        ref var a = ref Unsafe.Add(ref leaves, first * LeafWords);
        ref var b = ref Unsafe.Add(ref otherLeaves, second * LeafWords);
        var near = TouchingLanes(ref a, secondBox);
        if (near == 0) return;
        var (minX, maxX) = Extremes(ref b, 0);
        var (minY, maxY) = Extremes(ref b, 4);
        var (minZ, maxZ) = Extremes(ref b, 8);
        for (; near != 0; near &= near - 1)
        {
            var i = BitOperations.TrailingZeroCount(near);
            var box = TriangleBox(ref a, i);
            var touching = Vector128.LessThanOrEqual(minX, Vector128.Create(box.Max[0])) & Vector128.GreaterThanOrEqual(maxX, Vector128.Create(box.Min[0]))
                & Vector128.LessThanOrEqual(minY, Vector128.Create(box.Max[1])) & Vector128.GreaterThanOrEqual(maxY, Vector128.Create(box.Min[1]))
                & Vector128.LessThanOrEqual(minZ, Vector128.Create(box.Max[2])) & Vector128.GreaterThanOrEqual(maxZ, Vector128.Create(box.Min[2]));
            for (var bits = touching.ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
            {
                visitor.Visit(
                    Unsafe.As<float, int>(ref Unsafe.Add(ref a, NumberWord + i)),
                    Unsafe.As<float, int>(ref Unsafe.Add(ref b, NumberWord + BitOperations.TrailingZeroCount(bits))));
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector128<float> Min, Vector128<float> Max) Extremes(ref float leaf, nuint word)
    {
        var (a, b, c) = (Vector128.LoadUnsafe(ref leaf, word), Vector128.LoadUnsafe(ref leaf, word + 12), Vector128.LoadUnsafe(ref leaf, word + 24));
        return (Vector128.MinNative(Vector128.MinNative(a, b), c), Vector128.MaxNative(Vector128.MaxNative(a, b), c));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static uint TouchingLanes(ref float leaf, in Box box)
    {
        var (minX, maxX) = Extremes(ref leaf, 0);
        var (minY, maxY) = Extremes(ref leaf, 4);
        var (minZ, maxZ) = Extremes(ref leaf, 8);
        var touching = Vector128.LessThanOrEqual(minX, Vector128.Create(box.Max[0])) & Vector128.GreaterThanOrEqual(maxX, Vector128.Create(box.Min[0]))
            & Vector128.LessThanOrEqual(minY, Vector128.Create(box.Max[1])) & Vector128.GreaterThanOrEqual(maxY, Vector128.Create(box.Min[1]))
            & Vector128.LessThanOrEqual(minZ, Vector128.Create(box.Max[2])) & Vector128.GreaterThanOrEqual(maxZ, Vector128.Create(box.Min[2]));
        return touching.ExtractMostSignificantBits();
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Box TriangleBox(ref float leaf, int lane)
    {
        ref var l = ref Unsafe.Add(ref leaf, lane);
        var a = Vector128.Create(l, Unsafe.Add(ref l, 4), Unsafe.Add(ref l, 8), 0);
        var b = Vector128.Create(Unsafe.Add(ref l, 12), Unsafe.Add(ref l, 16), Unsafe.Add(ref l, 20), 0);
        var c = Vector128.Create(Unsafe.Add(ref l, 24), Unsafe.Add(ref l, 28), Unsafe.Add(ref l, 32), 0);
        return new(Vector128.MinNative(Vector128.MinNative(a, b), c), Vector128.MaxNative(Vector128.MaxNative(a, b), c));
    }
}
