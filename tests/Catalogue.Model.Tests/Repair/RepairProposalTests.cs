using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Repair;
using Xunit;

namespace Catalogue.Model.Tests.Repair;

public sealed class RepairProposalTests
{
    [Fact]
    public void A_ball_inside_out_is_proposed_to_be_turned_without_moving()
    {
        var ball = Solids.Icosphere(10, 3);
        var proposal = Propose(Solids.Inverted(ball));
        var change = Assert.Single(proposal.Changes);
        Assert.Equal(("turned-shells", 1, "1 piece that was inside out turned"), (change.Kind, change.Count, change.Message.English));
        Assert.Equal((1, 0), (proposal.Before.InsideOutShells, proposal.After.InsideOutShells));
        Assert.Equal(-proposal.Before.VolumeMm3!.Value, proposal.After.VolumeMm3!.Value);
        Assert.Equal((0.0, 0.0), (proposal.Change.BeforeToAfter.LargestMm, proposal.Change.AfterToBefore.LargestMm));
        Assert.Equal("Repaired from revision 4: 1 piece that was inside out turned. Every point of the uploaded surface is within 0.002 mm of the repaired one.", proposal.Note(4));
        Assert.True(proposal.After.IsSound);
    }

    // The hole is an equilateral triangle, near enough; the farthest point of its filling from the rim is its incentre, one third of the height.
    [Fact]
    public void A_filled_hole_tells_where_it_was_and_how_far_its_filling_is_from_the_old_surface()
    {
        var ball = Solids.Icosphere(10, 2);
        var (a, b, c) = ball.Triangle(5);
        var (ab, bc, ca) = (Vec3.Distance(a, b), Vec3.Distance(b, c), Vec3.Distance(c, a));
        var inradius = Vec3.Cross(b - a, c - a).Length / (ab + bc + ca);
        var proposal = Propose(Without(ball, 5));
        var change = Assert.Single(proposal.Changes);
        Assert.Equal(("filled-holes", 1), (change.Kind, change.Count));
        var middle = (a + b + c) / 3;
        Assert.Equal(0, Vec3.Distance(middle, new(change.At[0][0], change.At[0][1], change.At[0][2])), 0.001);
        Assert.Equal((3, 0, false, true), (proposal.Before.BoundaryEdges, proposal.After.BoundaryEdges, proposal.Before.Closed, proposal.After.Closed));
        Assert.Null(proposal.Before.VolumeMm3);
        Assert.NotNull(proposal.After.VolumeMm3);
        Assert.Equal(0, proposal.Change.BeforeToAfter.LargestMm);
        Assert.InRange(proposal.Change.AfterToBefore.LargestMm, inradius - proposal.Change.AfterToBefore.ErrorBoundMm, inradius + 1e-4);
    }

    [Fact]
    public void A_stitched_crack_says_how_far_a_point_moved_at_most()
    {
        // Two halves of a box, the upper one 0.01 mm aside: the rims are stitched, no point moves farther than that.
        var proposal = Propose(Cracked(0.01));
        Assert.Equal("stitched-cracks", Assert.Single(proposal.Changes).Kind);
        Assert.InRange(proposal.Change.BeforeToAfter.LargestMm, 0.002, 0.0101);
        Assert.Matches("is within 0\\.01\\d? mm of the repaired one", proposal.Note(1));
    }

    [Theory, InlineData(false), InlineData(true)]
    public void What_is_written_reads_back_as_the_state_that_was_promised(bool asPackage)
    {
        var ball = Solids.Icosphere(10, 3);
        var duplicated = new TriangleMesh(ball.Positions.ToArray(), [.. Without(ball, 17, 900).Indices, .. ball.Indices[..3], 4, 4, 9]);
        var proposal = Propose(Solids.Inverted(duplicated));
        Assert.True(proposal.Changes.Count >= 3);
        using var written = new MemoryStream();
        if (asPackage) ThreeMfWriter.Write(written, [new("ball", proposal.Mesh)], [ThreeMfPlacement.AsIs(0)]);
        else StlWriter.Write(proposal.Mesh, written);
        written.Position = 0;
        var result = MeshInspector.Inspect(written, written.Length, new() { Unit = LengthUnit.Millimetre });
        Assert.Equal((proposal.After.Triangles, true, 0), (result.Facts.Triangles, result.Facts.Closed, result.Facts.OpenEdges));
        Assert.Equal((0, 0, 0, true), (result.Facts.DegenerateTriangles, result.Facts.DuplicateTriangles, result.Facts.InsideOutShells, result.Facts.UnitStated));
        Assert.Equal(proposal.After.VolumeMm3!.Value, result.Facts.VolumeMm3, 1e-3);
        Assert.Empty(result.Facts.Warnings);
        Assert.Null(result.Facts.Repair);
    }

    [Fact]
    public void A_sound_mesh_is_refused()
    {
        var refused = Assert.Throws<RuleBrokenException>(() => Propose(Solids.Icosphere(10, 2)));
        Assert.Equal("nothing-to-repair", refused.Code);
    }

    [Fact]
    public void A_hole_too_large_to_fill_gently_is_refused_with_the_reason()
    {
        var refused = Assert.Throws<RuleBrokenException>(() => Propose(Without(Solids.Box(20, 20, 20), 0)));
        Assert.Equal("repair-no-better", refused.Code);
        Assert.Contains("holes that are large", refused.Message, StringComparison.Ordinal);
    }

