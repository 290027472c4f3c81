using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Health;

/// <summary>A place where the surface runs through itself.</summary>
/// <param name="First">Number of one triangle.</param>
/// <param name="Second">Number of the other, larger than <paramref name="First"/>.</param>
/// <param name="At">A point where they meet (to rounding), mm.</param>
public readonly record struct SelfIntersection(int First, int Second, Vec3 At);

/// <summary>Where the surface of a mesh runs through or lies on itself.</summary>
/// <param name="Count">Pairs of triangles that meet where they should not; see <see cref="TrianglePair"/> for what that is.</param>
/// <param name="CountIsExact">False when the search was given up because the triangles lie on each other by the hundreds: there are at least <paramref name="Count"/>.</param>
/// <param name="Places">Some of the pairs, spread over the part.</param>
public sealed record SelfIntersections(long Count, bool CountIsExact, IReadOnlyList<SelfIntersection> Places)
{
    // Pairs with touching boxes looked at before giving up: some seconds' work. A clean mesh has about seven a triangle.
    private const long LeastBudget = 200_000_000;
    private const long BudgetPerTriangle = 100;

    // Pairs remembered by one piece of the work, of which places are chosen.
    private const int Remembered = 256;

    /// <summary>
    /// Finds all pairs of triangles that meet other than at shared corners and edges: exact, O(n log n + pairs of touching
    /// boxes), on all cores. Corners at the same place count as shared, welded or not.
    /// </summary>
    /// <param name="mesh">The mesh the tree was built of.</param>
    /// <param name="tree">Its tree.</param>
    /// <param name="maxPlaces">At most this many places are returned.</param>
    /// <param name="cancel">Stops the search.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    public static SelfIntersections Find(
        TriangleMesh mesh, TriangleTree tree, int maxPlaces = 100, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(tree);
        ArgumentOutOfRangeException.ThrowIfNegative(maxPlaces);
        if (!ReferenceEquals(mesh, tree.Mesh)) throw new ArgumentException("The tree is that of another mesh.", nameof(tree));

        // An eighth of the budget for each piece: work is uneven, but no heap of triangles may take for ever.
        var budget = Math.Max(LeastBudget, BudgetPerTriangle * mesh.TriangleCount) / 8;
        var found = tree.VisitTouchingPairs(() => new PairTest(mesh, budget, cancel), progress, cancel);
        cancel.ThrowIfCancellationRequested();
        var pairs = found.SelectMany(f => f.Pairs).Order().ToArray();
        return new(found.Sum(f => f.Count), found.All(f => f.BudgetLeft > 0), Spread(mesh, pairs, maxPlaces));
    }

    private struct PairTest(TriangleMesh mesh, long budget, CancellationToken cancel) : IPairVisitor
    {
        public long Count { get; private set; }

        public long BudgetLeft { get; private set; } = budget;

        public List<(int First, int Second)> Pairs { get; } = [];

        public readonly bool Enough => BudgetLeft <= 0 || cancel.IsCancellationRequested;

        public void Visit(int first, int second)
        {
            BudgetLeft--;
            var (a, b, c) = mesh.Triangle(first);
            var (p, q, r) = mesh.Triangle(second);
            if (!TrianglePair.Intersects(a, b, c, p, q, r)) return;
            Count++;
            if (Pairs.Count < Remembered) Pairs.Add(first < second ? (first, second) : (second, first));
        }
    }

    /// <summary>Chooses places: the first pair, then always the one farthest from those chosen; in the order of the pairs.</summary>
    private static List<SelfIntersection> Spread(TriangleMesh mesh, (int First, int Second)[] pairs, int maxPlaces)
    {
        var points = Array.ConvertAll(pairs, pair => MeetingPoint(mesh, pair));
        var farness = new double[pairs.Length];
        Array.Fill(farness, double.PositiveInfinity);
        var chosen = new SortedSet<int>();
        while (chosen.Count < Math.Min(maxPlaces, pairs.Length))
        {
            var next = 0;
            for (var i = 1; i < pairs.Length; i++) next = farness[i] > farness[next] ? i : next;
            chosen.Add(next);
            for (var i = 0; i < pairs.Length; i++) farness[i] = Math.Min(farness[i], (points[i] - points[next]).LengthSquared);
            farness[next] = -1;
        }

        return [.. chosen.Select(i => new SelfIntersection(pairs[i].First, pairs[i].Second, points[i]))];
    }

    /// <summary>The middle of where the edges of each triangle cross the other; when they lie in one plane, the middle of the overlap of their boxes.</summary>
    private static Vec3 MeetingPoint(TriangleMesh mesh, (int First, int Second) pair)
    {
        var one = mesh.Triangle(pair.First);
        var two = mesh.Triangle(pair.Second);
        var (sum, count) = (Vec3.Zero, 0);
        AddCrossings(one, two);
        AddCrossings(two, one);
        if (count > 0) return sum / count;
        var (a, b) = (Box(one), Box(two));
        var low = new Vec3(Math.Max(a.Min.X, b.Min.X), Math.Max(a.Min.Y, b.Min.Y), Math.Max(a.Min.Z, b.Min.Z));
        var high = new Vec3(Math.Min(a.Max.X, b.Max.X), Math.Min(a.Max.Y, b.Max.Y), Math.Min(a.Max.Z, b.Max.Z));
        return (low + high) * 0.5;

        void AddCrossings((Vec3 A, Vec3 B, Vec3 C) edges, (Vec3 A, Vec3 B, Vec3 C) face)
        {
            var normal = Vec3.Cross(face.B - face.A, face.C - face.A);
            ReadOnlySpan<Vec3> corners = [edges.A, edges.B, edges.C, edges.A];
            for (var i = 0; i < 3; i++)
            {
                var (from, to) = (Vec3.Dot(normal, corners[i] - face.A), Vec3.Dot(normal, corners[i + 1] - face.A));
                if (from * to > 0 || from == to) continue;
                var p = corners[i] + ((corners[i + 1] - corners[i]) * (from / (from - to)));
                var q = NearestPoint.OnTriangle(p, face.A, face.B, face.C).Point;
                if (Vec3.Distance(p, q) > 1e-9 * (1 + p.Length)) continue;
                sum += p;
                count++;
            }
        }
    }

    private static BoundingBox Box((Vec3 A, Vec3 B, Vec3 C) t) => BoundingBox.Empty.Including(t.A).Including(t.B).Including(t.C);
}
