using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Spatial;

public sealed class TriangleTreeTests
{
    private static readonly TriangleMesh Ring = Shapes.Knobbly(60, 30);

    // Möller and Trumbore, Journal of Graphics Tools 2(1), 1997, over every triangle, is the plain answer.
    [Fact]
    public void The_first_hit_is_that_of_a_search_over_every_triangle()
    {
        var tree = TriangleTree.Build(Ring);
        var random = new Random(1);
        var hits = 0;
        for (var i = 0; i < 2000; i++)
        {
            var ray = new Ray(Shapes.PointIn(Ring.Bounds, random), Shapes.Direction(random));
            var plain = double.PositiveInfinity;
            for (var t = 0; t < Ring.TriangleCount; t++) plain = Math.Min(plain, PlainHit(ray, Ring.Triangle(t)));
            var found = tree.FirstHit(ray);
            Assert.Equal(double.IsFinite(plain), found != null);
            Assert.Equal(found != null, tree.AnyHit(ray));
            if (found == null) continue;
            hits++;
            Assert.Equal(plain, found.Value.Distance, 1e-9);
            Assert.False(tree.AnyHit(ray, found.Value.Distance - 1e-6));
            Assert.Null(tree.FirstHit(ray, found.Value.Distance - 1e-6));
        }

        Assert.InRange(hits, 300, 1900);
    }

    [Fact]
    public void The_nearest_point_is_that_of_a_search_over_every_triangle()
    {
        var tree = TriangleTree.Build(Ring);
        var random = new Random(2);
        for (var i = 0; i < 500; i++)
        {
            var p = Shapes.PointIn(Ring.Bounds, random);
            var plain = double.PositiveInfinity;
            for (var t = 0; t < Ring.TriangleCount; t++)
            {
                var (a, b, c) = Ring.Triangle(t);
                plain = Math.Min(plain, Vec3.Distance(p, NearestPoint.OnTriangle(p, a, b, c).Point));
            }

            var found = tree.Nearest(p)!.Value;
            Assert.Equal(plain, found.Distance, 1e-9);
            Assert.Equal(found.Distance, Vec3.Distance(p, found.Point), 1e-12);
            Assert.Null(tree.Nearest(p, plain * (1 - 1e-9)));
            Assert.NotNull(tree.Nearest(p, plain * (1 + 1e-9)));
        }
    }

    [Theory]
    [InlineData(0.5, 0.5, 2, TriangleFeature.Face, 0.5, 0.5)]
    [InlineData(-1, -1, 0, TriangleFeature.VertexA, 0, 0)]
    [InlineData(5, -1, 0, TriangleFeature.VertexB, 4, 0)]
    [InlineData(-1, 5, 0, TriangleFeature.VertexC, 0, 4)]
    [InlineData(1, -1, 1, TriangleFeature.EdgeAB, 1, 0)]
    [InlineData(3, 3, 1, TriangleFeature.EdgeBC, 2, 2)]
    [InlineData(-2, 1, 0, TriangleFeature.EdgeCA, 0, 1)]
    public void The_nearest_point_says_where_on_the_triangle_it_lies(double x, double y, double z, TriangleFeature feature, double qx, double qy)
    {
        var tree = TriangleTree.Build(new TriangleMesh([0, 0, 0, 4, 0, 0, 0, 4, 0], [0, 1, 2]));
        var found = tree.Nearest(new(x, y, z))!.Value;
        Assert.Equal(feature, found.Feature);
        Assert.Equal(new Vec3(qx, qy, 0), found.Point);
    }

    [Fact]
    public void A_ray_at_an_edge_or_corner_never_slips_through_and_crosses_once()
    {
        var box = Solids.Box(8, 8, 8);
        var tree = TriangleTree.Build(box);
        for (var x = 0; x <= 8; x++)
        {
            for (var y = 0; y <= 8; y++)
            {
                // Down onto the diagonal, the rim and the corners of the top.
                var ray = new Ray(new(x, y, 20), new(0, 0, -1));
                Assert.Equal(12, tree.FirstHit(ray)!.Value.Distance, 1e-12);
                if (x is > 0 and < 8 && y is > 0 and < 8) Assert.Equal((2, 0), tree.Crossings(ray));
            }
        }

        // Through opposite corners from outside, and from the middle through each corner.
        Assert.Equal(0, tree.Crossings(new(new(-1, -1, -1), new(1, 1, 1))).Winding);
        for (var i = 0; i < 8; i++)
        {
            Assert.Equal((1, 1), tree.Crossings(new(new(4, 4, 4), new((i & 1) == 0 ? 1 : -1, (i & 2) == 0 ? 1 : -1, (i & 4) == 0 ? 1 : -1))));
        }
    }

