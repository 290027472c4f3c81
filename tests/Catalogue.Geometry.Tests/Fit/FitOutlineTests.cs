using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Fit;

public sealed class FitOutlineTests
{
    private static readonly Gen<BuildVolume> Volumes = Gen.Frequency(
        (3, Gen.Select(Gen.Double[5, 150], Gen.Double[5, 150], Gen.Double[5, 150]).Select((w, d, h) => BuildVolume.Rectangular(w, d, h))),
        (1, Gen.Select(Gen.Double[5, 150], Gen.Double[5, 150]).Select((d, h) => BuildVolume.Round(d, h))));

    [Fact]
    public void A_certain_answer_is_never_contradicted_by_the_search_on_the_hull() =>
        Gen.Select(AnyPart.Hulls, Volumes.Array[6]).Sample(
            (hull, volumes) =>
            {
                var outline = FitOutline.Of(FitProfile.Of(hull));
                foreach (var volume in volumes)
                {
                    var (said, thorough) = (FitOutline.Ask(outline, new(volume)), FitSearch.Fit(hull, volume));
                    if (said == OutlineFit.Fits) Assert.Equal(FitDecision.Fits, thorough.Decision);
                    if (said == OutlineFit.TooLarge) Assert.NotEqual(FitDecision.Fits, thorough.Decision);
                }
            },
            iter: 8);

    [Fact]
    public void Volumes_at_the_very_edge_are_never_answered_wrongly() =>
        Gen.Select(AnyPart.Hulls, Volumes, Gen.Double[-1, 1]).Sample(
            (hull, volume, off) =>
            {
                // The volume grown or cut by just what the part has to spare or lacks there, and a little.
                var spare = FitSearch.Fit(hull, volume).SpareMm - off;
                if (volume.Width - spare < 1 || volume.Depth - spare < 1 || volume.Height - spare < 1) return;
                var edge = volume.IsRound
                    ? BuildVolume.Round(volume.Width - spare, volume.Height - spare)
                    : BuildVolume.Rectangular(volume.Width - spare, volume.Depth - spare, volume.Height - spare);
                var thorough = FitSearch.Fit(hull, edge);
                var said = FitOutline.Ask(FitOutline.Of(FitProfile.Of(hull)), new(edge));
                if (said != OutlineFit.Unclear) Assert.Equal(said == OutlineFit.Fits, thorough.Fits);
                if (FitSearch.Decide(hull, edge) is { } decided) Assert.Equal(decided, thorough.Fits);
                else Assert.True(Math.Abs(thorough.SpareMm) < 0.2, $"undecided at {thorough.SpareMm:0.000} mm");
            },
            iter: 40);

    [Fact]
    public void Only_a_narrow_strip_of_volumes_is_unclear() =>
        Gen.Select(AnyPart.Hulls, Volumes).Sample(
            (hull, volume) =>
            {
                var outline = FitOutline.Of(FitProfile.Of(hull));
                var spare = FitSearch.Fit(hull, volume).SpareMm;
                if (Math.Abs(spare) > 12 && outline.Length > 0) Assert.NotEqual(OutlineFit.Unclear, FitOutline.Ask(outline, new(volume)));
            },
            iter: 20);

    [Fact]
    public void It_has_the_same_size_for_every_part_and_tells_foreign_bytes_apart()
    {
        var outline = FitOutline.Of(FitProfile.Of(ConvexHull.Of(Solids.Box(10, 20, 30))));
        Assert.Equal(FitOutline.Size, outline.Length);
        Assert.True(FitOutline.IsOne(outline));
        Assert.False(FitOutline.IsOne(outline.AsSpan(1)));
        Assert.False(FitOutline.IsOne(new byte[FitOutline.Size]));
        Assert.Equal(OutlineFit.Fits, FitOutline.Ask(outline, new(BuildVolume.Rectangular(32, 12, 22))));
        Assert.Equal(OutlineFit.TooLarge, FitOutline.Ask(outline, new(BuildVolume.Rectangular(28, 40, 9))));
        Assert.Equal(OutlineFit.Unclear, FitOutline.Ask(outline, new(BuildVolume.Rectangular(30, 10, 20))));
        Assert.Equal(OutlineFit.TooLarge, FitOutline.Ask(outline, new OutlineRoom(BuildVolume.Rectangular(30, 10, 20)).Less(40)));
    }

    [Fact]
    public void Nothing_at_all_fits_everywhere()
    {
        var outline = FitOutline.Of(FitProfile.Of(ConvexHull.Of([])));
        Assert.Equal(OutlineFit.Fits, FitOutline.Ask(outline, new(BuildVolume.Rectangular(1, 1, 1))));
        Assert.Equal(OutlineFit.Fits, FitOutline.Ask(outline, new(BuildVolume.Round(1, 1))));
    }
}
