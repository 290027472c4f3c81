namespace Catalogue.Demo.Contouring;

/// <summary>
/// A hash table from packed grid coordinates to values, open addressing with linear probing. Neighbouring coordinates differ in few bits, which
/// the hash of a plain 64-bit integer folds onto each other; multiplying by 2⁶⁴/φ first (Fibonacci hashing) spreads them.
/// </summary>
/// <remarks>Keys are not negative. Not safe for concurrent writers.</remarks>
internal sealed class GridTable<T>
{
    private long[] _keys;
    private T[] _values;
    private int _shift;

    public GridTable(int capacityLog2 = 12)
    {
        _keys = new long[1 << capacityLog2];
        _values = new T[1 << capacityLog2];
        _shift = 64 - capacityLog2;
    }

    public int Count { get; private set; }

    public bool Contains(long key) => _keys[Slot(key)] != 0;

    public bool TryGet(long key, out T value)
    {
        var slot = Slot(key);
        value = _values[slot];
        return _keys[slot] != 0;
    }

    /// <summary>False, and nothing changed, when the key was there.</summary>
    public bool TryAdd(long key, T value)
    {
        var slot = Slot(key);
        if (_keys[slot] != 0) return false;
        _keys[slot] = key + 1;
        _values[slot] = value;
        Count++;
        if (Count * 2 > _keys.Length) Grow();
        return true;
    }

    private int Slot(long key)
    {
        var slot = (int)((ulong)(key * unchecked((long)0x9E3779B97F4A7C15)) >> _shift);
        while (_keys[slot] != 0 && _keys[slot] != key + 1) slot = (slot + 1) & (_keys.Length - 1);
        return slot;
    }

    private void Grow()
    {
        var (keys, values) = (_keys, _values);
        _keys = new long[keys.Length * 2];
        _values = new T[keys.Length * 2];
        _shift--;
        for (var i = 0; i < keys.Length; i++)
        {
            if (keys[i] == 0) continue;
            var slot = Slot(keys[i] - 1);
            (_keys[slot], _values[slot]) = (keys[i], values[i]);
        }
    }
}
