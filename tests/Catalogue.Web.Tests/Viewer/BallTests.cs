using System.Net;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Viewer;

/// <summary>What ball joints turn about, read off the meshes.</summary>
public abstract class BallTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_ball_joint_tells_where_its_ball_and_its_socket_are()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Visitor();
        var figure = await designer.NewFigureAsync("nodder");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.Stl(Solids.Together(Solids.Box(16, 16, 16), Solids.Inverted(Solids.Icosphere(3.1, 4, new(8, 8, 8))))), ("unit", "mm")));
        await designer.PostAsync($"/api/figures/{figure}/parts", new { slug = "head", name = "Head" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{figure}/parts/head/variants", new { slug = "solid", name = "Solid", processes = new[] { "MEX-rigid" } }, HttpStatusCode.Created);
        using (var form = Api.Form(Api.Stl(Solids.Together(Solids.Icosphere(3, 4), Solids.Box(8, 8, 10).Transformed(Rotation.Identity, new(-4, -4, 4)))), "head.stl", ("unit", "mm")))
        {
            using var sent = await designer.PostAsync(Api.Revisions(figure, "head"), form);
            await designer.InspectedAsync(await sent.ExpectAsync(HttpStatusCode.Accepted));
        }

        var upright = Rotation.Identity.ToRowMajor();
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/body/poses", new { poses = new[] { new { x = 0, y = 0, z = 0, rotation = upright } } }, HttpStatusCode.OK);
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/parts/head/poses", new { poses = new[] { new { x = 8, y = 8, z = 8, rotation = upright } } }, HttpStatusCode.OK);
        await designer.PostAsync($"/api/figures/{figure}/joints",
            new { kind = "pop-in-ball", name = "Neck", firstPart = "body", secondPart = "head", innerDiameterMm = 6, outerDiameterMm = 6.2, mouthDiameterMm = 5.6 }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{figure}/publish", new { note = "First." }, HttpStatusCode.OK);

        var joint = Assert.Single((await visitor.GetJsonAsync($"/api/figures/{figure}/assembled"))["joints"]!.AsArray())!;
        Assert.Null(joint["axis"]);
        var (ball, _) = await visitor.MadeAsync((string)joint["ball"]!["balls"]!);
        var (socket, tag) = await visitor.MadeAsync((string)joint["ball"]!["sockets"]!);
        Assert.All(Assert.Single(ball["balls"]!.AsArray())!["center"]!.AsArray(), c => Assert.Equal(0, (double)c!, 0.02));
        Assert.All(Assert.Single(socket["balls"]!.AsArray())!["center"]!.AsArray(), c => Assert.Equal(8, (double)c!, 0.02));
        Assert.NotEqual("", tag);
        using var refused = await visitor.GetAsync(((string)joint["ball"]!["balls"]!).Replace("diameter=6", "diameter=-1", StringComparison.Ordinal));
        await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "dimension-invalid");
    }
}

public sealed class BallsOnSqliteTests(SqliteCatalogue catalogue) : BallTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class BallsOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : BallTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