    [Fact]
    public void Rays_aimed_at_the_corners_and_edge_middles_of_a_ball_from_inside_leave_it_once()
    {
        var ball = Solids.Icosphere(10, 3);
        var tree = TriangleTree.Build(ball);
        var from = new Vec3(0.3, -0.2, 0.1);
        for (var v = 0; v < ball.VertexCount; v++) Assert.Equal(1, tree.Crossings(new(from, ball.Vertex(v) - from)).Winding);
        for (var t = 0; t < ball.TriangleCount; t++)
        {
            var (a, b, _) = ball.Triangle(t);
            Assert.Equal(1, tree.Crossings(new(from, ((a + b) * 0.5) - from)).Winding);
            Assert.NotNull(tree.FirstHit(new(from, ((a + b) * 0.5) - from)));
        }
    }

    [Fact]
    public void Matter_between_a_ball_and_the_void_inside_it_is_contained_and_nothing_else()
    {
        var shell = Solids.Together(Solids.Icosphere(10, 3), Solids.Inverted(Solids.Icosphere(6, 3)));
        var tree = TriangleTree.Build(shell);
        var random = new Random(3);
        for (var i = 0; i < 1000; i++)
        {
            var direction = Shapes.Direction(random);
            Assert.True(tree.Contains(direction * 8));
            Assert.False(tree.Contains(direction * 5));
            Assert.False(tree.Contains(direction * 11));
        }
    }

    [Fact]
    public void All_hits_come_in_order_and_say_which_side_they_meet()
    {
        var shell = Solids.Together(Solids.Box(10, 10, 10), Solids.Box(10, 10, 10).Transformed(Rotation.Identity, new(0, 0, 20)));
        var hits = new List<RayHit>();
        TriangleTree.Build(shell).AllHits(new(new(3, 4, -5), Vec3.UnitZ), hits);
        Assert.Equal([5, 15, 25, 35], hits.Select(h => h.Distance));
        Assert.Equal([true, false, true, false], hits.Select(h => h.FromFront));
    }

    [Fact]
    public void Touching_pairs_are_those_whose_boxes_touch_each_once()
    {
        var mesh = Shapes.Knobbly(24, 12);
        var found = Pairs(TriangleTree.Build(mesh).VisitTouchingPairs(() => new PairList([])));
        var plain = new List<(int, int)>();
        for (var i = 0; i < mesh.TriangleCount; i++)
        {
            for (var j = i + 1; j < mesh.TriangleCount; j++)
            {
                if (Touch(Box(mesh, i), Box(mesh, j))) plain.Add((i, j));
            }
        }

        Assert.Equal(plain, found.Select(p => p.First < p.Second ? p : (p.Second, p.First)).Order());
    }

    [Fact]
    public void Touching_pairs_of_two_meshes_are_those_whose_boxes_touch()
    {
        var a = Solids.Icosphere(5, 2);
        var b = Solids.Torus(5, 1, 20, 8);
        var found = Pairs(TriangleTree.Build(a).VisitTouchingPairs(TriangleTree.Build(b), () => new PairList([])));
        var plain = new List<(int, int)>();
        for (var i = 0; i < a.TriangleCount; i++)
        {
            for (var j = 0; j < b.TriangleCount; j++)
            {
                if (Touch(Box(a, i), Box(b, j))) plain.Add((i, j));
            }
        }

        Assert.Equal(plain, found.Order());
    }

    [Fact]
    public void A_tree_built_again_gives_the_same_answers()
    {
        var mesh = Shapes.Knobbly(400, 120);
        var (one, two) = (TriangleTree.Build(mesh), TriangleTree.Build(mesh));
        var random = new Random(4);
        for (var i = 0; i < 300; i++)
        {
            var p = Shapes.PointIn(mesh.Bounds, random);
            Assert.Equal(one.Nearest(p), two.Nearest(p));
        }

        Assert.Equal(Pairs(one.VisitTouchingPairs(() => new PairList([]))), Pairs(two.VisitTouchingPairs(() => new PairList([]))));
    }

