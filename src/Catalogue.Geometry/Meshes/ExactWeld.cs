using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace Catalogue.Geometry.Meshes;

/// <summary>
/// Merges corners at exactly the same place into one vertex, numbered in order of first appearance. −0 and +0 are the
/// same place; nothing else is, however close.
/// </summary>
/// <remarks>
/// An open-addressing table of 16-byte slots (x, y, z, vertex number + 1) keyed by a randomly seeded multiply-shift hash,
/// so that a corner costs one cache line and no crafted file can make every corner collide; corners come in blocks whose
/// slots are prefetched. The seed does not show in the result. Expected O(1) per corner; 16 bytes × at most 2.7 slots
/// plus 12 bytes × at most 2 per vertex while it works. Not thread-safe; dispose it to give the table back.
/// Source of the hash: Dietzfelbinger, "Universal hashing and k-wise independent random variables via integer
/// arithmetic without primes", STACS 1996 (from memory).
/// </remarks>
public sealed unsafe class ExactWeld : IDisposable
{
    /// <summary>Corners per prefetched block: their slots fit the first-level cache.</summary>
    private const int Block = 192;

    private readonly ulong _seedXy = Odd(), _seedYz = Odd(), _seedZ = Odd();
    private uint* _slots;
    private int _shift;
    private int _limit;
    private float[] _positions;
    private int _count;

    /// <param name="expectedVertices">A guess; the table and the positions grow when it is too small.</param>
    public ExactWeld(int expectedVertices = 1024)
    {
        expectedVertices = Math.Clamp(expectedVertices, 64, 1 << 27);
        var slots = BitOperations.RoundUpToPowerOf2((uint)(expectedVertices / 3 * 4));
        Allocate(BitOperations.Log2(slots));
        _positions = GC.AllocateUninitializedArray<float>(3 * expectedVertices);
    }

    ~ExactWeld() => Free();

    /// <summary>Different places seen so far.</summary>
    public int VertexCount => _count;

    /// <summary>The different places so far, 3 numbers each; valid until more are added.</summary>
    public ReadOnlySpan<float> Positions => _positions.AsSpan(0, 3 * _count);

    /// <summary>The vertex number of each corner.</summary>
    /// <param name="corners">Finite coordinates, 3 per corner.</param>
    /// <param name="vertices">One vertex number per corner.</param>
    public void Add(ReadOnlySpan<float> corners, Span<int> vertices)
    {
        var keys = stackalloc uint[4 * Block];
        for (var done = 0; done < vertices.Length; done += Block)
        {
            var count = Math.Min(Block, vertices.Length - done);
            for (var i = 0; i < count; i++)
            {
                var at = 3 * (done + i);
                Canonical(Vector128.Create(corners[at], corners[at + 1], corners[at + 2], 0)).Store(keys + (4 * i));
            }

            AddBlock(keys, vertices.Slice(done, count));
        }
    }

    /// <summary>The vertex number of one corner.</summary>
    public int Add(Vector3 corner)
    {
        var vertex = 0;
        Add(MemoryMarshal.CreateReadOnlySpan(ref corner.X, 3), new Span<int>(ref vertex));
        return vertex;
    }

    /// <summary>The different places in order of first appearance, 3 numbers each, in an array of exactly that size.</summary>
    public float[] ToPositions()
    {
        if (_positions.Length == 3 * _count) return _positions;
        var exact = GC.AllocateUninitializedArray<float>(3 * _count);
        _positions.AsSpan(0, 3 * _count).CopyTo(exact);
        return exact;
    }

    /// <summary>The mesh with vertices at exactly the same place merged and unused vertices left out; triangles and their order stay.</summary>
    public static TriangleMesh Of(TriangleMesh mesh)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        using var weld = new ExactWeld(mesh.VertexCount);
        var indices = GC.AllocateUninitializedArray<int>(mesh.Indices.Length);
        Span<float> corners = stackalloc float[3 * Block];
        for (var done = 0; done < indices.Length; done += Block)
        {
            var count = Math.Min(Block, indices.Length - done);
            for (var i = 0; i < count; i++)
                mesh.Positions.Slice(3 * mesh.Indices[done + i], 3).CopyTo(corners[(3 * i)..]);
            weld.Add(corners[..(3 * count)], indices.AsSpan(done, count));
        }

