using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Xunit;

namespace Catalogue.Model.Tests.Figures;

public sealed class FigureTests
{
    private static readonly DateTime Now = new(2026, 5, 1, 12, 0, 0, DateTimeKind.Utc);

    [Fact]
    public void Revisions_are_numbered_from_one_and_a_discarded_number_is_not_given_again()
    {
        var variant = NewVariant(out _);
        Assert.Equal(1, Upload(variant, 'a').Number);
        var second = Upload(variant, 'b');
        variant.Discard(second.Number, discard: true, Now);
        Assert.Equal(3, Upload(variant, 'c').Number);
        Assert.Equal(3, variant.Latest!.Number);
    }

    [Fact]
    public void Uploading_changes_nothing_for_readers_until_the_figure_is_published()
    {
        var variant = NewVariant(out var figure);
        Upload(variant, 'a', MeasuredClosed());
        Assert.Null(figure.CurrentEdition);
        var first = figure.Publish("first", Now);
        Upload(variant, 'b', MeasuredClosed());
        Assert.Same(first, figure.CurrentEdition);
        Assert.Equal(variant.Revisions[0].Id, Assert.Single(first.Entries).RevisionId);
        var second = figure.Publish("stronger", Now);
        Assert.Equal(2, second.Number);
        Assert.Equal(variant.Revisions[1].Id, Assert.Single(second.Entries).RevisionId);
        Assert.Single(first.Entries);
    }

    [Fact]
    public void An_open_mesh_is_not_published_and_the_last_edition_stays()
    {
        var variant = NewVariant(out var figure);
        Upload(variant, 'a', MeasuredClosed());
        var good = figure.Publish(null, Now);
        Upload(variant, 'b', Measured(openEdges: 12));
        var refusal = Assert.Throws<RuleBrokenException>(() => figure.Publish(null, Now));
        Assert.Equal("mesh-open", refusal.Code);
        Assert.Contains("12 open edges", refusal.Message, StringComparison.Ordinal);
        Assert.Same(good, figure.CurrentEdition);
        Assert.False(variant.Revisions[1].IsPublished);
    }

    [Fact]
    public void A_mesh_still_being_inspected_is_not_published()
    {
        var variant = NewVariant(out var figure);
        Upload(variant, 'a');
        Assert.Equal("inspection-pending", Assert.Throws<RuleBrokenException>(() => figure.Publish(null, Now)).Code);
        Assert.Equal(FigureStatus.Draft, figure.Status);
    }

    [Fact]
    public void A_required_part_without_a_mesh_holds_publishing_back_and_an_optional_one_does_not()
    {
        var variant = NewVariant(out var figure);
        Upload(variant, 'a', MeasuredClosed());
        var hat = figure.AddPart("hat", "Hat", 1, PartRole.Required, Now);
        var refusal = Assert.Throws<RuleBrokenException>(() => figure.Publish(null, Now));
        Assert.Equal("part-without-revision", refusal.Code);
        Assert.Contains("Hat", refusal.Message, StringComparison.Ordinal);
        hat.SetRole(PartRole.Optional, Now);
        Assert.Single(figure.Publish(null, Now).Entries);
    }

    [Fact]
    public void Publishing_the_same_revisions_again_is_refused()
    {
        var variant = NewVariant(out var figure);
        Upload(variant, 'a', MeasuredClosed());
        figure.Publish(null, Now);
        Assert.Equal("nothing-new", Assert.Throws<RuleBrokenException>(() => figure.Publish(null, Now)).Code);
    }

    [Fact]
    public void A_published_revision_can_not_be_discarded()
    {
        var variant = NewVariant(out var figure);
        var revision = Upload(variant, 'a', MeasuredClosed());
        figure.Publish(null, Now);
        Assert.Equal("revision-published", Assert.Throws<RuleBrokenException>(() => variant.Discard(revision.Number, discard: true, Now)).Code);
    }

    [Fact]
    public void A_choice_that_loses_its_default_takes_another_member()
    {
        NewVariant(out var figure);
        var choice = figure.AddChoice("front", "Front", Now);
        var (lit, plain) = (figure.AddPart("lit", "Lit", 1, PartRole.Required, Now), figure.AddPart("plain", "Plain", 1, PartRole.Required, Now));
        lit.Join(choice, Now);
        plain.Join(choice, Now);
        Assert.Equal(lit.Id, choice.DefaultPartId);
        lit.SetRole(PartRole.Required, Now);
        Assert.Equal(plain.Id, choice.DefaultPartId);
    }

