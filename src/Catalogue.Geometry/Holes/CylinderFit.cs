using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>
/// The cylinder whose facets a set of hits belongs to: the axis that all their planes are equally far from and parallel to. Exact for a regular prism
/// however its facets are cut up and wherever they were hit; for a rough wall the least-squares answer.
/// </summary>
/// <remarks>
/// Gauss–Newton steps over five unknowns (two shifts and two tilts of the axis, one radius): plane distances, plus the tilt of each normal against the
/// axis, weighed as a third of a radius so that a short wall still has a direction. O(hits) a step.
/// </remarks>
internal static class CylinderFit
{
    private const double TiltWeight = 0.35;
    private const int Steps = 3;

    /// <returns>The refined frame, centred as before along the axis; null when the hits do not determine one.</returns>
    public static CylinderFrame? Refine(CylinderFrame frame, ReadOnlySpan<WallHit> hits)
    {
        if (hits.Length < 8) return null;
        for (var step = 0; step < Steps; step++)
        {
            if (Step(frame, hits) is not { } next) return null;
            frame = next;
        }

        return frame;
    }

    private static CylinderFrame? Step(CylinderFrame frame, ReadOnlySpan<WallHit> hits)
    {
        Span<double> normal = stackalloc double[25];
        Span<double> right = stackalloc double[5];
        Span<double> row = stackalloc double[5];
        var weight = TiltWeight * frame.Radius;
        foreach (var hit in hits)
        {
            var tilt = Vec3.Dot(hit.Outward, frame.Axis);
            var flat = hit.Outward - (frame.Axis * tilt);
            var length = flat.Length;
            if (length < 0.3) continue;
            var m = flat / length;
            var (mu, mv) = (Vec3.Dot(m, frame.U), Vec3.Dot(m, frame.V));
            var d = hit.Point - frame.Center;
            var along = Vec3.Dot(d, frame.Axis);
            row[0] = -mu;
            row[1] = -mv;
            row[2] = -along * mu;
            row[3] = -along * mv;
            row[4] = -1;
            Add(normal, right, row, Vec3.Dot(d, m) - frame.Radius);
            row[0] = row[1] = row[4] = 0;
            row[2] = weight * Vec3.Dot(hit.Outward, frame.U);
            row[3] = weight * Vec3.Dot(hit.Outward, frame.V);
            Add(normal, right, row, weight * tilt);
        }

        if (!Solve(normal, right)) return null;
        var radius = frame.Radius + right[4];
        var turn = Math.Sqrt((right[2] * right[2]) + (right[3] * right[3]));
        if (!(radius > 0.3 * frame.Radius && radius < 3 * frame.Radius) || !(turn < 1)) return null;
        var center = frame.Center + (frame.U * right[0]) + (frame.V * right[1]);
        var axis = frame.Axis + (frame.U * right[2]) + (frame.V * right[3]);
        return CylinderFrame.Of(center, axis, radius);
    }

    private static void Add(Span<double> normal, Span<double> right, ReadOnlySpan<double> row, double residual)
    {
        for (var i = 0; i < 5; i++)
        {
            right[i] -= row[i] * residual;
            for (var j = 0; j <= i; j++) normal[(5 * i) + j] += row[i] * row[j];
        }
    }

    /// <summary>Cholesky in place; the answer replaces the right-hand side. False when the equations are not independent.</summary>
    private static bool Solve(Span<double> a, Span<double> b)
    {
        for (var i = 0; i < 5; i++)
        {
            for (var j = 0; j <= i; j++)
            {
                var sum = a[(5 * i) + j];
                var before = sum;
                for (var k = 0; k < j; k++) sum -= a[(5 * i) + k] * a[(5 * j) + k];
                if (i == j)
                {
                    if (!(sum > 1e-9 * before)) return false;
                    a[(5 * i) + i] = Math.Sqrt(sum);
                }
                else
                {
                    a[(5 * i) + j] = sum / a[(5 * j) + j];
                }
            }
        }

        for (var i = 0; i < 5; i++)
        {
            for (var k = 0; k < i; k++) b[i] -= a[(5 * i) + k] * b[k];
            b[i] /= a[(5 * i) + i];
        }

        for (var i = 4; i >= 0; i--)
        {
            for (var k = i + 1; k < 5; k++) b[i] -= a[(5 * k) + i] * b[k];
            b[i] /= a[(5 * i) + i];
        }

        return true;
    }
}
