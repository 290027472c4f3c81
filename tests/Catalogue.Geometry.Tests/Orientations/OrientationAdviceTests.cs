using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Overhangs;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Orientations;

public sealed class OrientationAdviceTests
{
    private static readonly BuildVolume Small = BuildVolume.Rectangular(64, 114, 152);

    // By hand: any face down needs no supports; the flat one is the lowest, the end leaves the smallest mark.
    [Fact]
    public void A_brick_is_best_laid_flat_for_time_and_stood_on_end_for_its_looks()
    {
        var advice = For(Solids.Box(10, 20, 40), Small);
        Assert.All(advice.Orientations, o => Assert.Equal(0, o.ContactMm2, 1));
        var flat = Assert.Single(advice.Orientations, o => o.BestIn.Contains(OrientationMerit.Height));
        Assert.Equal((10.0, 800.0), (Math.Round(flat.Size.Z, 2), Math.Round(flat.RestingMm2, 1)));
        Assert.Contains(advice.Orientations, o => Math.Abs(o.Size.Z - 40) < 0.01 && Math.Abs(o.MarkedMm2 - 200) < 1);
    }

    [Fact]
    public void Where_there_is_room_nobody_has_to_turn_it_about_the_upright_as_well()
    {
        foreach (var o in For(Brickwork.TableWithPeg(), Small).Orientations)
        {
            var turn = Math.Abs(o.Rotation.ToTurns().Z);
            Assert.True(turn is < 1e-6 or (> 89.999999 and < 90.000001) or > 179.999999, $"{turn}°");
        }
    }

    // By hand: a stick that fits only askew hangs over nowhere by the limit, but leans: it needs something to hold it.
    [Fact]
    public void What_balances_on_an_edge_is_not_advised_unless_nothing_else_fits_and_then_it_is_said()
    {
        Assert.All(For(Solids.Box(10, 20, 40), Small).Orientations, o => Assert.True(o.Stands && o.RestingMm2 > 100));
        Assert.All(For(Solids.Box(5, 5, 170), Small).Orientations, o => Assert.Equal(o.SupportVolumeMm3 > 0, o.Stands));
    }

    // By hand: on its head the T hangs over nowhere and rests on 400 mm².
    [Fact]
    public void A_T_is_turned_on_its_head()
    {
        var advice = For(Brickwork.Tee(), Small);
        var best = advice.Orientations[0];
        Assert.Contains(OrientationMerit.Contact, best.BestIn);
        Assert.Equal(0, best.ContactMm2, 1);
        Assert.Equal(0, best.SupportVolumeMm3, 1);
        Assert.Equal(300, advice.AsTheFileLies!.ContactMm2, 1);
        Assert.Equal(6000, advice.AsTheFileLies.SupportVolumeMm3, 10.0);
    }

    [Fact]
    public void A_table_stands_on_its_top_and_a_hanging_peg_no_longer_starts_in_mid_air()
    {
        var advice = For(Brickwork.TableWithPeg(), Small);
        Assert.Equal(1, advice.AsTheFileLies!.IslandCount);
        var best = advice.Orientations[0];
        Assert.Equal((0, 0.0), (best.IslandCount, Math.Round(best.ContactMm2)));
        Assert.True(best.Rotation.RowZ.Z < -0.99);
    }

    // Only orientations that fit: 170 is longer than every side of 64 × 114 × 152 and shorter than its diagonal.
    [Fact]
    public void Every_orientation_given_fits_and_one_is_found_even_when_only_the_diagonal_does()
    {
        foreach (var (mesh, volume) in new[]
        {
            (Solids.Box(5, 5, 170), Small), (Solids.Box(60, 100, 20), Small), (Shapes.Knobbly(96, 48), Small),
            (Shapes.Knobbly(96, 48), BuildVolume.Round(75, 60)), (Solids.Box(5, 5, 170), BuildVolume.Round(120, 150)),
        })
        {
            var advice = For(mesh, volume);
            Assert.InRange(advice.Orientations.Count, 1, OrientationAdvice.Most);
            foreach (var o in advice.Orientations)
            {
                var box = mesh.Transformed(o.Rotation).Bounds.Size;
                Assert.True(box.X <= volume.Width + 1e-4 && box.Y <= volume.Depth + 1e-4 && box.Z <= volume.Height + 1e-4, $"{box}");
                Assert.Equal(box.Z, o.Size.Z, 0.001);
                Assert.True(o.SpareMm >= 0);
            }
        }
    }

    // By hand: a cup of 14 × 14 × 17 inside keeps 3332 mm³ with its mouth toward the platform, and with its mouth toward the film 196 mm² are sealed; on its side neither.
    [Fact]
    public void A_cup_in_a_vat_is_laid_so_that_it_neither_keeps_liquid_nor_sucks()
    {
        var cup = Brickwork.Of([0, 3, 17, 20], [0, 3, 17, 20], [0, 3, 20], (x, y, z) => z < 3 || x is < 3 or > 17 || y is < 3 or > 17);
        var tree = TriangleTree.Build(cup);
        var advice = OrientationAdvice.For(tree, ConvexHull.Of(cup), Small, liquid: true);
        Assert.Equal(196, advice.AsTheFileLies!.SuctionMm2!.Value + (advice.AsTheFileLies.PooledMm3!.Value > 0 ? 196 : 0), 12.0);
        var side = Assert.Single(advice.Orientations, o => o.BestIn.Contains(OrientationMerit.Pools) && o.BestIn.Contains(OrientationMerit.Suction));
        Assert.Equal((0.0, 0.0), (side.PooledMm3!.Value, side.SuctionMm2!.Value));
        Assert.True(Math.Abs(side.Rotation.RowZ.Z) < 0.3);
        Assert.All(For(cup, Small).Orientations, o => Assert.Null(o.PooledMm3));
    }

