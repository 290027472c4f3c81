using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>
/// The nearest of several shapes. A shape whose box is farther than the best so far cannot win and is not asked, which leaves sign and
/// lower bound untouched; inside its box a shape is always asked, so depths are right too.
/// </summary>
internal sealed class Union : Shape
{
    private readonly Shape[] _parts;
    private readonly BoundingBox[] _boxes;

    public Union(IEnumerable<Shape> parts)
        : this([.. parts.SelectMany(p => p is Union u ? u._parts : [p])])
    {
    }

    private Union(Shape[] parts)
        : base(parts.Select(p => p.Bounds).Aggregate(Boxes.Join), parts.Max(p => p.Growth))
    {
        _parts = parts;
        _boxes = [.. parts.Select(p => p.Bounds)];
    }

    public override double Distance(Vec3 p)
    {
        var best = double.PositiveInfinity;
        for (var i = 0; i < _parts.Length; i++)
        {
            if (!Boxes.IsBeyond(in _boxes[i], in p, best)) best = Math.Min(best, _parts[i].Distance(p));
        }

        return best;
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var best = Distance(center) + (2 * reach * Growth);
        var kept = new List<Shape>(4);
        var same = true;
        for (var i = 0; i < _parts.Length; i++)
        {
            if (Boxes.IsBeyond(in _boxes[i], in center, best) || _parts[i].Distance(center) > best) continue;
            var near = _parts[i].Near(center, reach);
            same &= ReferenceEquals(near, _parts[i]);
            kept.Add(near);
        }

        return kept.Count == 1 ? kept[0] : kept.Count == 0 || (same && kept.Count == _parts.Length) ? this : new Union(kept);
    }
}

/// <summary>Two shapes melted together: the polynomial smooth minimum min(a, b) − h²/(4k), h = max(k − |a − b|, 0), never above the minimum.</summary>
internal sealed class SmoothUnion(Shape a, Shape b, double radius)
    : Shape(Boxes.Grown(Boxes.Join(a.Bounds, b.Bounds), radius / 4), Math.Max(a.Growth, b.Growth))
{
    private readonly BoundingBox _boxA = a.Bounds;
    private readonly BoundingBox _boxB = b.Bounds;

    public override double Distance(Vec3 p)
    {
        var first = Boxes.OutsideSquared(in _boxA, in p) < Boxes.OutsideSquared(in _boxB, in p);
        var near = first ? a.Distance(p) : b.Distance(p);
        if (first) return Boxes.IsBeyond(in _boxB, in p, near + radius) ? near : Melt(near, b.Distance(p));
        return Boxes.IsBeyond(in _boxA, in p, near + radius) ? near : Melt(near, a.Distance(p));
    }

    private double Melt(double x, double y)
    {
        var h = Math.Max(radius - Math.Abs(x - y), 0);
        return Math.Min(x, y) - (h * h / (4 * radius));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var lead = a.Distance(center) - b.Distance(center);
        var sure = radius + (2 * reach * Growth);
        if (lead > sure) return b.Near(center, reach);
        if (lead < -sure) return a.Near(center, reach);
        var (na, nb) = (a.Near(center, reach), b.Near(center, reach));
        return ReferenceEquals(na, a) && ReferenceEquals(nb, b) ? this : new SmoothUnion(na, nb, radius);
    }
}

/// <summary>What of one shape lies outside another.</summary>
internal sealed class Difference(Shape from, Shape cut)
    : Shape(from.Bounds, Math.Max(from.Growth, cut.Growth))
{
    private readonly BoundingBox _box = cut.Bounds;

    public override double Distance(Vec3 p)
    {
        var d = from.Distance(p);
        return Boxes.IsBeyond(in _box, in p, -d) ? d : Math.Max(d, -cut.Distance(p));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var lead = from.Distance(center) + cut.Distance(center);
        if (lead > 2 * reach * Growth) return from.Near(center, reach);
        var near = cut.Near(center, reach);
        if (lead < -2 * reach * Growth) return new Complement(near);
        var kept = from.Near(center, reach);
        return ReferenceEquals(kept, from) && ReferenceEquals(near, cut) ? this : new Difference(kept, near);
    }
}

