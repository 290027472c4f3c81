using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Fit;

public sealed class FitProfileTests
{
    private static readonly Rotation Askew = Rotation.About(new(1, 2, 3), 0.7);

    private static readonly Gen<BuildVolume> Volumes = Gen.Frequency(
        (3, Gen.Select(Gen.Double[5, 150], Gen.Double[5, 150], Gen.Double[5, 150]).Select((w, d, h) => BuildVolume.Rectangular(w, d, h))),
        (1, Gen.Select(Gen.Double[5, 150], Gen.Double[5, 150]).Select((d, h) => BuildVolume.Round(d, h))));

    [Fact]
    public void A_clear_answer_is_never_contradicted_by_the_search_on_the_hull() =>
        Gen.Select(AnyPart.Hulls, Volumes.Array[5]).Sample(
            (hull, volumes) =>
            {
                var profile = FitProfile.Of(hull);
                foreach (var volume in volumes)
                {
                    var (quick, thorough) = (profile.Query(volume), FitSearch.Fit(hull, volume));
                    var slack = volume.IsRound ? profile.RoundSlackMm : profile.SlackMm;
                    Assert.True(quick.SpareMm <= thorough.SpareMm + thorough.ErrorBoundMm + 1e-6, "the profile promises more than there is");
                    Assert.True(thorough.SpareMm <= quick.SpareMm + slack + 1e-6, "the search found more than the profile rules out");
                    if (quick.Fits) Assert.NotEqual(FitDecision.DoesNotFit, thorough.Decision);
                    if (!quick.NearEdge) Assert.Equal(quick.Fits ? FitDecision.Fits : FitDecision.DoesNotFit, thorough.Decision);
                }
            },
            iter: 6);

    [Fact]
    public void The_rotation_given_needs_no_more_than_the_size_given() =>
        Gen.Select(AnyPart.Hulls, Volumes.Array[4]).Sample(
            (hull, volumes) =>
            {
                var profile = FitProfile.Of(hull);
                foreach (var volume in volumes)
                {
                    var answer = profile.Query(volume);
                    var size = hull.Support.ExtentsIn(answer.Rotation);
                    Assert.True(size.X <= answer.Size.X + 1e-9 && size.Y <= answer.Size.Y + 1e-9 && size.Z <= answer.Size.Z + 1e-9);
                    var spare = Math.Min(volume.Width - answer.Size.X, Math.Min(volume.Depth - answer.Size.Y, volume.Height - answer.Size.Z));
                    Assert.Equal(spare, answer.SpareMm, 1e-9);
                    Assert.Equal(1, Vec3.Dot(Vec3.Cross(answer.Rotation.RowX, answer.Rotation.RowY), answer.Rotation.RowZ), 1e-9);
                }
            },
            iter: 4);

    [Fact]
    public void A_larger_volume_never_spares_less() =>
        Gen.Select(AnyPart.Hulls, Gen.Double[0, 20].Array[3]).Sample(
            (hull, more) =>
            {
                var profile = FitProfile.Of(hull);
                var (small, large) = (BuildVolume.Rectangular(64, 80, 60), BuildVolume.Rectangular(64 + more[0], 80 + more[1], 60 + more[2]));
                Assert.True(profile.Query(large).SpareMm >= profile.Query(small).SpareMm - 1e-5);
            },
            iter: 4);

    [Fact]
    public void Bytes_read_back_answer_alike()
    {
        var profile = FitProfile.Of(ConvexHull.Of(Solids.Box(100, 60, 30).Transformed(Askew)));
        var again = FitProfile.FromBytes(profile.ToBytes());
        Assert.Equal(profile.ToBytes(), again.ToBytes());
        Assert.Equal(profile.Query(BuildVolume.Parse("64x114x152")), again.Query(BuildVolume.Parse("64x114x152")));
        Assert.Equal(profile.Query(BuildVolume.Parse("120x200")), again.Query(BuildVolume.Parse("120x200")));
        Assert.Equal((profile.SlackMm, profile.RoundSlackMm), (again.SlackMm, again.RoundSlackMm));
    }