    [Fact]
    public void A_large_mesh_whose_subtrees_are_split_side_by_side_too_has_every_triangle_once()
    {
        var mesh = Shapes.Knobbly(300, 100);
        var tree = new TriangleTreeBuilder(mesh, CancellationToken.None, parallelAbove: 200).Build();
        Assert.Equal(Enumerable.Range(0, mesh.TriangleCount), tree.TrianglesInOrder().Order());
        var plain = TriangleTree.Build(mesh);
        var random = new Random(6);
        for (var i = 0; i < 300; i++)
        {
            var p = Shapes.PointIn(mesh.Bounds, random);
            Assert.Equal(plain.Nearest(p)!.Value.Distance, tree.Nearest(p)!.Value.Distance, 1e-12);
        }
    }

    [Fact]
    public void An_empty_mesh_a_single_triangle_and_a_heap_of_equal_ones_have_trees()
    {
        var empty = TriangleTree.Build(new TriangleMesh([], []));
        Assert.Null(empty.Nearest(Vec3.Zero));
        Assert.Null(empty.FirstHit(new(Vec3.Zero, Vec3.UnitX)));
        Assert.False(empty.Contains(Vec3.Zero));
        var heap = new TriangleMesh([0, 0, 0, 1, 0, 0, 0, 1, 0], [.. Enumerable.Repeat(new[] { 0, 1, 2 }, 3000).SelectMany(t => t)]);
        var tree = TriangleTree.Build(heap);
        Assert.Equal(3000, tree.Crossings(new(new(0.2, 0.2, 1), new(0, 0, -1))).Count);
        Assert.Equal(3000 * 2999 / 2, Pairs(tree.VisitTouchingPairs(() => new PairList([]))).Count);
    }

    [Fact]
    public void Triangles_without_area_are_never_hit_but_can_be_nearest()
    {
        var tree = TriangleTree.Build(new TriangleMesh([0, 0, 0, 4, 0, 0, 8, 0, 0], [0, 1, 2, 0, 0, 0]));
        Assert.Null(tree.FirstHit(new(new(2, 0, 5), new(0, 0, -1))));
        Assert.Equal(3, tree.Nearest(new(6, 3, 0))!.Value.Distance, 1e-12);
    }

    [Fact]
    public void A_coordinate_that_is_not_a_number_is_refused()
    {
        Assert.Throws<ArgumentException>(() => TriangleTree.Build(new TriangleMesh([0, 0, 0, 1, float.NaN, 0, 0, 1, 0], [0, 1, 2])));
        Assert.Throws<ArgumentException>(() => TriangleTree.Build(new TriangleMesh([0, 0, 0, 1e30f, 0, 0, 0, 1, 0], [0, 1, 2])));
    }

    private readonly record struct PairList(List<(int First, int Second)> Pairs) : IPairVisitor
    {
        public bool Enough => false;

        public void Visit(int first, int second) => Pairs.Add((first, second));
    }

    private static List<(int First, int Second)> Pairs(PairList[] lists) => [.. lists.SelectMany(l => l.Pairs)];

    private static BoundingBox Box(TriangleMesh mesh, int triangle)
    {
        var (a, b, c) = mesh.Triangle(triangle);
        return BoundingBox.Empty.Including(a).Including(b).Including(c);
    }

    private static bool Touch(BoundingBox a, BoundingBox b) =>
        a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y && a.Min.Z <= b.Max.Z && b.Min.Z <= a.Max.Z;

    private static double PlainHit(Ray ray, (Vec3 A, Vec3 B, Vec3 C) t)
    {
        var (e1, e2) = (t.B - t.A, t.C - t.A);
        var h = Vec3.Cross(ray.Direction, e2);
        var det = Vec3.Dot(e1, h);
        var s = ray.Origin - t.A;
        var u = Vec3.Dot(s, h) / det;
        var q = Vec3.Cross(s, e1);
        var v = Vec3.Dot(ray.Direction, q) / det;
        var distance = Vec3.Dot(e2, q) / det;
        return u >= 0 && v >= 0 && u + v <= 1 && distance >= 0 ? distance : double.PositiveInfinity;
    }
}