/// <summary>A difference whose edge is rounded: the smooth maximum, never below the maximum.</summary>
internal sealed class SmoothDifference(Shape from, Shape cut, double radius)
    : Shape(from.Bounds, Math.Max(from.Growth, cut.Growth))
{
    private readonly BoundingBox _box = cut.Bounds;

    public override double Distance(Vec3 p)
    {
        var d = from.Distance(p);
        if (Boxes.IsBeyond(in _box, in p, radius - d)) return d;
        var c = -cut.Distance(p);
        var h = Math.Max(radius - Math.Abs(d - c), 0);
        return Math.Max(d, c) + (h * h / (4 * radius));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var lead = from.Distance(center) + cut.Distance(center);
        var sure = radius + (2 * reach * Growth);
        if (lead > sure) return from.Near(center, reach);
        var near = cut.Near(center, reach);
        if (lead < -sure) return new Complement(near);
        var kept = from.Near(center, reach);
        return ReferenceEquals(kept, from) && ReferenceEquals(near, cut) ? this : new SmoothDifference(kept, near, radius);
    }
}

/// <summary>What two shapes share.</summary>
internal sealed class Intersection(Shape a, Shape b)
    : Shape(Boxes.Common(a.Bounds, b.Bounds), Math.Max(a.Growth, b.Growth))
{
    private readonly BoundingBox _box = Boxes.Common(a.Bounds, b.Bounds);

    public override double Distance(Vec3 p)
    {
        // Far from the shared box its distance alone is a lower bound, and the sign is known.
        return Boxes.IsBeyond(in _box, in p, 4) ? Boxes.Outside(in _box, in p) : Math.Max(a.Distance(p), b.Distance(p));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        if (Boxes.Outside(in _box, in center) + reach > 4) return this; // the far branch of Distance may apply within the reach
        var lead = a.Distance(center) - b.Distance(center);
        if (lead > 2 * reach * Growth) return a.Near(center, reach);
        if (lead < -2 * reach * Growth) return b.Near(center, reach);
        var (na, nb) = (a.Near(center, reach), b.Near(center, reach));
        return ReferenceEquals(na, a) && ReferenceEquals(nb, b) ? this : new Intersection(na, nb);
    }
}

/// <summary>
/// A shape whose surface stands <c>height</c> mm higher (or lies lower, when negative) inside a region, with shoulders 2.5 times as wide as
/// the step is high: shallow detail that a coarse grid can follow.
/// </summary>
/// <remarks>
/// The slope of the shoulder is at most 1.5 · height / width = 0.6: that much the value may grow faster than the distance.
/// </remarks>
internal sealed class Embossed(Shape inner, Shape region, double height)
    : Shape(Boxes.Grown(inner.Bounds, Math.Max(0, height)), inner.Growth + (0.6 * region.Growth))
{
    private readonly double _shoulder = 1.25 * Math.Abs(height);

    public override double Distance(Vec3 p)
    {
        var d = inner.Distance(p);
        var t = Math.Clamp((_shoulder - region.Distance(p)) / (2 * _shoulder), 0, 1);
        return d - (height * t * t * (3 - (2 * t)));
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var m = region.Distance(center);
        var sure = _shoulder + (reach * region.Growth);
        if (m > sure) return inner.Near(center, reach);
        if (m < -sure) return new Offset(inner.Near(center, reach), height);
        return new Embossed(inner.Near(center, reach), region.Near(center, reach), height);
    }
}

/// <summary>Everything that a shape is not.</summary>
internal sealed class Complement(Shape inner) : Shape(Boxes.Everything, inner.Growth)
{
    public override double Distance(Vec3 p) => -inner.Distance(p);
}

/// <summary>A shape grown (or shrunk) by a distance. Exact where the inner distance is.</summary>
internal sealed class Offset(Shape inner, double mm) : Shape(Boxes.Grown(inner.Bounds, mm), inner.Growth)
{
    public override double Distance(Vec3 p) => inner.Distance(p) - mm;

    public override Shape Near(Vec3 center, double reach)
    {
        var near = inner.Near(center, reach);
        return ReferenceEquals(near, inner) ? this : new Offset(near, mm);
    }
}

/// <summary>A shape turned, then moved.</summary>
internal sealed class Placed : Shape
{
    private readonly Shape _inner;
    private readonly Rotation _back;
    private readonly Rotation _turn;
    private readonly Vec3 _shift;

    private Placed(Shape inner, Rotation turn, Vec3 shift)
        : base(BoxOf(inner.Bounds, turn, shift), inner.Growth)
    {
        _inner = inner;
        _turn = turn;
        _back = turn.Inverse();
        _shift = shift;
    }

