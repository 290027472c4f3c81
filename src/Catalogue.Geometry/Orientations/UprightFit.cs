using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Orientations;

/// <summary>Whether a part with a given side up fits a build volume when it is turned about the upright.</summary>
/// <remarks>
/// Turns along every side of the footprint's polygon and every 3° are tried, the best is polished. Tried on a hull of at most some 1500 points, then measured on all:
/// what <see cref="Exactly"/> gives does fit; a turn that fits by less than some hundredths of a millimetre may be missed. Where there is room without a turn, or with a quarter turn,
/// that is taken: whoever lays the part down has one number less to type.
/// </remarks>
internal sealed class UprightFit
{
    private const int EvenTurns = 60;
    private const int Polish = 24;

    /// <summary>With so much to spare (mm) nobody needs the last turn.</summary>
    private const double PlentyMm = 1;

    private readonly ConvexHull _hull;
    private readonly HullSupport _rough;
    private readonly BuildVolume _volume;

    public UprightFit(ConvexHull hull, BuildVolume volume) => (_hull, _rough, _volume) = (hull, hull.Support.Reduced(), volume);

    /// <summary>A rotation that fits, measured on the whole hull.</summary>
    public readonly record struct Placed(Rotation Rotation, Vec3 Size, double SpareMm);

    /// <summary>The lowest place along a direction (mm).</summary>
    public double PlateAlong(Vec3 up)
    {
        var low = double.PositiveInfinity;
        for (var i = 0; i < _rough.Count; i++) low = Math.Min(low, Vec3.Dot(up, _rough.Point(i)));
        return low;
    }

    /// <summary>Height along a direction (mm).</summary>
    public double HeightAlong(Vec3 up) => _rough.ExtentAlong(up);

    /// <summary>The rotation that lays the part with <paramref name="up"/> away from the plate, plainly if there is room, else sparing most; null when it does not fit.</summary>
    public Rotation? Upright(Vec3 up)
    {
        if (_rough.ExtentAlong(up) > _volume.UsableHeight) return null;
        var frame = WithoutLastTurn(up);
        if (_volume.IsRound) return new EnclosingCircle(_rough).Along(frame).Diameter <= _volume.UsableWidth ? frame : null;
        var points = new (double X, double Y)[_rough.Count];
        for (var i = 0; i < points.Length; i++) points[i] = (Vec3.Dot(frame.RowX, _rough.Point(i)), Vec3.Dot(frame.RowY, _rough.Point(i)));
        var ring = SmallestRectangle.Ring(points);
        var (best, spare) = (0.0, Spare(ring, 0));
        if (spare >= PlentyMm) return frame;
        Try(Math.PI / 2);
        if (spare >= PlentyMm) return Rotation.About(Vec3.UnitZ, best).After(frame);
        for (var i = 1; i < EvenTurns; i++) Try(i * Math.PI / EvenTurns);
        for (var i = 0; i < ring.Count; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Count]);
            var turn = -Math.Atan2(b.Y - a.Y, b.X - a.X);
            Try(turn);
            Try(turn + (Math.PI / 2));
        }

        for (var (step, i) = (Math.PI / EvenTurns / 2, 0); i < Polish; i++)
        {
            var before = spare;
            Try(best + step);
            Try(best - step);
            if (spare <= before) step /= 2;
        }

        return spare >= 0 ? Rotation.About(Vec3.UnitZ, best).After(frame) : null;

        void Try(double turn)
        {
            var found = Spare(ring, turn);
            if (found > spare) (best, spare) = (turn, found);
        }
    }

    /// <summary>The same rotation with its size on the whole hull; null when that is too large after all.</summary>
    public Placed? Exactly(Rotation rotation)
    {
        var size = _hull.Support.ExtentsIn(rotation);
        if (_volume.IsRound)
        {
            var diameter = new EnclosingCircle(_hull.Support).DiameterOf(_hull, rotation);
            size = new(diameter, diameter, size.Z);
        }

        var spare = Math.Min(_volume.UsableWidth - size.X, Math.Min(_volume.UsableDepth - size.Y, _volume.UsableHeight - size.Z));
        return spare >= 0 ? new(rotation, size, spare) : null;
    }

    /// <summary>Turns about x, then y, that bring <paramref name="up"/> upright: what <see cref="Rotation.ToTurns"/> calls a last turn of nothing.</summary>
    private static Rotation WithoutLastTurn(Vec3 up) => Rotation.About(Vec3.UnitY, Math.Atan2(-up.X, double.Hypot(up.Y, up.Z)))
        .After(Rotation.About(Vec3.UnitX, Math.Atan2(up.Y, up.Z)));

    private double Spare(List<(double X, double Y)> ring, double turn)
    {
        var (s, c) = Math.SinCos(turn);
        var (left, right, front, back) = (double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity, double.NegativeInfinity);
        foreach (var (px, py) in ring)
        {
            var (x, y) = ((c * px) - (s * py), (s * px) + (c * py));
            (left, right) = (Math.Min(left, x), Math.Max(right, x));
            (front, back) = (Math.Min(front, y), Math.Max(back, y));
        }

        return Math.Min(_volume.UsableWidth - (right - left), _volume.UsableDepth - (back - front));
    }
}
