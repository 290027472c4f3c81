using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats;

/// <summary>Triangles as a text file gives them, welded as they come.</summary>
internal sealed class GrowingCorners : IDisposable
{
    private const int Pending = 64;

    private readonly ExactWeld _weld = new(4096);
    private readonly float[] _waiting = new float[9 * Pending];
    private int[] _indices = new int[3 * 4096];
    private int _welded;
    private int _count;

    public int Triangles => _welded + _count;

    /// <param name="corners">Nine finite coordinates.</param>
    public void AddTriangle(ReadOnlySpan<float> corners)
    {
        corners.CopyTo(_waiting.AsSpan(9 * _count));
        if (++_count == Pending) Flush();
    }

    /// <summary>The mesh in millimetres; nothing is added after it.</summary>
    public TriangleMesh ToMesh(LengthUnit unit)
    {
        Flush();
        if (_indices.Length != 3 * _welded) Array.Resize(ref _indices, 3 * _welded);
        return CornerLimits.InMillimetres(_weld.ToPositions(), _indices, unit);
    }

    public void Dispose() => _weld.Dispose();

    private void Flush()
    {
        if (3 * (_welded + _count) > _indices.Length)
            Array.Resize(ref _indices, (int)Math.Min(2L * _indices.Length, Array.MaxLength / 3 * 3L));
        _weld.Add(_waiting.AsSpan(0, 9 * _count), _indices.AsSpan(3 * _welded, 3 * _count));
        _welded += _count;
        _count = 0;
    }
}
