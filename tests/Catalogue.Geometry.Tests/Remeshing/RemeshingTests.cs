using Catalogue.Geometry.Details;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Gauges;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Details;
using Catalogue.Geometry.Tests.Holes;
using Catalogue.Geometry.Tests.Liquids;
using Catalogue.Geometry.Tests.Overhangs;
using Catalogue.Geometry.Tests.Spatial;
using Catalogue.Geometry.Tests.Thickness;
using Catalogue.Geometry.Thickness;
using Xunit;

namespace Catalogue.Geometry.Tests.Remeshing;

/// <summary>The same part in other triangles.</summary>
public enum Again
{
    /// <summary>Every triangle in four.</summary>
    Subdivided,

    /// <summary>Cut fine, then drawn together: other and, on flat faces, far fewer triangles.</summary>
    Decimated,

    /// <summary>Turned and moved, and the pose it is printed in turned back.</summary>
    Turned,
}

/// <summary>What a check says is about the part, not about its triangles: other triangles, and another frame, change it by no more than the tolerance that the room states.</summary>
public sealed class RemeshingTests
{
    private static readonly Rotation Turn = Rotation.About(new(1, 2, 3), 0.7);

    // A web of 0.6 mm between pockets, a fin of 0.5 mm and a slot of 0.4 mm: WallMeasures, LocalThickness.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Walls_and_gaps(Again again)
    {
        var shape = Slabs.Profile(
            [(0, 0), (6, 0), (6, 3), (26, 3), (26, 0), (50, 0), (50, 4), (44, 4), (44, 4.4), (50, 4.4), (50, 8), (40.5, 8), (40.5, 16), (40, 16), (40, 8), (26, 8), (26, 3.6), (6, 3.6), (6, 8), (0, 8)], 30);
        var (one, other) = (TriangleTree.Build(shape), TriangleTree.Build(Other(shape, again).Mesh));
        var (walls, same) = (WallMeasures.Of(one), WallMeasures.Of(other));
        Within(walls.Distribution!.Value.MinMm, same.Distribution!.Value.MinMm, 0.02);
        Within(walls.Distribution!.Value.P05Mm, same.Distribution!.Value.P05Mm, 0.02);
        Within(walls.Distribution!.Value.MedianMm, same.Distribution!.Value.MedianMm, 0.02);
        Assert.Equal(walls.Walls.Where(s => s.BelowMm < 1).Select(s => (s.BelowMm, s.Count)), same.Walls.Where(s => s.BelowMm < 1).Select(s => (s.BelowMm, s.Count)));
        Alike(walls.Walls.Single(s => s.BelowMm == 0.7), same.Walls.Single(s => s.BelowMm == 0.7));
        var (gaps, asWide) = (GapMeasures.Of(one), GapMeasures.Of(other));
        Within(gaps.MinMm!.Value, asWide.MinMm!.Value, 0.02);
        Alike(gaps.Gaps.Single(s => s.BelowMm == 0.5), asWide.Gaps.Single(s => s.BelowMm == 0.5));

        static void Alike(ThinStep step, ThinStep found)
        {
            Assert.Equal(step.Count, found.Count);
            foreach (var (a, b) in step.Regions.Zip(found.Regions))
            {
                Within(a.TypicalMm, b.TypicalMm, 0.02);
                Within(a.AreaMm2, b.AreaMm2, 0.05);
                Within(a.ReachMm, b.ReachMm, 0.1);
                Assert.Equal(a.FreeStanding, b.FreeStanding);
            }
        }
    }

