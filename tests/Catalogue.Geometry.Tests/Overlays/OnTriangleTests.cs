using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Details;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Details;
using Catalogue.Geometry.Tests.Holes;
using Catalogue.Geometry.Tests.Liquids;
using Xunit;

namespace Catalogue.Geometry.Tests.Overlays;

/// <summary>What checks tell of single triangles, for overlays.</summary>
public sealed class OnTriangleTests
{
    // A face that looks down at an angle a from the level stands at 90° − a from the vertical.
    [Theory, InlineData(0), InlineData(30), InlineData(46), InlineData(75)]
    public void A_tilted_box_hangs_over_by_its_angles(double degrees)
    {
        var box = Solids.Box(10, 20, 30);
        var angles = OverhangAngles.Of(box, Rotation.About(Vec3.UnitX, degrees * Math.PI / 180));
        if (degrees == 0)
        {
            Assert.Equal(2, angles.Count(float.IsPositiveInfinity));
            Assert.Equal(10, angles.Count(a => a == 0));
            return;
        }

        // Of the six faces the bottom and one side look down.
        Assert.Equal([90 - degrees, 90 - degrees, degrees, degrees], angles.Where(a => a > 0.01).Select(a => Math.Round(a, 3)).OrderByDescending(a => Math.Abs(a - degrees)));
    }

    [Fact]
    public void A_sealed_ball_a_cup_and_a_cup_turned_over_keep_liquid_each_in_its_way()
    {
        var sealedBall = Solids.Together(Solids.Icosphere(10, 4), Solids.Inverted(Solids.Icosphere(7, 4)));
        var touches = LiquidSurface.Of(sealedBall, Rotation.Identity);
        var outside = Solids.Icosphere(10, 4).TriangleCount;
        Assert.All(touches.Take(outside), t => Assert.Equal(LiquidTouch.Free, t));
        Assert.All(touches.Skip(outside), t => Assert.Equal(LiquidTouch.Sealed, t));

        // The platform is at the lowest z: a cup that opens upward opens toward the film, which seals it; turned over it keeps a pool.
        var cup = Vessels.Cup(8, 10);
        Assert.Equal(LiquidTouch.Suction, Most(cup, Vessels.Upright));
        Assert.Equal(LiquidTouch.Pool, Most(cup, Vessels.UpsideDown));
        Assert.DoesNotContain(LiquidSurface.Of(Solids.Box(10, 10, 10), Rotation.Identity), t => t != LiquidTouch.Free);

        static LiquidTouch Most(TriangleMesh mesh, Rotation pose) =>
            LiquidSurface.Of(mesh, pose).Where(t => t != LiquidTouch.Free).GroupBy(t => t).MaxBy(g => g.Count())!.Key;
    }

    [Fact]
    public void Only_relief_below_the_limits_is_marked_and_where_it_is()
    {
        // A ridge of 0.3 mm, one of 1 mm, and a broad pad 0.25 mm high.
        var plate = Relief.Plate(40, 30, 4, (5, 5.3, 5, 25, 0.8), (15, 16, 5, 25, 0.8), (22, 36, 5, 25, 0.25));
        var fates = DetailSurface.Of(TriangleTree.Build(plate), 0.4, 0.4);
        var marked = Enumerable.Range(0, plate.TriangleCount).Where(t => fates[t] != DetailFate.Shown).Select(t => (Fate: fates[t], X: Middle(plate, t).X)).ToList();
        Assert.Contains(marked, m => m.Fate == DetailFate.Lost);
        Assert.All(marked.Where(m => m.Fate == DetailFate.Lost), m => Assert.InRange(m.X, 4.5, 6));
        Assert.All(marked.Where(m => m.Fate == DetailFate.Faint), m => Assert.InRange(m.X, 21, 37));
        Assert.DoesNotContain(marked, m => m.Fate == DetailFate.Closed);
    }

    [Fact]
    public void Each_wall_belongs_to_its_hole()
    {
        var plate = Drilled.Plate(5, 3, 2, [(1.5, 24, 0), (2.2, 48, 0)]);
        var holes = PinHoles.Find(plate, TriangleTree.Build(plate)).Holes;
        var of = HoleSurface.Of(plate, holes);
        for (var h = 0; h < 2; h++)
        {
            // The wall of a prism of n sides has 2 n triangles.
            Assert.Equal(holes[h].DiameterMm < 2 ? 48 : 96, of.Count(o => o == h));
        }

        Assert.All(Enumerable.Range(0, plate.TriangleCount).Where(t => of[t] >= 0), t => Assert.InRange(Middle(plate, t).Z, 0.1, 2.9));
    }

    [Fact]
    public void A_limb_is_marked_beyond_its_section_and_the_body_is_not()
    {
        var body = Drilled.Turned(64, (0, 0), (8, 0), (8, 16), (1.5, 16), (1.5, 46), (0, 46));
        var limb = Assert.Single(LimbMeasures.Of(TriangleTree.Build(body)).Limbs);
        var beyond = new bool[body.TriangleCount];
        LimbSurface.Mark(TriangleTree.Build(body), EdgeAdjacency.Of(body), limb, limb.Pushed, beyond);
        for (var t = 0; t < beyond.Length; t++)
        {
            var (a, b, c) = body.Triangle(t);
            if (Vec3.Cross(b - a, c - a).Length > 0 && Middle(body, t).Z > 20) Assert.True(beyond[t]);
            if (Middle(body, t).Z < 15.5) Assert.False(beyond[t]);
        }
    }

    // Concentric spheres: everywhere the difference of their radii, less the sagitta of the outer one's triangles.
    [Fact]
    public void A_ball_grown_by_half_a_millimetre_is_half_a_millimetre_off_everywhere()
    {
        var distances = SurfaceDistances.Of(Solids.Icosphere(10.5, 5), TriangleTree.Build(Solids.Icosphere(10, 5)));
        Assert.All(distances, d => Assert.InRange(d, 0.495f, 0.506f));
        Assert.All(SurfaceDistances.Of(Solids.Box(1, 2, 3), TriangleTree.Build(Solids.Box(1, 2, 3))), d => Assert.Equal(0, d, 1e-6f));
    }

    private static Vec3 Middle(TriangleMesh mesh, int triangle)
    {
        var (a, b, c) = mesh.Triangle(triangle);
        return (a + b + c) / 3;
    }
}
