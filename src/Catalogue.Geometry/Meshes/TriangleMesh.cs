using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;

namespace Catalogue.Geometry.Meshes;

/// <summary>An indexed triangle mesh in millimetres: flat arrays, no object per triangle. Immutable by convention.</summary>
/// <remarks>
/// <list type="bullet">
/// <item><see cref="Positions"/>: 3 × n single-precision numbers, x y z of vertex after vertex, all finite.</item>
/// <item><see cref="Indices"/>: 3 × m vertex numbers; the three of a triangle run counter-clockwise seen from outside.</item>
/// </list>
/// Nothing is promised about closedness, duplicates or degenerate triangles: that is what <c>Health</c> finds out.
/// The arrays are not copied; whoever builds a mesh gives them away. Safe to read from many threads.
/// </remarks>
public sealed class TriangleMesh
{
    private readonly float[] _positions;
    private readonly int[] _indices;
    private BoundingBox? _bounds;

    /// <param name="positions">3 × n finite coordinates in mm.</param>
    /// <param name="indices">3 × m indices, each in [0, n).</param>
    /// <exception cref="ArgumentException">A length is not a multiple of 3.</exception>
    public TriangleMesh(float[] positions, int[] indices)
    {
        ArgumentNullException.ThrowIfNull(positions);
        ArgumentNullException.ThrowIfNull(indices);
        if (positions.Length % 3 != 0) throw new ArgumentException("Positions come in threes.", nameof(positions));
        if (indices.Length % 3 != 0) throw new ArgumentException("Indices come in threes.", nameof(indices));
        _positions = positions;
        _indices = indices;
    }

    public ReadOnlySpan<float> Positions => _positions;
    public ReadOnlySpan<int> Indices => _indices;
    public int VertexCount => _positions.Length / 3;
    public int TriangleCount => _indices.Length / 3;

    /// <summary>The vertices as vectors over the same memory.</summary>
    public ReadOnlySpan<Vector3> Vertices => MemoryMarshal.Cast<float, Vector3>(_positions);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Vec3 Vertex(int index)
    {
        var i = 3 * index;
        return new(_positions[i], _positions[i + 1], _positions[i + 2]);
    }

    /// <summary>The three corners of triangle <paramref name="triangle"/>, in its order.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public (Vec3 A, Vec3 B, Vec3 C) Triangle(int triangle)
    {
        var i = 3 * triangle;
        return (Vertex(_indices[i]), Vertex(_indices[i + 1]), Vertex(_indices[i + 2]));
    }

    /// <summary>The axis-aligned box of all vertices, used or not; computed once, O(n).</summary>
    public BoundingBox Bounds => _bounds ??= ComputeBounds();

    private BoundingBox ComputeBounds()
    {
        if (_positions.Length == 0) return BoundingBox.Empty;
        var vertices = Vertices;
        var min = vertices[0];
        var max = min;
        foreach (var v in vertices)
        {
            min = Vector3.Min(min, v);
            max = Vector3.Max(max, v);
        }

        return new(new(min.X, min.Y, min.Z), new(max.X, max.Y, max.Z));
    }

    /// <summary>A copy turned by <paramref name="rotation"/>, then moved by <paramref name="shift"/> (mm). O(n).</summary>
    public TriangleMesh Transformed(Rotation rotation, Vec3 shift = default)
    {
        var moved = new float[_positions.Length];
        for (var i = 0; i < VertexCount; i++)
        {
            var p = rotation.Apply(Vertex(i)) + shift;
            moved[3 * i] = (float)p.X;
            moved[(3 * i) + 1] = (float)p.Y;
            moved[(3 * i) + 2] = (float)p.Z;
        }

        return new(moved, _indices);
    }

    /// <summary>The same triangles over other positions, as many; the positions are given away, the triangles shared.</summary>
    internal TriangleMesh WithPositions(float[] positions) => positions.Length == _positions.Length
        ? new(positions, _indices)
        : throw new ArgumentException("There must be as many positions as before.", nameof(positions));

    /// <summary>Other triangles over the same vertices, those that are not used left out and the rest in their order. O(n + m).</summary>
    /// <param name="indices">3 × m vertex numbers of this mesh; given away and renumbered.</param>
    internal TriangleMesh WithTriangles(int[] indices)
    {
        var numbers = new int[VertexCount];
        foreach (var v in indices) numbers[v] = 1;
        var used = 0;
        for (var v = 0; v < numbers.Length; v++)
            if (numbers[v] > 0) numbers[v] = ++used;
        if (used == VertexCount) return new(_positions, indices);
        var kept = new float[3 * used];
        for (var v = 0; v < numbers.Length; v++)
            if (numbers[v] > 0) _positions.AsSpan(3 * v, 3).CopyTo(kept.AsSpan(3 * (numbers[v] - 1)));
        for (var i = 0; i < indices.Length; i++) indices[i] = numbers[indices[i]] - 1;
        return new(kept, indices);
    }

    /// <summary>A copy with every coordinate multiplied by <paramref name="factor"/> &gt; 0. O(n).</summary>
    public TriangleMesh Scaled(double factor)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(factor);
        var scaled = new float[_positions.Length];
        for (var i = 0; i < scaled.Length; i++) scaled[i] = (float)(_positions[i] * factor);
        return new(scaled, _indices);
    }
}