    // A table with a peg, and a round arch: OverhangMeasures.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Overhangs(Again again)
    {
        foreach (var shape in (TriangleMesh[])[Brickwork.TableWithPeg(), Brickwork.Arch()])
        {
            var (mesh, pose) = Other(shape, again);
            var (one, other) = (OverhangMeasures.Of(TriangleTree.Build(shape), Rotation.Identity), OverhangMeasures.Of(TriangleTree.Build(mesh), pose));
            Assert.Equal(one.HeightMm, other.HeightMm, 0.001);
            Assert.Equal((one.BridgeCount, one.IslandCount), (other.BridgeCount, other.IslandCount));
            foreach (var degrees in (double[])[20, 45, 70])
            {
                Assert.Equal(one.AreaSteeperThan(degrees), other.AreaSteeperThan(degrees), 0.005 * one.AreaSteeperThan(0));
                Assert.Equal(one.SupportVolumeAt(degrees), other.SupportVolumeAt(degrees), 0.02 * one.AreaSteeperThan(0) * one.HeightMm);
            }

            foreach (var (a, b) in one.Bridges.Zip(other.Bridges)) Within(a.SpanMm, b.SpanMm, 0.01);
            foreach (var (a, b) in one.Islands.Zip(other.Islands)) Assert.Equal(a.RiseMm, b.RiseMm, 0.01);
        }
    }

    // A hollow ball with a hole of 4 mm and one of 3 mm, askew: TrappedLiquid.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Liquids(Again again)
    {
        var shape = Vessels.Ball(15, 12, 2, 1.5);
        var pose = Rotation.About(new(3, -1, 2), 1.1);
        var (mesh, back) = Other(shape, again, 0.003);
        var (one, other) = (Vessels.Liquid(shape, pose), Vessels.Liquid(mesh, pose.After(back)));
        Within(one.PooledMm3, other.PooledMm3, 0.02);
        Within(one.SuctionMm2, other.SuctionMm2, 0.02);
        var (cavity, same) = (Assert.Single(one.Cavities), Assert.Single(other.Cavities));
        Within(cavity.VolumeMm3, same.VolumeMm3, 0.04);
        Assert.Equal(2, cavity.Openings.Count);
        foreach (var (a, b) in cavity.Openings.Zip(same.Openings)) Assert.Equal(a.DiameterMm, b.DiameterMm, 0.1);
    }

    // Pads of 8 × 8 mm, 0.22 to 1.1 mm high: DetailMeasures.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Details(Again again)
    {
        var shape = Relief.Plate(64, 20, 4, [.. new[] { 0.22, 0.4, 0.55, 0.7, 1.1 }.Select((r, k) => (2 + (12.0 * k), 10 + (12.0 * k), 6.0, 14.0, r))]);
        var (one, other) = (DetailMeasures.Of(TriangleTree.Build(shape)), DetailMeasures.Of(TriangleTree.Build(Other(shape, again).Mesh)));
        foreach (var (a, b) in one.Low.Zip(other.Low))
        {
            Assert.Equal((a.BelowMm, a.Count), (b.BelowMm, b.Count));
            Within(a.LengthMm, b.LengthMm, 0.1);
            foreach (var height in a.Largest.Select(f => f.HeightMm)) Assert.Contains(b.Largest, f => Math.Abs(f.HeightMm - height) < 0.02 || a.Count > DetailMeasures.Most);
        }
    }

    // Prisms of 24 sides in a plate: PinHoles.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Holes(Again again)
    {
        var shape = Drilled.Plate(5, 3, 3, [(0.8, 24, 0), (1.2, 24, 0.4), (1.5, 24, 0), (1.7, 24, 0.5), (2, 24, 0), (2.2, 24, 0)]);
        var (one, other) = (Find(shape), Find(Other(shape, again).Mesh));
        Assert.Equal(6, one.Count);
        Assert.Equal(one.Count, other.Count);
        foreach (var (a, b) in one.OrderBy(h => h.DiameterMm).Zip(other.OrderBy(h => h.DiameterMm)))
        {
            Within(a.DiameterMm, b.DiameterMm, 0.01);
            Assert.Equal(a.DepthMm, b.DepthMm, 0.05);
            Assert.Equal(a.WallMm!.Value, b.WallMm!.Value, 0.05);
            Assert.Equal(a.Through, b.Through);
        }

        static IReadOnlyList<RoundHole> Find(TriangleMesh mesh) => PinHoles.Find(mesh, TriangleTree.Build(mesh)).Holes;
    }

