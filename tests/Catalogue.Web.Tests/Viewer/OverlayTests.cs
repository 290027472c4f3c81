using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Viewer;

/// <summary>What the checks found, triangle by triangle.</summary>
public abstract class OverlayTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_thin_plate_is_shown_as_thin_by_the_limit_of_the_process()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishAsync("pane", Solids.Box(30, 30, 0.4));
        var (pane, tag) = await visitor.MadeAsync($"{Look.Of(figure)}/overlays/thickness?process=VPP-rigid");

        // Resin wants 0.5 mm of a held wall: 0.4 mm is below it and above its half. Both faces count.
        Assert.Equal(4, Kinds(pane).Count(k => k == 2));
        var below = pane["kinds"]!.AsArray()[1]!;
        Assert.Equal((2, 0.25, 0.5), ((int)below["number"]!, (double)below["from"]!, (double)below["to"]!));
        Assert.Equal(2 * 30 * 30, (double)below["areaMm2"]!, 0.1);
        Assert.Contains("0.5 mm (common practice)", (string)pane["about"]!, StringComparison.Ordinal);

        using var request = new HttpRequestMessage(HttpMethod.Get, $"{Look.Of(figure)}/overlays/thickness?process=VPP-rigid");
        request.Headers.TryAddWithoutValidation("If-None-Match", tag);
        using var again = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
    }

    [Fact]
    public async Task Overhangs_follow_the_pose_that_is_asked_for()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();

        // A table: a leg with a wide top. Standing, the top's underside hangs over; on its head nothing does.
        var table = Solids.Together(Solids.Box(6, 6, 20).Transformed(Rotation.Identity, new(12, 12, 0)), Solids.Box(30, 30, 4).Transformed(Rotation.Identity, new(0, 0, 20)));
        var figure = await designer.PublishAsync("table", table);
        var (standing, _) = await visitor.MadeAsync($"{Look.Of(figure)}/overlays/overhangs?process=MEX-rigid");
        Assert.Equal(900, (double)standing["kinds"]![0]!["areaMm2"]!, 0.1);
        Assert.Equal(36, (double)standing["kinds"]![2]!["areaMm2"]!, 0.1);
        var (upsideDown, _) = await visitor.MadeAsync($"{Look.Of(figure)}/overlays/overhangs?process=MEX-rigid&rotation=1,0,0,0,-1,0,0,0,-1");
        Assert.Equal(900, (double)upsideDown["kinds"]![2]!["areaMm2"]!, 0.1);
        using var odd = await visitor.GetAsync($"{Look.Of(figure)}/overlays/overhangs?rotation=1,0,0,0,1,0,0,0,-1");
        await odd.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "rotation-invalid");
    }

    [Fact]
    public async Task Only_what_applies_is_offered_and_changes_only_from_the_second_revision_on()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishAsync("grower", Solids.Box(10, 10, 10));
        string[] Codes(JsonNode list) => [.. list["items"]!.AsArray().Select(i => (string)i!["code"]!)];
        Assert.DoesNotContain("liquid", Codes(await visitor.GetJsonAsync($"{Look.Of(figure)}/overlays?process=MEX-rigid")));
        var first = Codes(await visitor.GetJsonAsync($"{Look.Of(figure)}/overlays?process=VPP-rigid"));
        Assert.Contains("liquid", first);
        Assert.DoesNotContain("changes", first);
        using (var none = await visitor.GetAsync($"{Look.Of(figure)}/overlays/changes")) await none.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");

        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10.3)));
        await designer.PostAsync($"/api/figures/{figure}/publish", new { note = "Higher." }, HttpStatusCode.OK);
        var (changes, _) = await visitor.MadeAsync($"{Look.Of(figure, 2)}/overlays/changes?process=VPP-rigid");

        // The lid stands 0.3 mm higher; of the sides' triangles each has a corner that does.
        Assert.True((double)changes["kinds"]![1]!["areaMm2"]! >= 100);
        Assert.Equal(0, (double)changes["kinds"]![0]!["areaMm2"]!);
        Assert.Equal(0.3, double.Parse(((string)changes["places"]![0]!["words"]!).Split(' ')[2], CultureInfo.InvariantCulture), 0.01);
    }

    [Fact]
    public async Task A_level_of_detail_has_as_many_kinds_as_triangles()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishAsync("fine-ring", Solids.Torus(20, 0.4, 200, 60));
        var (shape, _) = await visitor.MadeAsync($"{Look.Of(figure)}/shape");
        for (var level = 0; level < 2; level++)
        {
            var (overlay, _) = await visitor.MadeAsync($"{Look.Of(figure)}/overlays/thickness?process=VPP-rigid&level={level}");
            var kinds = Kinds(overlay);
            Assert.Equal((int)shape["levels"]![level]!["triangles"]!, kinds.Length);
            Assert.True(kinds.Count(k => k == 3) > 0.95 * kinds.Length, $"{kinds.Count(k => k == 3)} of {kinds.Length}"); // 0.8 mm: enough where held (0.5), too thin free (1).
        }

        using var none = await visitor.GetAsync($"{Look.Of(figure)}/overlays/thickness?level=2");
        await none.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
    }

    private static byte[] Kinds(JsonNode overlay) => Convert.FromBase64String((string)overlay["triangles"]!);
}

public sealed class OverlaysOnSqliteTests(SqliteCatalogue catalogue) : OverlayTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class OverlaysOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : OverlayTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