    [Fact]
    public void What_fits_nowhere_gets_no_advice()
    {
        var advice = For(Solids.Box(70, 70, 70), Small);
        Assert.Empty(advice.Orientations);
        Assert.Null(advice.AsTheFileLies);
        Assert.Empty(For(new TriangleMesh([], []), Small).Orientations);
    }

    [Fact]
    public void No_orientation_given_is_beaten_by_another_or_by_the_files_own_pose()
    {
        foreach (var mesh in (TriangleMesh[])[Shapes.Knobbly(96, 48), Brickwork.Arch(), Brickwork.Tee(), Solids.Cylinder(8, 50, 48)])
        {
            var advice = For(mesh, Small);
            foreach (var o in advice.Orientations)
            {
                Assert.DoesNotContain(advice.Orientations.Append(advice.AsTheFileLies!), other => other != o && Beats(other, o));
            }

            foreach (var merit in (OrientationMerit[])[OrientationMerit.Contact, OrientationMerit.Height, OrientationMerit.Marked])
            {
                if (advice.Orientations.Select(o => o.Merits[(int)merit]).Distinct().Count() > 1 || advice.Orientations.Count == 1)
                    Assert.Contains(advice.Orientations, o => o.BestIn.Contains(merit));
            }
        }

        static bool Beats(AdvisedOrientation a, AdvisedOrientation b) =>
            a.ContactMm2 < b.ContactMm2 - 5 && a.Size.Z < b.Size.Z - 0.1 && a.MarkedMm2 < b.MarkedMm2 - 5;
    }

    [Fact]
    public void The_numbers_are_those_of_the_overhangs_in_that_orientation()
    {
        var mesh = Shapes.Knobbly(96, 48);
        var tree = TriangleTree.Build(mesh);
        foreach (var o in For(mesh, Small).Orientations)
        {
            var measured = OverhangMeasures.Of(tree, o.Rotation);
            Assert.Equal(measured.ContactAt(45), o.ContactMm2, 0.01);
            Assert.Equal(measured.SupportVolumeAt(45), o.SupportVolumeMm3, 0.01);
            Assert.Equal(measured.IslandCount, o.IslandCount);
        }
    }

    // The search starts from other directions when the part lies askew in its file, so the best of each merit may differ by what lies between candidates.
    [Fact]
    public void A_part_that_lies_askew_in_its_file_gets_as_good_advice()
    {
        var mesh = Shapes.Knobbly(96, 48);
        var (straight, askew) = (For(mesh, Small), For(mesh.Transformed(Rotation.About(new(1, 2, 3), 1.1)), Small));
        foreach (var merit in (Func<AdvisedOrientation, double>[])[o => o.ContactMm2, o => o.Size.Z, o => o.MarkedMm2])
        {
            var (a, b) = (straight.Orientations.Min(merit), askew.Orientations.Min(merit));
            Assert.InRange(b, a * 0.85, a / 0.85);
        }
    }

    [Fact]
    public void The_same_question_gets_the_same_advice_and_a_request_to_stop_is_heard()
    {
        var mesh = Shapes.Knobbly(64, 32);
        var (one, two) = (For(mesh, Small), For(mesh, Small));
        Assert.Equal(one.Orientations.Select(o => o with { BestIn = [] }), two.Orientations.Select(o => o with { BestIn = [] }));
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        Assert.ThrowsAny<OperationCanceledException>(() => OrientationAdvice.For(TriangleTree.Build(mesh), ConvexHull.Of(mesh), Small, cancel: stop.Token));
    }

    // By hand: of four points in two merits the third is beaten by the second; of the rest the two best in one merit and the one between stay.
    [Fact]
    public void A_front_leaves_out_what_is_beaten_and_is_thinned_to_points_far_apart()
    {
        List<double[]> points = [[0, 10], [2, 4], [3, 5], [10, 0], [0.1, 9.9], [2.1, 3.9]];
        var front = ParetoSpread.Front(points, p => p);
        Assert.Equal([points[0], points[1], points[3], points[4], points[5]], front);
        Assert.Equal(3, ParetoSpread.Thinned(front, p => p, 3).Count);
        Assert.Contains(points[0], ParetoSpread.Thinned(front, p => p, 3));
        Assert.Contains(points[3], ParetoSpread.Thinned(front, p => p, 3));
        Assert.DoesNotContain(points[4], ParetoSpread.Thinned(front, p => p, 3));
    }

    // By hand: a tenth more of one thing for half of another is a bad bargain; a tenth for a fifth is a matter of taste.
    [Fact]
    public void What_another_all_but_beats_is_left_out()
    {
        List<double[]> front = [[100, 100], [50, 109], [200, 85]];
        Assert.Equal([front[1], front[2]], ParetoSpread.WithoutNearlyBeaten(front, p => p, [0, 0]));
        List<double[]> taste = [[100, 100], [80, 110]];
        Assert.Equal(taste, ParetoSpread.WithoutNearlyBeaten(taste, p => p, [0, 0]));
    }

    private static OrientationAdvice For(TriangleMesh mesh, BuildVolume volume) => OrientationAdvice.For(TriangleTree.Build(mesh), ConvexHull.Of(mesh), volume);
}
