using System.Net;
using System.Security.Cryptography;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Inspections;

/// <summary>Checks on a mesh for anybody: the object of <c>inspect --json</c>, and nothing kept.</summary>
public abstract class VisitorInspectionTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_mesh_is_answered_with_its_measures_and_a_verdict_per_process()
    {
        using var visitor = Catalogue.Visitor();
        // Torus R = 20, r = 5: V = 2π²Rr² = 9869.6044 (closed form); the mesh is inscribed, so a little less.
        var stl = Api.Stl(Solids.Torus(20, 5, 256, 128));
        using var form = Api.Form(stl, "../ring.stl", ("unit", "mm"));
        using var response = await visitor.PostAsync("/api/inspections", form);
        var report = await response.ExpectAsync(HttpStatusCode.OK);
        Assert.Equal("application/json", response.Content.Headers.ContentType?.MediaType);
        Assert.Equal(("ring.stl", "stl-binary", "mm", true),
            ((string?)report["file"], (string?)report["format"], (string?)report["unit"], (bool)report["unitStated"]!));
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(stl)), (string?)report["sha256"]);
        Assert.InRange((double)report["volumeMm3"]!, 9869.6044 * 0.998, 9869.6044);
        Assert.True((bool)report["mesh"]!["closed"]!);
        Assert.Equal(0, (int)report["mesh"]!["eulerCharacteristic"]!);
        Assert.Equal(6, report["processes"]!.AsArray().Count);
        Assert.Null(report["fit"]);
        Assert.DoesNotContain(Directory.EnumerateFiles(Catalogue.BlobFolder, "*", SearchOption.AllDirectories), f => f.EndsWith(((string)report["sha256"]!)[2..], StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_page_shows_ways_to_lay_a_part_down_that_fit_the_volume()
    {
        using var visitor = new Browser(Catalogue.Visitor());
        await visitor.GoAsync("/inspect");
        await visitor.SubmitFileAsync("/inspect", Api.BoxStl(60, 20, 10), "brick.stl", ("unit", "mm"), ("process", "VPP-rigid"), ("volume", "50x50x80"));
        Assert.Contains("Ways to lay it down", visitor.Text, StringComparison.Ordinal);
        Assert.Contains("fewest marks", visitor.Text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("data:image/webp;base64,UklGR", visitor.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_volume_is_answered_with_the_fit()
    {
        using var visitor = Catalogue.Visitor();
        using var body = new ByteArrayContent(Api.BoxStl(6, 6, 180));
        using var turned = await visitor.PostAsync("/api/inspections?process=VPP-rigid&volume=64x114x152&unit=mm", body);
        var report = await turned.ExpectAsync(HttpStatusCode.OK);
        // The space diagonal of 64 × 114 × 152 is 200.5 mm, so that a thin rod of 180 mm goes in when turned.
        Assert.True((bool)report["fit"]!["fits"]!);
        Assert.Equal("VPP-rigid", (string?)Assert.Single(report["processes"]!.AsArray())!["process"]);

        using var again = new ByteArrayContent(Api.BoxStl(6, 6, 180));
        using var round = await visitor.PostAsync("/api/inspections?round=60x100&unit=mm", again);
        Assert.False((bool)(await round.ExpectAsync(HttpStatusCode.OK))["fit"]!["fits"]!);
    }

    [Theory]
    [InlineData("?process=wood", "process-unknown")]
    [InlineData("?volume=large", "volume-invalid")]
    [InlineData("?unit=furlong", "unit-invalid")]
    public async Task Words_that_mean_nothing_are_refused(string query, string code)
    {
        using var visitor = Catalogue.Visitor();
        using var body = new ByteArrayContent(Api.BoxStl(10, 10, 10));
        using var response = await visitor.PostAsync("/api/inspections" + query, body);
        await response.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code);
    }

    [Fact]
    public async Task What_is_no_mesh_is_a_problem_with_its_reason()
    {
        using var visitor = Catalogue.Visitor();
        using var letter = new StringContent("Dear catalogue, " + new string('.', 300));
        using var noMesh = await visitor.PostAsync("/api/inspections", letter);
        await noMesh.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "mesh-not-a-mesh");
        using var cut = new ByteArrayContent(Api.BoxStl(10, 10, 10)[..^9]);
        using var truncated = await visitor.PostAsync("/api/inspections", cut);
        await truncated.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "mesh-truncated");
        using var empty = Api.Form([]);
        using var nothing = await visitor.PostAsync("/api/inspections", empty);
        await nothing.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "mesh-empty");
        using var missing = await visitor.PostAsync("/api/inspections", null);
        await missing.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "file-missing");
    }

    [Fact]
    public async Task The_page_shows_the_findings_without_an_account_or_scripts()
    {
        using var visitor = new Browser(Catalogue.Visitor());
        await visitor.GoAsync("/inspect");
        await visitor.SubmitFileAsync("/inspect", Api.BoxStl(6, 6, 180), "oar.stl", ("unit", "mm"), ("process", "VPP-rigid"), ("volume", "50x50x50"));
        Assert.Equal(HttpStatusCode.OK, visitor.Status);
        Assert.Contains("oar.stl", visitor.Text, StringComparison.Ordinal);
        Assert.Contains("too long in every orientation", visitor.Text, StringComparison.Ordinal);
        Assert.Contains("unsuited", visitor.Text, StringComparison.Ordinal);
        await visitor.SubmitFileAsync("/inspect", [1, 2, 3], "oar.stl", ("unit", "mm"), ("process", ""), ("volume", "50x50x50"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, visitor.Status);
        Assert.Contains("The mesh was not checked", visitor.Text, StringComparison.Ordinal);
        Assert.Contains("value=\"50x50x50\"", visitor.Html, StringComparison.Ordinal);
    }
}

public sealed class VisitorInspectionOnSqliteTests(SqliteCatalogue catalogue) : VisitorInspectionTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class VisitorInspectionOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : VisitorInspectionTests(catalogue), IClassFixture<PostgreSqlCatalogue>;

/// <summary>A catalogue that inspects two meshes a minute for one address, of up to one mebibyte.</summary>
public sealed class ThriftyCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [("Catalogue:InspectionsPerMinute", "3"), ("Catalogue:MaxInspectionMiB", "1")];
}

public sealed class ThriftyTests(ThriftyCatalogue catalogue) : IClassFixture<ThriftyCatalogue>
{
    [Fact]
    public async Task Large_meshes_and_many_of_them_are_turned_away()
    {
        using var visitor = catalogue.Visitor();
        using var large = Api.Form(new byte[(1024 * 1024) + 1]);
        using var tooLarge = await visitor.PostAsync("/api/inspections", large);
        await tooLarge.ExpectProblemAsync(HttpStatusCode.RequestEntityTooLarge, "file-too-large");
        for (var i = 0; i < 2; i++)
        {
            using var form = Api.Form(Api.BoxStl(10, 10, 10));
            using var inspected = await visitor.PostAsync("/api/inspections", form);
            await inspected.ExpectAsync(HttpStatusCode.OK);
        }

        using var last = Api.Form(Api.BoxStl(10, 10, 10));
        using var tooOften = await visitor.PostAsync("/api/inspections", last);
        await tooOften.ExpectProblemAsync(HttpStatusCode.TooManyRequests, "too-many-requests");
        Assert.True(tooOften.Headers.RetryAfter?.Delta > TimeSpan.Zero);

        // Other tests may be inspecting at this moment; theirs go as well.
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
        while (Directory.GetFiles(Path.GetTempPath(), "catalogue-inspect-*").Length > 0) await Task.Delay(20, patience.Token);
    }
}
