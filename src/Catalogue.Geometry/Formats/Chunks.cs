namespace Catalogue.Geometry.Formats;

/// <summary>A sequence that grows without copying what it holds; one array at the end.</summary>
internal sealed class Chunks<T>
{
    private const int Size = 1 << 14;

    private readonly List<T[]> _full = [];
    private T[] _last = new T[Size];
    private int _used;

    public int Count => (_full.Count * Size) + _used;

    public T this[int index] => index / Size < _full.Count ? _full[index / Size][index % Size] : _last[index % Size];

    public void Add(T value)
    {
        if (_used == Size)
        {
            _full.Add(_last);
            _last = new T[Size];
            _used = 0;
        }

        _last[_used++] = value;
    }

    public T[] ToArray()
    {
        var all = GC.AllocateUninitializedArray<T>(Count);
        for (var i = 0; i < _full.Count; i++) _full[i].CopyTo(all, i * Size);
        _last.AsSpan(0, _used).CopyTo(all.AsSpan(_full.Count * Size));
        return all;
    }
}
