using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Viewer;

/// <summary>Where parts sit, from a 3MF build; and the figure put together from it.</summary>
public abstract class PoseTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private static readonly TriangleMesh Ring = Solids.Torus(12, 3, 40, 20);

    [Fact]
    public async Task A_build_places_the_parts_whose_meshes_it_holds()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.PublishAsync("builder", Ring);
        Assert.Empty((await visitor.GetJsonAsync($"/api/figures/{figure}/assembled"))["copies"]!.AsArray());
        var rotation = Rotation.About(new(1, -2, 0.5), 2.1);
        var placed = await SendAsync(designer, figure, [new("ring", Ring), new("stand", Solids.Box(9, 9, 2))], [new(0, rotation, new(30, -7, 55)), ThreeMfPlacement.AsIs(1)], HttpStatusCode.OK);
        Assert.Equal(["body"], placed["placed"]!.AsArray().Select(p => (string?)p));
        Assert.Single(placed["unknown"]!.AsArray());

        var assembled = await visitor.GetJsonAsync($"/api/figures/{figure}/assembled");
        var copy = Assert.Single(assembled["copies"]!.AsArray())!;
        Assert.Equal(30, (double)copy["x"]!, 0.01);
        Assert.Equal(rotation.ToRowMajor(), copy["rotation"]!.AsArray().Select(n => (double)n!), (a, b) => Math.Abs(a - b) < 1e-3);
        Assert.EndsWith("/variants/solid/revisions/1/shape", (string?)assembled["parts"]![0]!["shape"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_build_of_other_things_changes_nothing_and_says_so()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishAsync("builder-of-others", Ring);
        var refused = await SendAsync(designer, figure, [new("ring", Ring.Scaled(1.1))], [ThreeMfPlacement.AsIs(0)], HttpStatusCode.UnprocessableEntity);
        Assert.Equal("urn:x-catalogue:problem:build-foreign", (string?)refused["type"]);
        var twice = await SendAsync(designer, figure, [new("ring", Ring)], [ThreeMfPlacement.AsIs(0), new(0, Rotation.Identity, new(40, 0, 0))], HttpStatusCode.OK);
        Assert.Equal(["body"], twice["countDiffers"]!.AsArray().Select(p => (string?)p));
    }

    private static async Task<JsonNode> SendAsync(HttpClient designer, string figure, ThreeMfObject[] objects, ThreeMfPlacement[] placements, HttpStatusCode expected)
    {
        using var file = new MemoryStream();
        ThreeMfWriter.Write(file, objects, placements);
        using var form = Api.Form(file.ToArray(), "figure.3mf");
        using var answer = await designer.PostAsync($"/api/figures/{figure}/poses", form);
        return await answer.ExpectAsync(expected);
    }
}

public sealed class PosesOnSqliteTests(SqliteCatalogue catalogue) : PoseTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PosesOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : PoseTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