    [Fact]
    public void Bytes_of_anything_else_are_refused()
    {
        var bytes = FitProfile.Of(ConvexHull.Of(Solids.Box(10, 10, 10))).ToBytes();
        Assert.Throws<FormatException>(() => FitProfile.FromBytes([]));
        Assert.Throws<FormatException>(() => FitProfile.FromBytes(bytes.AsSpan(0, bytes.Length - 1)));
        Assert.Throws<FormatException>(() => FitProfile.FromBytes([.. bytes, 0]));
        bytes[0] ^= 1;
        Assert.Throws<FormatException>(() => FitProfile.FromBytes(bytes));
    }

    // The box itself, by hand: it is never narrower than 60 in two directions at once, and stands on its smallest side in a circle of √(60² + 30²).
    [Theory]
    [InlineData("101x61x31", true)]
    [InlineData("61x31x101", true)]
    [InlineData("98x58x28", false)]
    [InlineData("68x101", true)]
    [InlineData("66x99", false)]
    public void A_brick_fits_by_its_sides(string volume, bool fits)
    {
        var answer = FitProfile.Of(ConvexHull.Of(Solids.Box(100, 60, 30).Transformed(Askew))).Query(BuildVolume.Parse(volume));
        Assert.Equal((fits, false), (answer.Fits, answer.NearEdge));
    }

    [Theory, InlineData("110x70x40"), InlineData("40x110x70"), InlineData("70x40x110")]
    public void The_pose_suits_the_volume_s_own_sides(string volume)
    {
        var answer = FitProfile.Of(ConvexHull.Of(Solids.Box(100, 60, 30).Transformed(Askew))).Query(BuildVolume.Parse(volume));
        Assert.True(answer is { Fits: true, NearEdge: false });
        Assert.InRange(answer.SpareMm, 9.5, 10.0001);
    }

    [Fact]
    public void Near_the_edge_it_says_so()
    {
        var profile = FitProfile.Of(ConvexHull.Of(Solids.Box(100, 60, 30)));
        Assert.True(profile.Query(BuildVolume.Parse("100.3x60.3x30.3")) is { Fits: true, NearEdge: true });
        Assert.True(profile.Query(BuildVolume.Parse("99.8x60x30")) is { Fits: false, NearEdge: true });
        Assert.False(profile.Query(BuildVolume.Parse("101x61x31")).NearEdge);
    }

    [Fact]
    public void A_ball_needs_one_rotation_only()
    {
        var profile = FitProfile.Of(ConvexHull.Of(Solids.Icosphere(25, 5)));
        Assert.InRange(profile.Count, 1, 3);
        Assert.True(profile.Query(BuildVolume.Parse("51x51x51")) is { Fits: true, NearEdge: false });
        Assert.True(profile.Query(BuildVolume.Parse("48.9x200x200")) is { Fits: false, NearEdge: false });
        Assert.True(profile.Query(BuildVolume.Parse("48.9x200")) is { Fits: false, NearEdge: false });
    }

    [Fact]
    public void Nothing_and_a_point_fit_anywhere()
    {
        Assert.True(FitProfile.Of(ConvexHull.Of([])).Query(BuildVolume.Parse("1x1x1")).Fits);
        Assert.True(FitProfile.Of(ConvexHull.Of([5f, 5f, 5f])).Query(BuildVolume.Parse("1x1")).Fits);
    }

    [Fact]
    public void Fewer_vertices_answer_as_all_of_them()
    {
        // 40 962 vertices are thinned for the search; the promise is measured on all of them.
        var hull = ConvexHull.Of(Solids.Icosphere(40, 6));
        var profile = FitProfile.Of(hull);
        Assert.True(hull.Support.Reduced().Count < hull.VertexCount / 4);
        Assert.InRange(profile.SlackMm, 0.2, 0.5);
        Assert.InRange(profile.Query(BuildVolume.Parse("100x100x100")).SpareMm, 19.99, 20.05);
    }
}