    [Theory]
    [InlineData(true, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)]
    [InlineData(true, 0.0, -1.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0)]
    [InlineData(false, -1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)]
    [InlineData(false, 2.0, 0.0, 0.0, 0.0, 2.0, 0.0, 0.0, 0.0, 2.0)]
    [InlineData(false, 1.0, 0.5, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)]
    [InlineData(false, double.NaN, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0)]
    [InlineData(false, 1.0, 0.0)]
    public void A_pose_turns_without_mirroring_or_scaling(bool valid, params double[] rotation) => Assert.Equal(valid, new Pose(0, 0, 0, rotation).IsValid);

    [Fact]
    public void A_withdrawn_figure_comes_back_with_the_edition_it_had()
    {
        var variant = NewVariant(out var figure);
        Upload(variant, 'a', MeasuredClosed());
        figure.Publish(null, Now);
        figure.Withdraw(Now);
        Assert.Equal("figure-withdrawn", Assert.Throws<RuleBrokenException>(() => figure.Publish(null, Now)).Code);
        figure.Reinstate(Now);
        Assert.Equal(FigureStatus.Published, figure.Status);
        Assert.NotNull(figure.CurrentEdition);
    }

    [Fact]
    public void Every_change_below_a_figure_counts_its_version_up()
    {
        var variant = NewVariant(out var figure);
        var changes = new Action[]
        {
            () => variant.Part.Describe("Left arm", 1, null, Now),
            () => variant.Declare(["VPP-rigid", "MEX-rigid"], Now),
            () => variant.Reserve("VPP-rigid", "brittle", Now),
            () => figure.AddChoice("front", "Front", Now),
            () => variant.Part.Join(figure.Choices[0], Now),
            () => figure.AddHardware(new(HardwareKind.Rod, "Rod", 2) { DiameterMm = 1.5, CutLengthMm = 14.5 }, Now),
            () => figure.AddStep(new("Glue", "Glue it."), Now),
            () => Upload(variant, 'a'),
        };
        foreach (var change in changes)
        {
            var before = figure.Version;
            change();
            Assert.True(figure.Version > before);
        }
    }

    [Theory, InlineData("left-arm", true), InlineData("a", true), InlineData("", false), InlineData("-a", false), InlineData("a--b", false),
     InlineData("Arm", false), InlineData("../etc", false), InlineData("a/b", false), InlineData("ärmel", false)]
    public void A_slug_is_lower_case_letters_digits_and_single_hyphens(string text, bool valid) => Assert.Equal(valid, Slug.IsValid(text));

    [Fact]
    public void A_title_suggests_its_slug() => Assert.Equal("madame-brise-de-mer-no-2", Slug.From("  Madame Brise-de-Mér, No. 2! "));

    private static Variant NewVariant(out Figure figure)
    {
        figure = new Figure("gull", new FigureText { Title = "Gull", HeightMm = 120, Licence = "CC-BY-4.0" }, Now);
        return figure.AddPart("arm", "Arm", 2, PartRole.Required, Now).AddVariant("resin", "Resin", ["VPP-rigid"], Now);
    }

    private static Revision Upload(Variant variant, char digit, MeshInspection? inspection = null)
    {
        var sha = new string(digit, 64);
        return variant.Upload(sha, 684, "arm.stl", null, null, inspection ?? new MeshInspection(sha, null, Now), Now);
    }

    private static MeshInspection MeasuredClosed() => Measured(openEdges: 0);

    private static MeshInspection Measured(int openEdges)
    {
        var inspection = new MeshInspection(new string('0', 64), null, Now);
        inspection.Start(Now);
        inspection.Finish(Facts(openEdges), "{}", 1, Now);
        return inspection;
    }

    internal static MeshFacts Facts(int openEdges = 0) => new()
    {
        Triangles = 12,
        Shells = 1,
        Closed = openEdges == 0,
        Manifold = true,
        Oriented = true,
        OpenEdges = openEdges,
        NonManifoldEdges = 0,
        DegenerateTriangles = 0,
        DuplicateTriangles = 0,
        InsideOutShells = 0,
        Voids = 0,
        Size = new Vec3(10, 20, 30),
        VolumeMm3 = 6000,
        AreaMm2 = 2200,
        UnitStated = true,
    };
}
