using System.Numerics;

namespace Catalogue.Geometry.Pictures;

/// <summary>Samples with depth, normal and colour. z grows towards the viewer; the nearest stays.</summary>
internal sealed class Canvas
{
    private readonly float[] _depth;
    private readonly Vector3[] _normal;
    private readonly uint[] _tint;

    public Canvas(int width, int height)
    {
        (Width, Height) = (width, height);
        _depth = new float[width * height];
        _normal = new Vector3[width * height];
        _tint = new uint[width * height];
        Array.Fill(_depth, float.NegativeInfinity);
    }

    public int Width { get; }
    public int Height { get; }

    public bool IsCovered(int x, int y) => (uint)x < (uint)Width && (uint)y < (uint)Height && _depth[(y * Width) + x] > float.NegativeInfinity;

    public float DepthAt(int x, int y) => _depth[(y * Width) + x];

    public Vector3 NormalAt(int x, int y) => _normal[(y * Width) + x];

    /// <summary>Linear light, 10 bits a channel.</summary>
    public Vector3 TintAt(int x, int y)
    {
        var packed = _tint[(y * Width) + x];
        return new Vector3(packed >> 20 & 1023, packed >> 10 & 1023, packed & 1023) / 1023;
    }

    /// <summary>Covers the samples whose middles lie in the triangle, where nothing nearer is.</summary>
    public void Triangle(Vector3 a, Vector3 b, Vector3 c, Vector3 na, Vector3 nb, Vector3 nc, Tint tint)
    {
        var doubled = ((b.X - a.X) * (c.Y - a.Y)) - ((b.Y - a.Y) * (c.X - a.X));
        if (!(Math.Abs(doubled) > 1e-12f)) return;
        var (left, right) = Reach(a.X, b.X, c.X, Width);
        var (top, bottom) = Reach(a.Y, b.Y, c.Y, Height);
        if (left > right || top > bottom) return;
        var packed = ((uint)(1023 * Math.Clamp(tint.Red, 0, 1)) << 20) | ((uint)(1023 * Math.Clamp(tint.Green, 0, 1)) << 10) | (uint)(1023 * Math.Clamp(tint.Blue, 0, 1));
        var inverse = 1 / doubled;
        for (var y = top; y <= bottom; y++)
        {
            var py = y + 0.5f;
            for (var x = left; x <= right; x++)
            {
                var px = x + 0.5f;
                var u = (((b.X - px) * (c.Y - py)) - ((b.Y - py) * (c.X - px))) * inverse;
                var v = (((c.X - px) * (a.Y - py)) - ((c.Y - py) * (a.X - px))) * inverse;
                var w = 1 - u - v;
                if (u < 0 || v < 0 || w < 0) continue;
                var depth = (u * a.Z) + (v * b.Z) + (w * c.Z);
                var at = (y * Width) + x;
                if (depth <= _depth[at]) continue;
                _depth[at] = depth;
                _normal[at] = Vector3.Normalize((u * na) + (v * nb) + (w * nc));
                _tint[at] = packed;
            }
        }
    }

    private static (int First, int Last) Reach(float a, float b, float c, int size) => (
        Math.Max(0, (int)MathF.Floor(Math.Min(a, Math.Min(b, c)) - 0.5f)),
        Math.Min(size - 1, (int)MathF.Ceiling(Math.Max(a, Math.Max(b, c)) - 0.5f)));
}
