using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Comparison;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Xunit;

namespace Catalogue.Model.Tests.Comparison;

public sealed class RevisionHistoryTests
{
    private static readonly DateTime Now = new(2026, 11, 25, 12, 0, 0, DateTimeKind.Utc);
    private readonly Figure _figure = new("gull", new() { Title = "Gull", HeightMm = 100, Licence = "CC0-1.0" }, Now);
    private readonly Variant _variant;

    public RevisionHistoryTests() =>
        _variant = _figure.AddPart("wing", "Wing", 1, PartRole.Required, Now).AddVariant("solid", "Solid", ["VPP-rigid"], Now);

    [Fact]
    public void A_revision_is_compared_with_the_nearest_earlier_one_that_counts()
    {
        var (first, second, third, fourth) = (Upload('a'), Upload('b'), Upload('c'), Upload('d'));
        Assert.Null(RevisionHistory.Before(first, _variant.Revisions));
        Assert.Same(third, RevisionHistory.Before(fourth, _variant.Revisions));
        _variant.Discard(3, discard: true, Now);
        Assert.Same(second, RevisionHistory.Before(fourth, _variant.Revisions));
        Assert.Null(RevisionHistory.Before(third, _variant.Revisions));
        second.Inspection.Reject("not-a-mesh", $"It is a letter.", 1, Now);
        Assert.Same(first, RevisionHistory.Before(fourth, _variant.Revisions));
    }

    [Fact]
    public void The_same_file_again_has_nothing_to_compare()
    {
        var first = Upload('a');
        var again = _variant.Upload(first.Sha256, 1, "a.stl", null, null, first.Inspection, Now);
        var change = RevisionChange.Of(again, _variant.Revisions, None)!;
        Assert.Equal((1, true, false), (change.Since, change.SameMesh, change.IsPending));
    }

    [Fact]
    public void A_comparison_is_pending_until_it_is_made_and_broken_off_ones_are_not()
    {
        var (first, second) = (Upload('a'), Upload('b'));
        Assert.True(RevisionChange.Of(second, _variant.Revisions, None)!.IsPending);
        var comparison = new MeshComparison(first.InspectionId, second.InspectionId, Now);
        var there = new Dictionary<(Guid, Guid), MeshComparison> { [(first.InspectionId, second.InspectionId)] = comparison };
        Assert.True(RevisionChange.Of(second, _variant.Revisions, there)!.IsPending);
        comparison.Start();
        comparison.Fail($"Short of memory.", Now);
        Assert.False(RevisionChange.Of(second, _variant.Revisions, there)!.IsPending);
        Assert.Null(RevisionChange.Of(second, _variant.Revisions, there)!.Change);
    }

    [Fact]
    public void Revisions_that_are_not_inspected_yet_are_not_said_to_be_compared()
    {
        Upload('a');
        var waiting = _variant.Upload(new string('b', 64), 1, "b.stl", null, null, new MeshInspection(new string('b', 64), null, Now), Now);
        Assert.Null(RevisionChange.Of(waiting, _variant.Revisions, None));
    }

    // Two concentric balls: every point of one is the difference of the radii from the other, but for the flatness of their triangles.
    [Fact]
    public void What_is_stored_of_a_comparison_comes_back_as_it_was()
    {
        var change = MeshChange.Of(RevisionComparison.Between(ComparedRevision.Of(Solids.Icosphere(10, 3)), ComparedRevision.Of(Solids.Icosphere(11, 3))));
        var comparison = new MeshComparison(Guid.NewGuid(), Guid.NewGuid(), Now);
        comparison.Start();
        comparison.Finish(change, Now);
        var read = comparison.Change!;
        Assert.InRange(read.WithinMm(), 0.99, 1.02);
        Assert.Equal([2, 2, 2], read.SizeMm.Select(s => Math.Round(s, 2)));
        Assert.Equal(change.VolumeMm3, read.VolumeMm3);
        Assert.Equal(change.AfterToBefore.At, read.AfterToBefore.At);
        Assert.Equal(new SurfaceShape(1, 0, 0, true), read.After);
    }

    [Fact]
    public void A_number_that_is_none_is_not_stored()
    {
        var change = MeshChange.Of(RevisionComparison.Between(ComparedRevision.Of(Solids.Icosphere(10, 1)), ComparedRevision.Of(Solids.Icosphere(11, 1))));
        var comparison = new MeshComparison(Guid.NewGuid(), Guid.NewGuid(), Now);
        Assert.Throws<ArgumentException>(() => comparison.Finish(change with { AreaMm2 = double.NaN }, Now));
        Assert.False(comparison.IsFinished);
    }

    private static readonly Dictionary<(Guid, Guid), MeshComparison> None = [];

    private Revision Upload(char content)
    {
        var inspection = new MeshInspection(new string(content, 64), null, Now);
        using var file = new MemoryStream();
        Geometry.Formats.Stl.StlWriter.Write(Solids.Box(1 + content, 10, 10), file);
        file.Position = 0;
        var result = MeshInspector.Inspect(file, file.Length, new());
        inspection.Finish(result.Facts, InspectionJson.Write(result.Report), MeshInspector.CheckVersion, Now);
        return _variant.Upload(inspection.Sha256, 1, content + ".stl", null, null, inspection, Now);
    }
}
