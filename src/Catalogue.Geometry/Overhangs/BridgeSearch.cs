using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Overhangs;

/// <summary>Finds near-flat undersides and how they are held: see <see cref="Bridge"/>. O(triangles) plus some 40 · outline edges a region.</summary>
internal sealed class BridgeSearch
{
    private const int NearFlatDegrees = 80;
    private const int MostRegions = 200;
    private const int Directions = 36;
    private const int EdgeDirections = 8;
    private const int Lines = 64;
    private const double AsGood = 0.8;

    private readonly OverhangPose _pose;
    private readonly int[] _regionOf;

    /// <summary>One underside.</summary>
    internal sealed class Region(List<int> triangles)
    {
        public List<int> Triangles { get; } = triangles;
        public double Shadow { get; set; }
        public double Prism { get; set; }
        public double HeldShare { get; set; }
        public double Span { get; set; }
        public Vec3 At { get; set; }
        public double Volume { get; set; }
        public double Held => Shadow * HeldShare;
    }

    /// <summary>An edge of the outline seen from above.</summary>
    private readonly record struct Edge(double X1, double Y1, double X2, double Y2, bool Held)
    {
        public double Length => double.Hypot(X2 - X1, Y2 - Y1);
    }

    private BridgeSearch(OverhangPose pose)
    {
        _pose = pose;
        _regionOf = new int[pose.Mesh.TriangleCount];
    }

    /// <summary>The bridges, the largest first.</summary>
    public List<Region> Regions { get; private set; } = [];

    /// <summary>Number of the bridge a triangle belongs to, or −1.</summary>
    public int RegionOf(int triangle) => _regionOf[triangle];

    public static BridgeSearch Find(OverhangPose pose, CancellationToken stop)
    {
        var search = new BridgeSearch(pose);
        search.Regions = [.. search.Undersides(stop).Where(search.IsHeld).OrderByDescending(r => r.Held).ThenBy(r => r.Triangles[0])];
        Array.Fill(search._regionOf, -1);
        for (var r = 0; r < search.Regions.Count; r++)
            foreach (var t in search.Regions[r].Triangles) search._regionOf[t] = r;
        return search;
    }

    /// <summary>The largest connected undersides.</summary>
    private List<Region> Undersides(CancellationToken stop)
    {
        var opposite = _pose.Surface.Edges.Opposite;
        var regions = new List<Region>();
        var waiting = new Stack<int>();
        for (var first = 0; first < _regionOf.Length; first++)
        {
            if (_pose.Degree[first] < NearFlatDegrees || _regionOf[first] > 0) continue;
            stop.ThrowIfCancellationRequested();
            var region = new Region([]);
            Take(first);
            while (waiting.TryPop(out var t))
            {
                region.Triangles.Add(t);
                region.Shadow += _pose.Shadow[t];
                region.Prism += _pose.PrismOf(t);
                for (var h = 3 * t; h < (3 * t) + 3; h++)
                    if (opposite[h] >= 0) Take(opposite[h] / 3);
            }

            if (region.Shadow >= Bridge.LeastMm2) regions.Add(region);

            void Take(int t)
            {
                if (_pose.Degree[t] < NearFlatDegrees || _regionOf[t] > 0) return;
                _regionOf[t] = 1;
                waiting.Push(t);
            }
        }

        return [.. regions.OrderByDescending(r => r.Shadow).ThenBy(r => r.Triangles[0]).Take(MostRegions)];
    }

    private bool IsHeld(Region region)
    {
        var edges = Outline(region);
        if (!edges.Exists(e => e.Held)) return false;
        var crossings = new List<(double Along, bool Held)>[Lines];
        for (var i = 0; i < Lines; i++) crossings[i] = [];
        List<Laid> ways = [.. LayingDirections(edges).Select(d => Lay(edges, d.X, d.Y, crossings))];
        var most = ways.Max(w => w.HeldShare);
        var best = ways.Where(w => w.HeldShare >= AsGood * most).MinBy(w => w.Span);
        (region.HeldShare, region.Span) = (best.HeldShare, best.Span);
        var height = region.Prism / region.Shadow;
        region.At = _pose.PointAt(best.AtX, best.AtY, height);
        return region.Held >= Bridge.LeastMm2;
    }

