using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Contouring;

/// <summary>
/// A handful of tangent planes of a surface and the point that lies nearest to all of them: on a sharp edge or corner, if they meet in one.
/// </summary>
/// <remarks>
/// Least squares of the distances to the planes about the mean of their points, with directions the planes say (almost) nothing about left
/// alone (Ju, Losasso, Schaefer, Warren, "Dual contouring of Hermite data", 2002, section 2.3).
/// </remarks>
internal sealed class TangentPlanes
{
    /// <summary>The <see cref="Spread"/> of normals above which the surface counts as smooth: 20° about their mean.</summary>
    public const double Smooth = 0.94;

    private readonly List<Crossing> _planes = new(12);

    public IEnumerable<Vec3> Points => _planes.Select(p => p.Point);

    /// <summary>The mean of the points.</summary>
    public Vec3 Mean
    {
        get
        {
            var sum = Vec3.Zero;
            foreach (var p in _planes) sum += p.Point;
            return sum / Math.Max(1, _planes.Count);
        }
    }

    public Vec3 MeanNormal
    {
        get
        {
            var sum = Vec3.Zero;
            foreach (var p in _planes) sum += p.Normal;
            return sum.Normalized();
        }
    }

    /// <summary>The least cosine between a normal and the mean normal: 1 for a plane.</summary>
    public double Spread
    {
        get
        {
            var mean = MeanNormal;
            var least = 1.0;
            foreach (var p in _planes) least = Math.Min(least, Vec3.Dot(mean, p.Normal));
            return least;
        }
    }

    public void Add(Crossing crossing) => _planes.Add(crossing);

    public void Clear() => _planes.Clear();

    /// <summary>The largest distance from <paramref name="v"/> to one of the planes.</summary>
    public double Farthest(Vec3 v)
    {
        var most = 0.0;
        foreach (var p in _planes) most = Math.Max(most, Math.Abs(Vec3.Dot(p.Normal, v - p.Point)));
        return most;
    }

    /// <summary>The point of least squared distance to the planes.</summary>
    public Vec3 Solve()
    {
        var mean = Mean;
        double xx = 0, xy = 0, xz = 0, yy = 0, yz = 0, zz = 0;
        var right = Vec3.Zero;
        foreach (var (point, n) in _planes)
        {
            xx += n.X * n.X;
            xy += n.X * n.Y;
            xz += n.X * n.Z;
            yy += n.Y * n.Y;
            yz += n.Y * n.Z;
            zz += n.Z * n.Z;
            right += n * Vec3.Dot(n, point - mean);
        }

        Span<double> m = [xx, xy, xz, xy, yy, yz, xz, yz, zz];
        Span<double> e = [1, 0, 0, 0, 1, 0, 0, 0, 1];
        Diagonalise(m, e);
        var largest = Math.Max(m[0], Math.Max(m[4], m[8]));
        var shift = Vec3.Zero;
        for (var i = 0; i < 3; i++)
        {
            var value = m[4 * i];
            if (value < 0.02 * largest) continue;
            var axis = new Vec3(e[i], e[3 + i], e[6 + i]);
            shift += axis * (Vec3.Dot(axis, right) / value);
        }

        return mean + shift;
    }

    /// <summary>Cyclic Jacobi rotations on a symmetric 3 × 3 matrix (row-major); the columns of <paramref name="e"/> become its eigenvectors.</summary>
    private static void Diagonalise(Span<double> m, Span<double> e)
    {
        for (var sweep = 0; sweep < 8; sweep++)
        {
            if (Math.Abs(m[1]) + Math.Abs(m[2]) + Math.Abs(m[5]) < 1e-12) return;
            for (var p = 0; p < 2; p++)
            {
                for (var q = p + 1; q < 3; q++)
                {
                    var off = m[(3 * p) + q];
                    if (Math.Abs(off) < 1e-300) continue;
                    var theta = (m[4 * q] - m[4 * p]) / (2 * off);
                    var t = (theta >= 0 ? 1 : -1) / (Math.Abs(theta) + Math.Sqrt((theta * theta) + 1));
                    var c = 1 / Math.Sqrt((t * t) + 1);
                    var s = t * c;
                    for (var k = 0; k < 3; k++)
                    {
                        var (a, b) = (m[(3 * k) + p], m[(3 * k) + q]);
                        (m[(3 * k) + p], m[(3 * k) + q]) = ((c * a) - (s * b), (s * a) + (c * b));
                    }

                    for (var k = 0; k < 3; k++)
                    {
                        var (a, b) = (m[(3 * p) + k], m[(3 * q) + k]);
                        (m[(3 * p) + k], m[(3 * q) + k]) = ((c * a) - (s * b), (s * a) + (c * b));
                        (a, b) = (e[(3 * k) + p], e[(3 * k) + q]);
                        (e[(3 * k) + p], e[(3 * k) + q]) = ((c * a) - (s * b), (s * a) + (c * b));
                    }
                }
            }
        }
    }
}
