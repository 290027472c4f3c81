using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Spatial;
using Xunit;

namespace Catalogue.Demo.Tests;

public sealed class RangeTests
{
    private static readonly DemoRange Range = HalfTidePlayers.Range();

    public static TheoryData<string> Meshes => [.. Range.Figures.SelectMany(f => f.Parts.SelectMany(p => p.Variants.SelectMany(v =>
        v.Revisions.Select(r => $"{f.Slug}/{p.Slug}/{v.Slug}/{r.Number}"))))];

    [Theory, MemberData(nameof(Meshes))]
    public void Every_published_mesh_is_closed_manifold_outward_and_free_of_self_intersections(string path)
    {
        var revision = Find(path);
        var mesh = MadeMeshes.Of(path);
        var check = EdgeCheck.Of(mesh);
        Assert.Equal(revision.Draft, check.OpenEdges > 0);
        Assert.Equal((0, 0, 0), (check.CrowdedEdges, check.SameWayEdges, check.DegenerateTriangles));
        Assert.True(check.Shells[0].VolumeMm3 > 0);
        Assert.InRange(mesh.TriangleCount, 1_000, 120_000);
        Assert.Equal(0, SelfIntersections.Find(mesh, TriangleTree.Build(mesh), cancel: TestContext.Current.CancellationToken).Count);
    }

    [Fact]
    public void Slugs_are_unique_and_plain()
    {
        Unique(Range.Figures.Select(f => f.Slug));
        foreach (var figure in Range.Figures)
        {
            Unique(figure.Parts.Select(p => p.Slug));
            Unique(figure.Joints.Select(j => j.Slug));
            Unique(figure.Hardware.Select(h => h.Slug));
            foreach (var part in figure.Parts) Unique(part.Variants.Select(v => v.Slug));
        }

        static void Unique(IEnumerable<string> slugs)
        {
            var all = slugs.ToList();
            Assert.Equal(all.Count, all.Distinct().Count());
            Assert.All(all, s => Assert.Matches("^[a-z0-9]+(-[a-z0-9]+)*$", s));
        }
    }

    [Fact]
    public void Every_reference_points_at_something_that_exists()
    {
        foreach (var figure in Range.Figures)
        {
            var parts = figure.Parts.Select(p => p.Slug).ToHashSet();
            var hardware = figure.Hardware.Select(h => h.Slug).ToHashSet();
            Assert.All(figure.Joints, j => Assert.True(parts.Contains(j.PartA) && parts.Contains(j.PartB), $"{figure.Slug}: joint {j.Slug}"));
            Assert.All(figure.Joints.SelectMany(j => j.Hardware), h => Assert.Contains(h, hardware));
            Assert.All(figure.Steps.SelectMany(s => s.Parts), p => Assert.Contains(p, parts));
            Assert.All(figure.Steps.SelectMany(s => s.Hardware), h => Assert.Contains(h, hardware));
            Assert.All(figure.Steps.Select(s => s.ForPart).OfType<string>(), p => Assert.Contains(p, parts));
            Assert.All(figure.Hardware.Select(h => h.ForPart).OfType<string>(), p => Assert.Contains(p, parts));
            Assert.Equal(Enumerable.Range(1, figure.Steps.Count), figure.Steps.Select(s => s.Number));
            foreach (var choice in figure.Choices) Assert.Contains(figure.Parts, p => p.Slug == choice.DefaultPart && p.Choice == choice.Slug);
            Assert.All(figure.Parts, p => Assert.Equal(p.Role == DemoCodes.ChoiceMember, figure.Choices.Any(c => c.Slug == p.Choice)));
            foreach (var report in figure.Reports)
            {
                var variant = figure.Parts.Single(p => p.Slug == report.Part).Variants.Single(v => v.Slug == report.Variant);
                Assert.Contains(report.Process, variant.Processes);
                var revision = variant.Revisions.Single(r => r.Number == report.Revision);
                Assert.True(report.DaysAgo < revision.DaysAgo, $"{figure.Slug}: a report of {report.Part} is older than the revision it is about");
            }
        }
    }

    [Fact]
    public void Every_code_is_one_the_catalogue_knows()
    {
        foreach (var figure in Range.Figures)
        {
            Assert.All(figure.Parts, p => Assert.Contains(p.Role, DemoCodes.Roles));
            Assert.All(figure.Parts.SelectMany(p => p.Variants).SelectMany(v => v.Processes), p => Assert.Contains(p, DemoCodes.Processes));
            Assert.All(figure.Joints, j => Assert.Contains(j.Kind, DemoCodes.JointKinds));
            Assert.All(figure.Joints.SelectMany(j => j.Processes), p => Assert.Contains(p, DemoCodes.Processes));
            Assert.All(figure.Steps.SelectMany(s => s.Processes), p => Assert.Contains(p, DemoCodes.Processes));
            Assert.All(figure.Hardware, h => Assert.Contains(h.Kind, DemoCodes.HardwareKinds));
            Assert.All(figure.Reports, r => Assert.Contains(r.Outcome, DemoCodes.Outcomes));
            Assert.All(figure.Reports, r => Assert.Equal(r.Outcome == DemoCodes.Worked, r.Symptom is null));
            Assert.All(figure.Reports, r => Assert.Equal(r.Symptom is null, r.Stage is null));
            Assert.All(figure.Reports.Select(r => r.Symptom).OfType<string>(), s => Assert.Contains(s, DemoCodes.Symptoms));
            Assert.All(figure.Reports.Select(r => r.Stage).OfType<string>(), s => Assert.Contains(s, DemoCodes.Stages));
        }
    }

    [Fact]
    public void Revisions_count_up_from_one_and_come_one_after_another()
    {
        foreach (var variant in Range.Figures.SelectMany(f => f.Parts).SelectMany(p => p.Variants))
        {
            Assert.Equal(Enumerable.Range(1, variant.Revisions.Count), variant.Revisions.Select(r => r.Number));
            Assert.Equal(variant.Revisions.OrderByDescending(r => r.DaysAgo).Select(r => r.Number), variant.Revisions.Select(r => r.Number));
        }
    }

    private static DemoRevision Find(string path) => MadeMeshes.Find(Range, path);
}
