using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>On which side of a plane through three points a fourth point lies, decided without error.</summary>
/// <remarks>
/// A floating-point filter answers nearly always; the rest is summed exactly as an expansion of doubles
/// (J. R. Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates", 1997).
/// The coordinates must be single-precision numbers held in doubles: then every product of two is exact in a double and a product of
/// three in two doubles, and nothing can overflow or be lost to underflow.
/// </remarks>
internal static class PlaneSide
{
    private const double FilterBound = 7.77156117237609e-16; // (7 + 56 e) e, e = 2^-53: Shewchuk's first bound for orient3d

    /// <summary>+1 when <paramref name="p"/> is on the side from which a, b, c run counter-clockwise, −1 on the other, 0 in the plane.</summary>
    public static int Of(Vec3 a, Vec3 b, Vec3 c, Vec3 p)
    {
        var (ax, ay, az) = (a.X - p.X, a.Y - p.Y, a.Z - p.Z);
        var (bx, by, bz) = (b.X - p.X, b.Y - p.Y, b.Z - p.Z);
        var (cx, cy, cz) = (c.X - p.X, c.Y - p.Y, c.Z - p.Z);
        var (bxcy, cxby) = (bx * cy, cx * by);
        var (cxay, axcy) = (cx * ay, ax * cy);
        var (axby, bxay) = (ax * by, bx * ay);
        var determinant = (az * (bxcy - cxby)) + (bz * (cxay - axcy)) + (cz * (axby - bxay));
        var permanent = ((Math.Abs(bxcy) + Math.Abs(cxby)) * Math.Abs(az))
            + ((Math.Abs(cxay) + Math.Abs(axcy)) * Math.Abs(bz))
            + ((Math.Abs(axby) + Math.Abs(bxay)) * Math.Abs(cz));
        var bound = FilterBound * permanent;
        return determinant > bound ? -1 : determinant < -bound ? 1 : -ExactSign(a, b, c, p);
    }

    /// <summary>The sign of det[a−p; b−p; c−p], expanded so that no difference has to be rounded.</summary>
    private static int ExactSign(Vec3 a, Vec3 b, Vec3 c, Vec3 p)
    {
        Span<double> memory = stackalloc double[64];
        var sum = new Expansion(memory);
        AddTriple(ref sum, a, b, c, 1);
        AddTriple(ref sum, a, b, p, -1);
        AddTriple(ref sum, a, c, p, 1);
        AddTriple(ref sum, b, c, p, -1);
        return sum.Sign;
    }

    /// <summary>Adds ± a · (b × c): six products of three numbers.</summary>
    private static void AddTriple(ref Expansion sum, Vec3 a, Vec3 b, Vec3 c, double sign)
    {
        sum.AddProduct(a.X * b.Y, c.Z * sign);
        sum.AddProduct(a.X * b.Z, -c.Y * sign);
        sum.AddProduct(a.Y * b.Z, c.X * sign);
        sum.AddProduct(a.Y * b.X, -c.Z * sign);
        sum.AddProduct(a.Z * b.X, c.Y * sign);
        sum.AddProduct(a.Z * b.Y, -c.X * sign);
    }

    /// <summary>An exact sum kept as non-overlapping doubles in order of growing magnitude.</summary>
    private ref struct Expansion(Span<double> terms)
    {
        private readonly Span<double> _terms = terms;
        private int _count;

        public readonly int Sign => _count == 0 ? 0 : Math.Sign(_terms[_count - 1]);

        public void AddProduct(double x, double y)
        {
            var high = x * y;
            Add(Math.FusedMultiplyAdd(x, y, -high));
            Add(high);
        }

        private void Add(double value)
        {
            var kept = 0;
            for (var i = 0; i < _count; i++)
            {
                var (x, y) = (value, _terms[i]);
                value = x + y;
                var virtualY = value - x;
                var rest = (x - (value - virtualY)) + (y - virtualY);
                if (rest != 0) _terms[kept++] = rest;
            }

            if (value != 0) _terms[kept++] = value;
            _count = kept;
        }
    }
}