        return new(weld.ToPositions(), indices);
    }

    public void Dispose()
    {
        Free();
        GC.SuppressFinalize(this);
    }

    /// <summary>The bits that stand for a place: −0 becomes +0. The fourth lane is of no account.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector128<uint> Canonical(Vector128<float> corner) => (corner + Vector128<float>.Zero).AsUInt32();

    /// <summary>The vertex number of each key; <paramref name="keys"/> holds 4 lanes per corner as <see cref="Canonical"/> gives them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void AddBlock(uint* keys, Span<int> vertices)
    {
        ObjectDisposedException.ThrowIf(_slots == null, this);
        var hashes = stackalloc ulong[Block];
        for (var done = 0; done < vertices.Length; done += Block)
        {
            var count = Math.Min(Block, vertices.Length - done);
            for (var i = 0; i < count; i++)
            {
                hashes[i] = Hash(keys + (4 * (done + i)));
                if (Sse.IsSupported) Sse.Prefetch0(_slots + (4 * (hashes[i] >> _shift)));
            }

            for (var i = 0; i < count; i++)
                vertices[done + i] = FindOrAdd(Vector128.Load(keys + (4 * (done + i))), hashes[i]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int FindOrAdd(Vector128<uint> key, ulong hash)
    {
        var mask = ulong.MaxValue >> _shift;
        for (var slot = hash >> _shift; ; slot = (slot + 1) & mask)
        {
            var at = _slots + (4 * slot);
            var seen = Vector128.Load(at);
            var number = at[3];
            if (number == 0) return Insert(key, at, hash);
            if ((Vector128.Equals(seen, key).ExtractMostSignificantBits() & 7) == 7) return (int)number - 1;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private int Insert(Vector128<uint> key, uint* at, ulong hash)
    {
        if (_count == _limit) return InsertAfterGrowing(key, hash);
        var vertex = _count++;
        if (3 * vertex == _positions.Length) GrowPositions();
        key.WithElement(3, (uint)_count).Store(at);
        ref var position = ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_positions), 3 * vertex);
        Unsafe.WriteUnaligned(ref Unsafe.As<float, byte>(ref position), key.AsUInt64().GetElement(0));
        Unsafe.Add(ref position, 2) = key.AsSingle().GetElement(2);
        return vertex;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private int InsertAfterGrowing(Vector128<uint> key, ulong hash)
    {
        var old = _slots;
        var oldSlots = 1L << (64 - _shift);
        Allocate(65 - _shift);
        var mask = ulong.MaxValue >> _shift;
        for (var i = 0L; i < oldSlots; i++)
        {
            var from = old + (4 * i);
            if (from[3] == 0) continue;
            var slot = Hash(from) >> _shift;
            while (_slots[(4 * slot) + 3] != 0) slot = (slot + 1) & mask;
            Vector128.Load(from).Store(_slots + (4 * slot));
        }

        NativeMemory.Free(old);
        return FindOrAdd(key, hash);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void GrowPositions()
    {
        var larger = GC.AllocateUninitializedArray<float>((int)Math.Min(2L * _positions.Length, Array.MaxLength / 3 * 3L));
        _positions.CopyTo(larger, 0);
        _positions = larger;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private ulong Hash(uint* key)
    {
        var sum = (key[0] * _seedXy) + (key[1] * _seedYz) + (key[2] * _seedZ);
        sum ^= sum >> 32;
        return sum * 0x9E3779B97F4A7C15;
    }

    private void Allocate(int bits)
    {
        bits = Math.Clamp(bits, 6, 31);
        _slots = (uint*)NativeMemory.AllocZeroed((nuint)1 << bits, 16);
        _shift = 64 - bits;
        _limit = (int)((3L << bits) / 4);
    }

    private void Free()
    {
        NativeMemory.Free(_slots);
        _slots = null;
    }

    private static ulong Odd() => (ulong)Random.Shared.NextInt64(long.MinValue, long.MaxValue) | 1;
}