    // A rod stands in the hole: filling it would run through the rod, which is worse than leaving it open.
    [Fact]
    public void A_hole_whose_filling_would_run_through_another_surface_is_left_open()
    {
        var ball = Solids.Icosphere(10, 1);
        var (a, b, c) = ball.Triangle(5);
        var middle = (a + b + c) / 3;
        var rod = Solids.Box(0.5, 0.5, 0.5).Transformed(Rotation.Identity, middle - new Vec3(0.25, 0.25, 0.25));
        var refused = Assert.Throws<RuleBrokenException>(() => Propose(Solids.Together(Without(ball, 5), rod)));
        Assert.Equal("repair-no-better", refused.Code);

        // With a rod inside out beside it, that one is still turned.
        var beside = Solids.Inverted(Solids.Box(1, 1, 1).Transformed(Rotation.Identity, new(30, 0, 0)));
        var proposal = Propose(Solids.Together(Without(ball, 5), rod, beside));
        Assert.Equal("turned-shells", Assert.Single(proposal.Changes).Kind);
        Assert.False(proposal.After.IsSound);
    }

    // Two balls that cross each other, and a hole in the circle where they do: its filling crosses the other ball as its neighbours do.
    [Fact]
    public void A_hole_where_surfaces_cross_already_is_filled_and_the_crossings_are_told()
    {
        var ball = Solids.Icosphere(10, 2);
        var crossing = Enumerable.Range(0, ball.TriangleCount).First(t =>
        {
            var (a, b, c) = ball.Triangle(t);
            return Math.Min(a.X, Math.Min(b.X, c.X)) < 7 && Math.Max(a.X, Math.Max(b.X, c.X)) > 7.5;
        });
        var proposal = Propose(Solids.Together(Without(ball, crossing), Solids.Icosphere(10, 2).Transformed(Rotation.Identity, new(14.5, 0, 0))));
        Assert.Equal("filled-holes", Assert.Single(proposal.Changes).Kind);
        Assert.True(proposal.Before.SelfIntersections > 0);
        Assert.True(proposal.After.SelfIntersections > proposal.Before.SelfIntersections);
        Assert.True(proposal.After.Closed);
        Assert.False(proposal.After.IsSound);
    }

    [Fact]
    public void A_file_of_several_things_is_refused()
    {
        using var package = new MemoryStream();
        ThreeMfWriter.Write(package, [new("a", Solids.Inverted(Solids.Box(5, 5, 5)))], [ThreeMfPlacement.AsIs(0), ThreeMfPlacement.AsIs(0)]);
        package.Position = 0;
        var refused = Assert.Throws<RuleBrokenException>(() => RepairProposal.Of(package, package.Length, null, TestContext.Current.CancellationToken));
        Assert.Equal("file-several-items", refused.Code);
    }

    [Fact]
    public void An_inspection_tells_in_short_what_a_repair_could_change_and_nothing_of_a_sound_mesh()
    {
        var repair = Inspect(Without(Solids.Inverted(Solids.Icosphere(10, 2)), 5)).Repair!;
        Assert.Equal(["filled-holes", "turned-shells"], repair.Changes.Select(c => c.Kind));
        Assert.True(repair.Closed);
        Assert.Null(Inspect(Solids.Icosphere(10, 2)).Repair);
        Assert.Null(Inspect(Without(Solids.Box(20, 20, 20), 0)).Repair);
    }

    [Fact]
    public void A_cancelled_proposal_stops()
    {
        using var file = File(Solids.Inverted(Solids.Icosphere(10, 3)));
        Assert.ThrowsAny<OperationCanceledException>(() => RepairProposal.Of(file, file.Length, null, new CancellationToken(canceled: true)));
    }

    private static RepairProposal Propose(TriangleMesh mesh)
    {
        using var file = File(mesh);
        return RepairProposal.Of(file, file.Length, LengthUnit.Millimetre, TestContext.Current.CancellationToken);
    }

    private static InspectionReport Inspect(TriangleMesh mesh)
    {
        using var file = File(mesh);
        return MeshInspector.Inspect(file, file.Length, new()).Report;
    }

    private static MemoryStream File(TriangleMesh mesh)
    {
        var file = new MemoryStream();
        StlWriter.Write(mesh, file);
        file.Position = 0;
        return file;
    }

    private static TriangleMesh Without(TriangleMesh mesh, params int[] triangles) =>
        new(mesh.Positions.ToArray(), [.. Enumerable.Range(0, mesh.TriangleCount).Except(triangles).SelectMany(t => mesh.Indices.Slice(3 * t, 3).ToArray())]);

    /// <summary>A box 10 × 10 × 20 of two halves, open where they meet, the upper one aside by so much.</summary>
    private static TriangleMesh Cracked(double gap)
    {
        TriangleMesh Half(int without, double lift, double aside)
        {
            var box = Solids.Box(10, 10, 10);
            var z = without == 0 ? 0f : 10f;
            int[] open = [.. Enumerable.Range(0, box.TriangleCount).Where(t =>
            {
                var (a, b, c) = box.Triangle(t);
                return a.Z == z && b.Z == z && c.Z == z;
            })];
            return Without(box, open).Transformed(Rotation.Identity, new(aside, 0, lift));
        }

        return Solids.Together(Half(10, 0, 0), Half(0, 10, gap));
    }
}