    public static Placed Of(Shape shape, Rotation turn, Vec3 shift) => shape is Placed p
        ? new(p._inner, turn.After(p._turn), turn.Apply(p._shift) + shift)
        : new(shape, turn, shift);

    public override double Distance(Vec3 p) => _inner.Distance(_back.Apply(p - _shift));

    private static BoundingBox BoxOf(BoundingBox box, Rotation turn, Vec3 shift)
    {
        var result = BoundingBox.Empty;
        for (var i = 0; i < 8; i++)
        {
            result = result.Including(shift + turn.Apply(new(
                (i & 1) == 0 ? box.Min.X : box.Max.X,
                (i & 2) == 0 ? box.Min.Y : box.Max.Y,
                (i & 4) == 0 ? box.Min.Z : box.Max.Z)));
        }

        return result;
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var near = _inner.Near(_back.Apply(center - _shift), reach);
        return ReferenceEquals(near, _inner) ? this : Of(near, _turn, _shift);
    }
}

/// <summary>A shape mirrored at x = 0, alone or together with its half at x ≥ 0.</summary>
internal sealed class Mirror(Shape inner, bool both) : Shape(BoxOf(inner.Bounds, both), inner.Growth)
{
    public override double Distance(Vec3 p) => inner.Distance(p with { X = both ? Math.Abs(p.X) : -p.X });

    private static BoundingBox BoxOf(BoundingBox b, bool both) => new(
        b.Min with { X = -b.Max.X },
        b.Max with { X = both ? b.Max.X : -b.Min.X });

    public override Shape Near(Vec3 center, double reach)
    {
        // Folding brings no two points further apart, so the reach stays the same.
        if (both && center.X > reach) return inner.Near(center, reach);
        var one = !both || center.X < -reach;
        var near = inner.Near(center with { X = one ? -center.X : Math.Abs(center.X) }, reach);
        return one == !both && ReferenceEquals(near, inner) ? this : new Mirror(near, !one);
    }
}

/// <summary>Copies at equal angles about z. Asks the two sectors next to the point, so the distance stays a true lower bound.</summary>
internal sealed class PolarRepeat(Shape inner, int count) : Shape(BoxOf(inner.Bounds), inner.Growth)
{
    private readonly double _sector = 2 * Math.PI / count;

    public override double Distance(Vec3 p)
    {
        var turns = Math.Atan2(p.Y, p.X) / _sector;
        var nearest = Math.Round(turns);
        var other = turns >= nearest ? nearest + 1 : nearest - 1;
        return Math.Min(At(p, nearest), At(p, other));
    }

    private double At(Vec3 p, double copy)
    {
        var (s, c) = Math.SinCos(copy * _sector);
        return inner.Distance(new((p.X * c) + (p.Y * s), (p.Y * c) - (p.X * s), p.Z));
    }

    private static BoundingBox BoxOf(BoundingBox b)
    {
        var x = Math.Max(Math.Abs(b.Min.X), Math.Abs(b.Max.X));
        var y = Math.Max(Math.Abs(b.Min.Y), Math.Abs(b.Max.Y));
        var r = Math.Sqrt((x * x) + (y * y));
        return new(new(-r, -r, b.Min.Z), new(r, r, b.Max.Z));
    }

    public override Shape Near(Vec3 center, double reach) => new Union(Enumerable.Range(0, count)
        .Select(i => Placed.Of(inner, Rotation.About(Vec3.UnitZ, i * _sector), Vec3.Zero))).Near(center, reach);
}

/// <summary>A shape stretched along the axes. A lower bound of the distance: the inner one times the least factor.</summary>
internal sealed class Stretch(Shape inner, Vec3 factor) : Shape(BoxOf(inner.Bounds, factor), inner.Growth)
{
    private readonly double _least = Math.Min(factor.X, Math.Min(factor.Y, factor.Z));

    public override double Distance(Vec3 p) => inner.Distance(new(p.X / factor.X, p.Y / factor.Y, p.Z / factor.Z)) * _least;

    private static BoundingBox BoxOf(BoundingBox b, Vec3 f) => new(
        new(b.Min.X * f.X, b.Min.Y * f.Y, b.Min.Z * f.Z),
        new(b.Max.X * f.X, b.Max.Y * f.Y, b.Max.Z * f.Z));

    public override Shape Near(Vec3 center, double reach)
    {
        var near = inner.Near(new(center.X / factor.X, center.Y / factor.Y, center.Z / factor.Z), reach / _least);
        return ReferenceEquals(near, inner) ? this : new Stretch(near, factor);
    }
}