    // A bar that thins to a waist on a block: LimbMeasures.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Limbs(Again again)
    {
        var shape = Drilled.Turned(48, (0, 0), (9, 0), (9, 12), (3, 12), (1, 22), (2.5, 32), (0, 32));
        var (one, other) = (Find(shape), Find(Other(shape, again, 0.003).Mesh));
        Within(one.Pushed.PushScore, other.Pushed.PushScore, 0.1);
        Within(one.Dropped.DropScore, other.Dropped.DropScore, 0.1);
        Within(one.Pushed.ThicknessMm, other.Pushed.ThicknessMm, 0.05);

        static Limb Find(TriangleMesh mesh) => LimbMeasures.Of(TriangleTree.Build(mesh)).Limbs[0];
    }

    // Two bars that cross: SelfIntersections counts triangles, so only whether there are any is the part's own; hull, box and volume are.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Health_size_and_volume(Again again)
    {
        var sound = Brickwork.Tee();
        var crossed = Solids.Together(Solids.Box(30, 4, 4), Solids.Box(4, 30, 4).Transformed(Rotation.Identity, new(13, -13, 1)));
        foreach (var (shape, crosses) in new[] { (sound, false), (crossed, true) })
        {
            var mesh = Other(shape, again).Mesh;
            var (health, same) = (MeshHealth.Of(shape), MeshHealth.Of(mesh));
            Assert.Equal((health.Closed, health.Oriented, health.Manifold, health.Shells.Count, health.EulerCharacteristic), (same.Closed, same.Oriented, same.Manifold, same.Shells.Count, same.EulerCharacteristic));
            Assert.Equal(crosses, SelfIntersections.Find(mesh, TriangleTree.Build(mesh)).Count > 0);
            var (one, other) = (MeshMeasures.Of(shape), MeshMeasures.Of(mesh));
            Within(one.VolumeMm3, other.VolumeMm3, 1e-5);
            Within(one.AreaMm2, other.AreaMm2, 1e-5);
            var (hull, sameHull) = (ConvexHull.Of(shape), ConvexHull.Of(mesh));
            Within(SmallestBox.Of(hull).Volume, SmallestBox.Of(sameHull).Volume, 0.001);
            Assert.Equal(SmallPartsGauge.TakesIn(hull), SmallPartsGauge.TakesIn(sameHull));
        }
    }

    // A tee in a roomy volume: the least contact and the least height of the advice. OrientationAdvice.
    [Theory, InlineData(Again.Subdivided), InlineData(Again.Decimated), InlineData(Again.Turned)]
    public void Orientations(Again again)
    {
        var shape = Brickwork.Tee();
        var (one, other) = (Advice(shape), Advice(Other(shape, again).Mesh));
        Assert.Equal(one.Min(o => o.ContactMm2), other.Min(o => o.ContactMm2), (0.02 * one.Min(o => o.ContactMm2)) + 1);
        Within(one.Min(o => o.Size.Z), other.Min(o => o.Size.Z), 0.02);

        static IReadOnlyList<AdvisedOrientation> Advice(TriangleMesh mesh) =>
            OrientationAdvice.For(TriangleTree.Build(mesh), ConvexHull.Of(mesh), BuildVolume.Rectangular(120, 120, 120)).Orientations;
    }

    [Fact]
    public void Decimation_leaves_a_closed_mesh_of_the_same_shape_with_few_triangles()
    {
        var fine = Shapes.Subdivided(Shapes.Subdivided(Brickwork.Table()));
        var coarse = Decimated.Of(fine, 1e-4);
        Assert.True(MeshHealth.Of(coarse) is { Closed: true, Manifold: true, Oriented: true });
        Assert.True(4 * coarse.TriangleCount < fine.TriangleCount);
        Assert.Equal(MeshMeasures.Of(fine).VolumeMm3, MeshMeasures.Of(coarse).VolumeMm3, 1e-3);
    }

    private static (TriangleMesh Mesh, Rotation Back) Other(TriangleMesh mesh, Again again, double off = 1e-4) => again switch
    {
        Again.Subdivided => (Shapes.Subdivided(mesh), Rotation.Identity),
        Again.Decimated => (Decimated.Of(Shapes.Subdivided(mesh), off), Rotation.Identity),
        _ => (mesh.Transformed(Turn, new(30, -20, 7)), Turn.Inverse()),
    };

    private static void Within(double expected, double found, double share) => Assert.Equal(expected, found, (share * Math.Abs(expected)) + 1e-9);
}
