using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>Whether two triangles have a point in common that they are not meant to share.</summary>
/// <remarks>
/// Triangles are closed: touching counts. Corners at the same place are shared, and so are the edges between them, whatever
/// their vertex numbers: two triangles with a shared corner or edge intersect only when they meet elsewhere too. Coplanar
/// overlaps count. A triangle without area (its corners on one line) intersects nothing. Every decision is a sign computed
/// exactly from single-precision corners (<see cref="Orientation"/>): no tolerance, no false answer. The order of tests follows
/// P. Guigue and O. Devillers, "Fast and Robust Triangle-Triangle Overlap Test Using Orientation Predicates", Journal of
/// Graphics Tools 8(1), 2003: sides of the planes first, then edges against triangles.
/// </remarks>
public static class TrianglePair
{
    /// <param name="a">First triangle; its coordinates must be single-precision numbers.</param>
    /// <param name="b">b</param>
    /// <param name="c">c</param>
    /// <param name="p">Second triangle, likewise.</param>
    /// <param name="q">q</param>
    /// <param name="r">r</param>
    public static bool Intersects(Vec3 a, Vec3 b, Vec3 c, Vec3 p, Vec3 q, Vec3 r)
    {
        // Turn each triangle (a turn does not change it) until a shared corner is first in both, a second one next to it.
        var shared = 0;
        if (IsCorner(a, p, q, r)) shared |= 1;
        if (IsCorner(b, p, q, r)) shared |= 2;
        if (IsCorner(c, p, q, r)) shared |= 4;
        switch (shared)
        {
            case 0: return Apart(a, b, c, p, q, r);
            case 1: return AtCorner(a, b, c, p, q, r);
            case 2: return AtCorner(b, c, a, p, q, r);
            case 4: return AtCorner(c, a, b, p, q, r);
            case 3: return AtEdge(a, b, c, Other(a, b, p, q, r));
            case 6: return AtEdge(b, c, a, Other(b, c, p, q, r));
            case 5: return AtEdge(c, a, b, Other(c, a, p, q, r));
            default: return HasArea(a, b, c);
        }
    }

    private static bool IsCorner(Vec3 v, Vec3 p, Vec3 q, Vec3 r) => v == p || v == q || v == r;

    private static Vec3 Other(Vec3 a, Vec3 b, Vec3 p, Vec3 q, Vec3 r) => p != a && p != b ? p : q != a && q != b ? q : r;

    /// <summary>Two triangles on the edge ab, their third corners c and d: they overlap when folded flat onto each other.</summary>
    private static bool AtEdge(Vec3 a, Vec3 b, Vec3 c, Vec3 d)
    {
        if (d == a || d == b) return false;
        var edge = b - a;
        var u = Vec3.Cross(edge, c - a);
        var v = Vec3.Cross(edge, d - a);
        var dot = Vec3.Dot(u, v);

        // Opening more than a right angle, beyond any doubt (24 ε of the sizes involved covers the rounding): the usual case.
        var size = edge.LengthSquared * ((c - a).Length + edge.Length) * ((d - a).Length + edge.Length);
        if (dot < -1e-14 * size) return false;
        if (Orientation.Side(a, b, c, d) != 0) return false;
        var axis = ProjectionAxis(a, b, c);
        return axis >= 0 && Turn(axis, a, b, c) == Turn(axis, a, b, d);
    }

    /// <summary>abc and pqr share exactly one corner, a: they meet elsewhere when the side opposite it of one meets the other.</summary>
    private static bool AtCorner(Vec3 a, Vec3 b, Vec3 c, Vec3 p, Vec3 q, Vec3 r)
    {
        var (d, e) = p == a ? (q, r) : q == a ? (r, p) : (p, q);
        if (d == a || e == a) return false;
        var sideB = Orientation.Side(a, d, e, b);
        var sideC = Orientation.Side(a, d, e, c);
        if (sideB * sideC > 0) return false;
        var sideD = Orientation.Side(a, b, c, d);
        var sideE = Orientation.Side(a, b, c, e);
        if (sideD * sideE > 0) return false;
        if ((sideB | sideC) == 0 || (sideD | sideE) == 0)
        {
            var axis = ProjectionAxis(a, b, c);
            var other = ProjectionAxis(a, d, e);
            return axis >= 0 && other >= 0 && (FlatSegmentMeets(axis, b, c, a, d, e) || FlatSegmentMeets(axis, d, e, a, b, c));
        }

        return SegmentMeets(b, c, sideB, sideC, a, d, e) || SegmentMeets(d, e, sideD, sideE, a, b, c);
    }

