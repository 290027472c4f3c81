namespace Catalogue.Demo.Shapes;

/// <summary>A closed plane polygon, optionally with its corners rounded by growing it; signed distance, negative inside.</summary>
/// <remarks>Exact; O(corners) per question. The corners may run either way round; the polygon must not cross itself.</remarks>
internal sealed class Outline
{
    private readonly Edge[] _edges;
    private readonly double _grown;
    private readonly bool _startsInside;

    private Outline(double[] x, double[] y, double grown)
    {
        _edges = [.. x.Select((_, i) => new Edge(x[i], y[i], x[(i + 1) % x.Length], y[(i + 1) % x.Length]))];
        _grown = grown;
        (Left, Right) = (x.Min() - grown, x.Max() + grown);
        (Bottom, Top) = (y.Min() - grown, y.Max() + grown);
    }

    private Outline(Outline whole, Edge[] edges, bool startsInside, double grown)
    {
        (_edges, _startsInside, _grown) = (edges, startsInside, grown);
        (Left, Right) = (whole.Left - grown + whole._grown, whole.Right + grown - whole._grown);
        (Bottom, Top) = (whole.Bottom - grown + whole._grown, whole.Top + grown - whole._grown);
    }

    private readonly record struct Edge(double Ax, double Ay, double Bx, double By);

    public double Left { get; }
    public double Right { get; }
    public double Bottom { get; }
    public double Top { get; }

    /// <summary>A polygon through the corners in order.</summary>
    public static Outline Of(params (double X, double Y)[] corners) =>
        new([.. corners.Select(c => c.X)], [.. corners.Select(c => c.Y)], 0);

    /// <summary>A smooth closed curve through the points (a closed Catmull–Rom spline, <paramref name="pieces"/> chords between neighbours).</summary>
    public static Outline Smooth(int pieces, params (double X, double Y)[] points)
    {
        var n = points.Length;
        var curve = new List<(double, double)>(n * pieces);
        for (var i = 0; i < n; i++)
        {
            var (a, b, c, d) = (points[(i + n - 1) % n], points[i], points[(i + 1) % n], points[(i + 2) % n]);
            for (var k = 0; k < pieces; k++)
            {
                var t = (double)k / pieces;
                curve.Add((Spline.At(a.X, b.X, c.X, d.X, t), Spline.At(a.Y, b.Y, c.Y, d.Y, t)));
            }
        }

        return Of([.. curve]);
    }

    /// <summary>
    /// A profile for a <see cref="Lathe"/>: (radius, height) pairs from the axis at one end to the axis at the other. It is mirrored to
    /// negative radii, so that the axis itself lies inside and is no edge.
    /// </summary>
    public static Outline Profile(params (double Radius, double Height)[] corners) =>
        Of([.. corners, .. corners.Reverse().Where(c => c.Radius > 0).Select(c => (-c.Radius, c.Height))]);

    /// <summary>The same with a smooth curve through the corners; the ends meet the axis at a right angle.</summary>
    public static Outline SmoothProfile(int pieces, params (double Radius, double Height)[] corners) =>
        Smooth(pieces, [.. corners, .. corners.Reverse().Where(c => c.Radius > 0).Select(c => (-c.Radius, c.Height))]);

    /// <summary>A star, or a gear for <paramref name="inner"/> near <paramref name="outer"/>.</summary>
    public static Outline Star(int points, double outer, double inner) => Of([.. Enumerable.Range(0, 2 * points).Select(i =>
    {
        var (s, c) = Math.SinCos((Math.PI * i / points) + (Math.PI / 2));
        var r = i % 2 == 0 ? outer : inner;
        return (r * c, r * s);
    })]);

    /// <summary>The outline grown by <paramref name="mm"/>; corners become arcs.</summary>
    public Outline Grown(double mm) => new(this, _edges, _startsInside, _grown + mm);

    public double Distance(double px, double py)
    {
        var least = double.PositiveInfinity;
        var inside = _startsInside;
        foreach (var (ax, ay, bx, by) in _edges)
        {
            var (ex, ey) = (bx - ax, by - ay);
            var (wx, wy) = (px - ax, py - ay);
            var t = Math.Clamp(((wx * ex) + (wy * ey)) / ((ex * ex) + (ey * ey)), 0, 1);
            var (dx, dy) = (wx - (ex * t), wy - (ey * t));
            least = Math.Min(least, (dx * dx) + (dy * dy));
            if (ay > py != by > py && px < ax + (wy * ex / ey)) inside = !inside;
        }

        var d = Math.Sqrt(least);
        return (inside ? -d : d) - _grown;
    }

    /// <summary>
    /// The same outline with only the edges that matter within <paramref name="reach"/> of a point: those that may be nearest, and those that a
    /// ray to the right from there may or may not cross; edges that every such ray crosses are counted once and for all.
    /// </summary>
    public Outline Near(double px, double py, double reach)
    {
        var far = Math.Abs(Distance(px, py) + _grown) + (2 * reach);
        var kept = new List<Edge>(8);
        var inside = _startsInside;
        foreach (var edge in _edges)
        {
            var (low, high) = (Math.Min(edge.Ay, edge.By), Math.Max(edge.Ay, edge.By));
            var (left, right) = (Math.Min(edge.Ax, edge.Bx), Math.Max(edge.Ax, edge.Bx));
            var never = low > py + reach || high < py - reach || right < px - reach;
            var always = !never && left > px + reach && low < py - reach && high > py + reach;
            if ((never || always) && Away(left, right, px) > far | Away(low, high, py) > far)
            {
                inside ^= always;
                continue;
            }

            kept.Add(edge);
        }

        return kept.Count == _edges.Length ? this : new(this, [.. kept], inside, _grown);

        static double Away(double from, double to, double at) => Math.Max(0, Math.Max(from - at, at - to));
    }
}
