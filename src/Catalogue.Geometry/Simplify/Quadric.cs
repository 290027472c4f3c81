using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Simplify;

/// <summary>A weighted sum of squared distances to planes, as a function of the place: pᵀA p + 2 bᵀp + c.</summary>
internal struct Quadric
{
    private double _xx, _xy, _xz, _yy, _yz, _zz, _x, _y, _z, _c;

    /// <param name="normal">Of length 1.</param>
    /// <param name="offset">Of the plane: normal · p + offset = 0.</param>
    public static Quadric OfPlane(Vec3 normal, double offset, double weight)
    {
        var n = normal * weight;
        return new()
        {
            _xx = n.X * normal.X,
            _xy = n.X * normal.Y,
            _xz = n.X * normal.Z,
            _yy = n.Y * normal.Y,
            _yz = n.Y * normal.Z,
            _zz = n.Z * normal.Z,
            _x = n.X * offset,
            _y = n.Y * offset,
            _z = n.Z * offset,
            _c = weight * offset * offset,
        };
    }

    public void Add(in Quadric other)
    {
        _xx += other._xx;
        _xy += other._xy;
        _xz += other._xz;
        _yy += other._yy;
        _yz += other._yz;
        _zz += other._zz;
        _x += other._x;
        _y += other._y;
        _z += other._z;
        _c += other._c;
    }

    /// <summary>Never below zero, whatever rounding says.</summary>
    public readonly double At(Vec3 p)
    {
        var value = (p.X * ((_xx * p.X) + (2 * ((_xy * p.Y) + (_xz * p.Z) + _x))))
            + (p.Y * ((_yy * p.Y) + (2 * ((_yz * p.Z) + _y))))
            + (p.Z * ((_zz * p.Z) + (2 * _z))) + _c;
        return Math.Max(0, value);
    }

    /// <summary>The place where it is least; null where planes do not pin one down.</summary>
    public readonly Vec3? Least()
    {
        var a = (_yy * _zz) - (_yz * _yz);
        var b = (_xz * _yz) - (_xy * _zz);
        var c = (_xy * _yz) - (_xz * _yy);
        var determinant = (_xx * a) + (_xy * b) + (_xz * c);
        var trace = _xx + _yy + _zz;
        if (!(Math.Abs(determinant) > 1e-4 * trace * trace * trace)) return null;
        var e = (_xx * _zz) - (_xz * _xz);
        var f = (_xy * _xz) - (_xx * _yz);
        var g = (_xx * _yy) - (_xy * _xy);
        return new Vec3((a * _x) + (b * _y) + (c * _z), (b * _x) + (e * _y) + (f * _z), (c * _x) + (f * _y) + (g * _z)) * (-1 / determinant);
    }
}