    private static bool Apart(Vec3 a, Vec3 b, Vec3 c, Vec3 p, Vec3 q, Vec3 r)
    {
        var sideA = Orientation.Side(p, q, r, a);
        var sideB = Orientation.Side(p, q, r, b);
        var sideC = Orientation.Side(p, q, r, c);
        if (sideA == sideB && sideB == sideC && sideA != 0) return false;
        var sideP = Orientation.Side(a, b, c, p);
        var sideQ = Orientation.Side(a, b, c, q);
        var sideR = Orientation.Side(a, b, c, r);
        if (sideP == sideQ && sideQ == sideR && sideP != 0) return false;
        if ((sideA | sideB | sideC) == 0 || (sideP | sideQ | sideR) == 0)
        {
            var axis = ProjectionAxis(a, b, c);
            return axis >= 0 && ProjectionAxis(p, q, r) >= 0
                && (FlatSegmentMeets(axis, a, b, p, q, r) || FlatSegmentMeets(axis, b, c, p, q, r)
                    || FlatSegmentMeets(axis, c, a, p, q, r) || FlatInside(axis, p, a, b, c));
        }

        return SegmentMeets(a, b, sideA, sideB, p, q, r) || SegmentMeets(b, c, sideB, sideC, p, q, r) || SegmentMeets(c, a, sideC, sideA, p, q, r)
            || SegmentMeets(p, q, sideP, sideQ, a, b, c) || SegmentMeets(q, r, sideQ, sideR, a, b, c) || SegmentMeets(r, p, sideR, sideP, a, b, c);
    }

    /// <summary>Whether the segment uv, whose ends lie on the given sides of the plane of pqr, meets pqr.</summary>
    private static bool SegmentMeets(Vec3 u, Vec3 v, int sideU, int sideV, Vec3 p, Vec3 q, Vec3 r)
    {
        if (sideU * sideV > 0) return false;
        if ((sideU | sideV) == 0) return FlatSegmentMeets(ProjectionAxis(p, q, r), u, v, p, q, r);
        if (sideU == 0) return FlatInside(ProjectionAxis(p, q, r), u, p, q, r);
        if (sideV == 0) return FlatInside(ProjectionAxis(p, q, r), v, p, q, r);
        var pq = Orientation.Side(u, v, p, q);
        var qr = Orientation.Side(u, v, q, r);
        if (pq * qr < 0) return false;
        var rp = Orientation.Side(u, v, r, p);
        return pq * rp >= 0 && qr * rp >= 0;
    }

    private static bool HasArea(Vec3 a, Vec3 b, Vec3 c) => ProjectionAxis(a, b, c) >= 0;

    /// <summary>The axis along which the triangle is seen best, exactly not edge-on; −1 when it has no area.</summary>
    private static int ProjectionAxis(Vec3 a, Vec3 b, Vec3 c)
    {
        var n = Vec3.Cross(b - a, c - a);
        var (x, y, z) = (Math.Abs(n.X), Math.Abs(n.Y), Math.Abs(n.Z));
        var best = x > y ? (x > z ? 0 : 2) : (y > z ? 1 : 2);
        for (var i = 0; i < 3; i++)
        {
            var axis = (best + i) % 3;
            if (Turn(axis, a, b, c) != 0) return axis;
        }

        return -1;
    }

    private static int Turn(int axis, Vec3 a, Vec3 b, Vec3 c) => axis switch
    {
        0 => Orientation.Turn(a.Y, a.Z, b.Y, b.Z, c.Y, c.Z),
        1 => Orientation.Turn(a.Z, a.X, b.Z, b.X, c.Z, c.X),
        _ => Orientation.Turn(a.X, a.Y, b.X, b.Y, c.X, c.Y),
    };

    private static bool FlatInside(int axis, Vec3 v, Vec3 p, Vec3 q, Vec3 r)
    {
        if (axis < 0) return false;
        var (pq, qr, rp) = (Turn(axis, p, q, v), Turn(axis, q, r, v), Turn(axis, r, p, v));
        return (pq >= 0 && qr >= 0 && rp >= 0) || (pq <= 0 && qr <= 0 && rp <= 0);
    }

    private static bool FlatSegmentMeets(int axis, Vec3 u, Vec3 v, Vec3 p, Vec3 q, Vec3 r) =>
        axis >= 0 && (FlatInside(axis, u, p, q, r) || Cross(axis, u, v, p, q) || Cross(axis, u, v, q, r) || Cross(axis, u, v, r, p));

    /// <summary>Whether two segments of one plane meet, the ends included.</summary>
    private static bool Cross(int axis, Vec3 u, Vec3 v, Vec3 p, Vec3 q)
    {
        var (up, uq) = (Turn(axis, u, v, p), Turn(axis, u, v, q));
        if (up * uq > 0) return false;
        var (pu, pv) = (Turn(axis, p, q, u), Turn(axis, p, q, v));
        if (pu * pv > 0) return false;
        if ((up | uq | pu | pv) != 0) return true;

        // On one line: their extents overlap.
        return Overlap(u.X, v.X, p.X, q.X) && Overlap(u.Y, v.Y, p.Y, q.Y) && Overlap(u.Z, v.Z, p.Z, q.Z);

        static bool Overlap(double a, double b, double c, double d) => Math.Max(Math.Min(a, b), Math.Min(c, d)) <= Math.Min(Math.Max(a, b), Math.Max(c, d));
    }
}
