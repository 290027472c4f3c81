using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Gauges;

/// <summary>Whether a part goes entirely into the small-parts cylinder in any orientation, uncompressed: a choking hazard for children under three.</summary>
/// <remarks>
/// The cylinder of 16 CFR 1501.4: bore 1.25 in, its floor slanted so that it is 1 in deep on one side and 2.25 in on the other; EN 71-1 and ISO 8124-1 use
/// the same. A part goes in with its hull, for the cavity is convex.
/// <para>
/// Method: all directions that the bore's axis can have in the part, as a tree of triangular patches. A patch is let go when the part's shadow or height there is too
/// large everywhere (<see cref="EnclosingCircle"/>), or when, for every turn about the axis, the part does not go into a gauge larger on all sides by as much
/// as its points can move within the patch. For one orientation the question is exact: the bore's axis can be anywhere within the bore's radius of
/// each point of the shadow, and the slanted floor wants it as far as possible to one side.
/// </para>
/// On the side of caution: a part within <see cref="CautionMm"/> of going in, or one that the work allowed does not suffice to rule out, counts as a small part:
/// hardly ever more than some hundredths of a millimetre, but up to about half a millimetre for round plugs as wide as the bore.
/// It knows the shape only: not what breaks off, and not parts that give. Cost: microseconds for most parts, some ms to half a second near the limit. Thread-safe.
/// </remarks>
public sealed class SmallPartsGauge
{
    public const double BoreMm = 31.75;
    public const double ShallowMm = 25.4;
    public const double DeepMm = 57.15;

    /// <summary>A part counts as going in when it would go into a gauge larger by this on every side (mm).</summary>
    public const double CautionMm = 0.05;

    private const long Budget = 50_000_000; // vertices looked at; several operations each

    private readonly HullSupport _support;
    private readonly EnclosingCircle _circle;
    private readonly CancellationToken _stop;
    private readonly double _reach; // of the points from the centre of the hull's box
    private readonly (double X, double Y, double Z)[] _seen;
    private long _budget = Budget;

    private SmallPartsGauge(HullSupport support, CancellationToken stop)
    {
        (_support, _stop) = (support, stop);
        _circle = new(support);
        _seen = new (double, double, double)[support.Count];
        for (var i = 0; i < support.Count; i++) _reach = Math.Max(_reach, Centred(i).Length);
    }

    /// <summary>True when the part goes in, or cannot be said not to.</summary>
    /// <param name="hull">Of the part, in mm.</param>
    /// <param name="stop">Ends the search with <see cref="OperationCanceledException"/>.</param>
    public static bool TakesIn(ConvexHull hull, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(hull);
        var room = Math.PI / 4 * (BoreMm + (2 * CautionMm)) * (BoreMm + (2 * CautionMm)) * (((ShallowMm + DeepMm) / 2) + (3 * CautionMm));
        var longest = Math.Sqrt((BoreMm * BoreMm) + (DeepMm * DeepMm)) + (4 * CautionMm);
        if (hull.Dimension < 1) return true;
        if (hull.Volume > room || hull.Bounds.Size.Length > Math.Sqrt(3) * longest) return false;
        var support = hull.Support.Reduced();
        if (support.LongestSpan().Length > longest) return false;
        var bore = BuildVolume.Round(BoreMm + (2 * CautionMm), DeepMm + (2 * CautionMm));
        return FitSearch.Fit(hull, bore, stop).Decision != FitDecision.DoesNotFit && new SmallPartsGauge(support, stop).TakesIn();
    }

    private bool TakesIn()
    {
        Span<Vec3> side = [Vec3.UnitX, Vec3.UnitY, -Vec3.UnitX, -Vec3.UnitY];
        for (var i = 0; i < 4; i++)
        {
            if (Visit(Vec3.UnitZ, side[i], side[(i + 1) % 4]) || Visit(-Vec3.UnitZ, side[i], side[(i + 1) % 4])) return true;
        }

        return false;
    }

    /// <summary>Does the part go in with the bore's axis, upward, somewhere in this triangle of directions?</summary>
    private bool Visit(Vec3 a, Vec3 b, Vec3 c)
    {
        _stop.ThrowIfCancellationRequested();
        var up = (a + b + c).Normalized();
        var cos = Math.Min(Vec3.Dot(up, a), Math.Min(Vec3.Dot(up, b), Vec3.Dot(up, c)));
        var turn = Math.Acos(Math.Clamp(cos, -1, 1));
        var frame = Rotation.BringingToZ(up);
        var shadow = _circle.Along(frame);
        var (sin, spare) = (Math.Sin(turn), (2 * CautionMm) + _support.Rounding);
        if (shadow.DiameterAtLeast(sin, cos) > BoreMm + spare || shadow.HeightAtLeast(sin, cos) > DeepMm + spare) return false;

        var moved = 2 * _reach * Math.Sin(turn / 2);
        var turns = Math.Max(8, (int)Math.Ceiling(Math.PI / Math.Max(turn, 1e-4)));
        var between = 2 * _reach * Math.Sin(Math.PI / turns / 2);
        Look(frame);
        var possible = false;
        for (var i = 0; i < turns; i++)
        {
            if ((_budget -= _seen.Length) <= 0) return true; // not ruled out
            var (y, x) = Math.SinCos(2 * Math.PI * i / turns);
            if (!GoesIn(x, y, CautionMm + moved + between)) continue;
            if (GoesIn(x, y, CautionMm)) return true;
            possible = true;
        }

        if (!possible) return false;
        var (ab, bc, ca) = ((a + b).Normalized(), (b + c).Normalized(), (c + a).Normalized());
        return Visit(ab, bc, ca) || Visit(a, ab, ca) || Visit(ab, b, bc) || Visit(ca, bc, c);
    }

