namespace Catalogue.Geometry.Simplify;

/// <summary>An edge that could be collapsed, as it was when it was put in: it counts only while both ends still have those ages.</summary>
internal readonly record struct Collapse(float Cost, int From, int To, int FromAge, int ToAge);

/// <summary>Collapses by cost, the least first: a binary heap in one array. Equal costs come in the order of their vertices, so the result never depends on chance.</summary>
internal sealed class CollapseQueue(int expected)
{
    private Collapse[] _heap = new Collapse[Math.Max(16, expected)];

    public int Count { get; private set; }

    public void Add(in Collapse collapse)
    {
        if (Count == _heap.Length) Array.Resize(ref _heap, 2 * Count);
        var at = Count++;
        while (at > 0 && (at - 1) / 2 is var parent && Before(collapse, _heap[parent]))
        {
            _heap[at] = _heap[parent];
            at = parent;
        }

        _heap[at] = collapse;
    }

    public Collapse Take()
    {
        var least = _heap[0];
        var last = _heap[--Count];
        var at = 0;
        while ((2 * at) + 1 is var child && child < Count)
        {
            if (child + 1 < Count && Before(_heap[child + 1], _heap[child])) child++;
            if (!Before(_heap[child], last)) break;
            _heap[at] = _heap[child];
            at = child;
        }

        _heap[at] = last;
        return least;
    }

    private static bool Before(in Collapse a, in Collapse b) =>
        a.Cost != b.Cost ? a.Cost < b.Cost : a.From != b.From ? a.From < b.From : a.To < b.To;
}