    private List<Edge> Outline(Region region)
    {
        var mesh = _pose.Mesh;
        var opposite = _pose.Surface.Edges.Opposite;
        var edges = new List<Edge>();
        foreach (var t in region.Triangles)
        {
            for (var h = 3 * t; h < (3 * t) + 3; h++)
            {
                var other = opposite[h];
                if (other >= 0 && _pose.Degree[other / 3] >= NearFlatDegrees) continue;
                var (a, b) = (mesh.Vertex(mesh.Indices[h]), mesh.Vertex(mesh.Indices[EdgeAdjacency.Next(h)]));
                var (ax, ay) = _pose.Seen(a);
                var (bx, by) = _pose.Seen(b);
                edges.Add(new(ax, ay, bx, by, other >= 0 && GoesOnDownward(t, a, other)));
            }
        }

        return edges;
    }

    /// <summary>Matter goes on below the underside where its neighbour bends away outward: an inner edge.</summary>
    private bool GoesOnDownward(int triangle, Vec3 onEdge, int otherHalfEdge)
    {
        var (a, b, c) = _pose.Mesh.Triangle(triangle);
        var outward = Vec3.Cross(b - a, c - a).Normalized();
        var apex = _pose.Mesh.Vertex(_pose.Mesh.Indices[EdgeAdjacency.Previous(otherHalfEdge)]) - onEdge;
        return Vec3.Dot(outward, apex) > 1e-3 * apex.Length;
    }

    /// <summary>Evenly all round, and square to the longest held edges.</summary>
    private static IEnumerable<(double X, double Y)> LayingDirections(List<Edge> edges)
    {
        foreach (var edge in edges.Where(e => e is { Held: true, Length: > 0 }).OrderByDescending(e => e.Length).Take(EdgeDirections))
            yield return ((edge.Y1 - edge.Y2) / edge.Length, (edge.X2 - edge.X1) / edge.Length);
        for (var i = 0; i < Directions; i++)
        {
            var (s, c) = Math.SinCos(Math.PI * i / Directions);
            yield return (c, s);
        }
    }

    /// <summary>What lines in one direction give.</summary>
    private readonly record struct Laid(double HeldShare, double Span, double AtX, double AtY);

    private static Laid Lay(List<Edge> edges, double x, double y, List<(double Along, bool Held)>[] crossings)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var e in edges)
        {
            var (p, q) = ((e.Y1 * x) - (e.X1 * y), (e.Y2 * x) - (e.X2 * y));
            (low, high) = (Math.Min(low, Math.Min(p, q)), Math.Max(high, Math.Max(p, q)));
        }

        var pitch = (high - low) / Lines;
        if (!(pitch > 0)) return default;
        foreach (var line in crossings) line.Clear();
        foreach (var e in edges)
        {
            var (p, q) = ((e.Y1 * x) - (e.X1 * y), (e.Y2 * x) - (e.X2 * y));
            var (from, to) = (Math.Min(p, q), Math.Max(p, q));
            for (var i = Math.Max(0, (int)Math.Ceiling(((from - low) / pitch) - 0.5)); i < Lines; i++)
            {
                var across = low + ((i + 0.5) * pitch);
                if (across >= to) break;
                if (across < from) continue;
                var part = (across - p) / (q - p);
                var along = ((e.X1 + ((e.X2 - e.X1) * part)) * x) + ((e.Y1 + ((e.Y2 - e.Y1) * part)) * y);
                crossings[i].Add((along, e.Held));
            }
        }

        var (all, held, span, at, acrossAt) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < Lines; i++)
        {
            var line = crossings[i];
            line.Sort();
            for (var k = 0; k + 1 < line.Count; k += 2)
            {
                var length = line[k + 1].Along - line[k].Along;
                all += length;
                if (!line[k].Held || !line[k + 1].Held) continue;
                held += length;
                if (length <= span) continue;
                (span, at, acrossAt) = (length, (line[k].Along + line[k + 1].Along) / 2, low + ((i + 0.5) * pitch));
            }
        }

        return all > 0 ? new(held / all, span, (at * x) - (acrossAt * y), (at * y) + (acrossAt * x)) : default;
    }
}