    private Vec3 Centred(int i) =>
        new(_support.Floats[i], _support.Floats[_support.Padded + i], _support.Floats[(2 * _support.Padded) + i]);

    /// <summary>The points as the gauge sees them: z along the bore.</summary>
    private void Look(Rotation frame)
    {
        for (var i = 0; i < _seen.Length; i++)
        {
            var p = frame.Apply(Centred(i));
            _seen[i] = (p.X, p.Y, p.Z);
        }
    }

    /// <summary>
    /// Does the part go in, as it is seen, when the floor rises along (x, y), into a gauge larger on every side by <paramref name="more"/>? The floor's height where the
    /// axis is at a is (p − a) · (x, y) + bore / 2 under a point p, for it rises at 45°; with the part up against the mouth that must be under the point.
    /// </summary>
    private bool GoesIn(double x, double y, double more)
    {
        var (top, lean) = (double.NegativeInfinity, double.NegativeInfinity);
        foreach (var (px, py, pz) in _seen)
        {
            top = Math.Max(top, pz);
            lean = Math.Max(lean, (px * x) + (py * y) - pz);
        }

        var needed = (BoreMm / 2) + lean + top - DeepMm - ((1 + Math.Sqrt(2)) * more);
        return FarthestAxis(x, y, (BoreMm / 2) + more) >= needed;
    }

    /// <summary>
    /// How far along (x, y) the axis of a bore of this radius can be with all points inside; −∞ when the bore is too narrow. Held by one point or by two: the
    /// one that is violated most is taken in until none is.
    /// </summary>
    private double FarthestAxis(double x, double y, double radius)
    {
        var (one, two) = (0, -1);
        var least = double.PositiveInfinity;
        for (var i = 0; i < _seen.Length; i++)
        {
            var along = (_seen[i].X * x) + (_seen[i].Y * y);
            if (along < least) (least, one) = (along, i);
        }

        var axis = (X: _seen[one].X + (radius * x), Y: _seen[one].Y + (radius * y));
        for (var step = 0; step < 100; step++)
        {
            var (worst, far) = (-1, radius * radius * (1 + 1e-9));
            for (var i = 0; i < _seen.Length; i++)
            {
                var (dx, dy) = (_seen[i].X - axis.X, _seen[i].Y - axis.Y);
                var distance2 = (dx * dx) + (dy * dy);
                if (distance2 > far) (worst, far) = (i, distance2);
            }

            if (worst < 0) return (axis.X * x) + (axis.Y * y);
            if (!Hold(worst)) return double.NegativeInfinity;
        }

        return (axis.X * x) + (axis.Y * y); // an upper bound still: a relaxation

        bool Hold(int added)
        {
            var best = (X: 0.0, Y: 0.0, Along: double.NegativeInfinity, One: -1, Two: -1);
            Alone(added);
            Pair(added, one);
            if (two >= 0) Pair(added, two);
            if (best.One < 0) return false;
            (axis, one, two) = ((best.X, best.Y), best.One, best.Two);
            return true;

            void Alone(int p) => Consider((_seen[p].X + (radius * x), _seen[p].Y + (radius * y)), p, -1);

            void Pair(int p, int q)
            {
                var (dx, dy) = ((_seen[q].X - _seen[p].X) / 2, (_seen[q].Y - _seen[p].Y) / 2);
                var half2 = (dx * dx) + (dy * dy);
                if (half2 > radius * radius || half2 == 0) return;
                var h = Math.Sqrt(((radius * radius) / half2) - 1);
                var (mx, my) = (_seen[p].X + dx, _seen[p].Y + dy);
                Consider((mx - (h * dy), my + (h * dx)), p, q);
                Consider((mx + (h * dy), my - (h * dx)), p, q);
            }

            void Consider((double X, double Y) at, int p, int q)
            {
                var along = (at.X * x) + (at.Y * y);
                if (along <= best.Along || !Covers(at, one) || !Covers(at, added) || (two >= 0 && !Covers(at, two))) return;
                best = (at.X, at.Y, along, p, q);
            }
        }

        bool Covers((double X, double Y) at, int p)
        {
            var (dx, dy) = (_seen[p].X - at.X, _seen[p].Y - at.Y);
            return (dx * dx) + (dy * dy) <= radius * radius * (1 + 1e-8);
        }
    }
}
