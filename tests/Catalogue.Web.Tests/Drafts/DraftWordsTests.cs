using System.Net;
using System.Text;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>The words and numbers of figures, parts, joints, hardware and steps over the API, and what is said of wrong ones.</summary>
public abstract class DraftWordsTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task What_is_said_of_a_figure_comes_back_as_it_was_said()
    {
        using var designer = await Catalogue.DesignerAsync();
        var slug = CatalogueFixture.NewSlug("words");
        var made = await designer.PostAsync("/api/figures", new
        {
            slug,
            title = "The Tide Clerk",
            heightMm = 120.5,
            scaleDenominator = 12,
            licence = "CC-BY-SA-4.0 OR LicenseRef-troupe",
            summary = "Counts waves.",
            story = "# Once",
            paintingNotes = "Blue.",
            referenceNote = "From memory.",
            credits = "A. Designer",
            cautions = "Small parts.",
        }, HttpStatusCode.Created);
        Assert.Equal(("The Tide Clerk", 120.5, 12.0, "draft"),
            ((string?)made["title"], (double)made["heightMm"]!, (double)made["scaleDenominator"]!, (string?)made["status"]));

        var changed = await designer.SendAsync(HttpMethod.Put, $"/api/figures/{slug}", new { title = "The Tide Clerk", heightMm = 121, licence = "MIT" }, HttpStatusCode.OK);
        Assert.Equal((121.0, "MIT", ""), ((double)changed["heightMm"]!, (string?)changed["licence"], (string?)changed["story"]));
    }

    [Fact]
    public async Task An_address_is_made_from_the_title_and_taken_once()
    {
        using var designer = await Catalogue.DesignerAsync();
        var title = "Käpt’n " + Guid.NewGuid().ToString("N")[..8];
        var made = await designer.PostAsync("/api/figures", new { title, heightMm = 120, licence = "CC0-1.0" }, HttpStatusCode.Created);
        Assert.Equal("kapt-n-" + title[^8..], (string?)made["slug"]);
        using var again = await designer.SendJsonAsync("/api/figures", new { title, heightMm = 120, licence = "CC0-1.0" });
        await again.ExpectProblemAsync(HttpStatusCode.Conflict, "slug-taken");
    }

    [Theory]
    [InlineData("""{"heightMm":120,"licence":"MIT","slug":"no-title"}""", 422, "text-missing")]
    [InlineData("""{"title":"A","licence":"MIT"}""", 422, "height-invalid")]
    [InlineData("""{"title":"A","heightMm":0,"licence":"MIT"}""", 422, "height-invalid")]
    [InlineData("""{"title":"A","heightMm":-3,"licence":"MIT"}""", 422, "height-invalid")]
    [InlineData("""{"title":"A","heightMm":1e308,"licence":"MIT"}""", 422, "height-invalid")]
    [InlineData("""{"title":"A","heightMm":120}""", 422, "text-missing")]
    [InlineData("""{"title":"A","heightMm":120,"licence":"free for all"}""", 422, "licence-invalid")]
    [InlineData("""{"title":"A","heightMm":120,"licence":"MIT","tags":["of thirty-one letters altogether"]}""", 422, "tags-invalid")]
    [InlineData("""{"title":"A","heightMm":120,"licence":"MIT","slug":"../etc"}""", 422, "slug-invalid")]
    [InlineData("""{"title":"???","heightMm":120,"licence":"MIT"}""", 422, "slug-invalid")]
    [InlineData("""{"title":"A","heightMm":"tall","licence":"MIT"}""", 400, "json-malformed")]
    [InlineData("""{"title":"A","heightMm":NaN}""", 400, "json-malformed")]
    [InlineData("""{"title":"A",""", 400, "json-malformed")]
    [InlineData("", 400, "request-malformed")]
    [InlineData("[]", 400, "json-malformed")]
    public async Task A_wrong_figure_is_refused_with_a_stable_type(string body, int status, string code)
    {
        using var designer = await Catalogue.DesignerAsync();
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        using var response = await designer.PostAsync("/api/figures", content);
        await response.ExpectProblemAsync((HttpStatusCode)status, code);
    }

    [Fact]
    public async Task A_wrong_word_is_answered_with_the_words_there_are()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("roles");
        using var response = await designer.SendJsonAsync($"/api/figures/{figure}/parts", new { name = "Arm", role = "mandatory" });
        var detail = await response.ExpectProblemAsync(HttpStatusCode.BadRequest, "json-malformed");
        Assert.Contains("required, optional, choice", detail, StringComparison.Ordinal);
        Assert.Contains("$.role", detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Wrong_addresses_methods_and_media_are_problems_too()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var nowhere = await designer.GetAsync("/api/nowhere");
        await nowhere.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var noFigure = await designer.GetAsync("/api/drafts/no-such-figure");
        await noFigure.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var method = await designer.DeleteAsync("/api/drafts");
        await method.ExpectProblemAsync(HttpStatusCode.MethodNotAllowed, "method-not-allowed");
        using var text = new StringContent("title: A", Encoding.UTF8, "text/yaml");
        using var media = await designer.PostAsync("/api/figures", text);
        await media.ExpectProblemAsync(HttpStatusCode.UnsupportedMediaType, "media-type-unsupported");
        using var large = new StringContent(new string(' ', 2 * 1024 * 1024), Encoding.UTF8, "application/json");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/figures") { Content = large };
        request.Headers.ExpectContinue = true;
        using var tooLarge = await designer.SendAsync(request);
        await tooLarge.ExpectProblemAsync(HttpStatusCode.RequestEntityTooLarge, "request-too-large");
    }

    [Fact]
    public async Task A_variant_declares_its_processes_and_what_to_watch()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("processes", "VPP-rigid");
        var path = $"/api/figures/{figure}/parts/body/variants/solid";
        var changed = await designer.SendAsync(HttpMethod.Put, path,
            new { name = "Solid", processes = new[] { "MEX-rigid", "VPP-tough" }, reservations = new Dictionary<string, string> { ["MEX-rigid"] = "Print slowly." } }, HttpStatusCode.OK);
        Assert.Equal(["MEX-rigid", "VPP-tough"], changed["processes"]!.AsArray().Select(p => (string?)p));
        Assert.Equal("Print slowly.", (string?)changed["reservations"]!["MEX-rigid"]);

        using var none = await designer.SendJsonAsync($"/api/figures/{figure}/parts/body/variants", new { name = "Other", processes = Array.Empty<string>() });
        await none.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "process-missing");
        using var bad = await designer.SendJsonAsync($"/api/figures/{figure}/parts/body/variants", new { name = "Other", processes = new[] { "resin" } });
        await bad.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "process-invalid");
    }

    [Fact]
    public async Task Copies_of_a_part_are_placed_in_the_assembled_figure()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("placed");
        var path = $"/api/figures/{figure}/parts/body/poses";
        var placed = await designer.SendAsync(HttpMethod.Put, path, new { poses = new[] { new { x = 1.5, y = -2, z = 30, rotation = new[] { 1, 0, 0, 0, 0, -1, 0, 1, 0 } } } }, HttpStatusCode.OK);
        Assert.Equal((1.5, -1.0), ((double)placed["poses"]![0]!["x"]!, (double)placed["poses"]![0]!["rotation"]![5]!));
        Assert.Equal(30, (double)(await designer.GetJsonAsync($"/api/drafts/{figure}"))["parts"]![0]!["poses"]![0]!["z"]!);

        using var crooked = await designer.PutAsync(path, new StringContent("""{"poses":[{"x":0,"y":0,"z":0,"rotation":[1,2,3]}]}""", Encoding.UTF8, "application/json"));
        await crooked.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "pose-invalid");
        Assert.Empty((await designer.SendAsync(HttpMethod.Put, path, new { }, HttpStatusCode.OK))["poses"]!.AsArray());
    }

    [Fact]
    public async Task Joints_hardware_and_steps_are_added_changed_moved_and_removed()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("assembly");
        await designer.PostAsync($"/api/figures/{figure}/parts", new { name = "Arm" }, HttpStatusCode.Created);

        var joint = await designer.PostAsync($"/api/figures/{figure}/joints", new
        {
            kind = "pop-in-ball",
            name = "Shoulder",
            firstPart = "body",
            secondPart = "arm",
            innerDiameterMm = 6,
            mouthDiameterMm = 5.6,
            processes = new[] { "MEX-rigid" },
        }, HttpStatusCode.Created);
        Assert.Equal("pop-in-ball", (string?)joint["kind"]);
        using var ofOne = await designer.SendJsonAsync($"/api/figures/{figure}/joints", new { kind = "glued", name = "Odd", firstPart = "arm", secondPart = "arm" });
        await ofOne.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "joint-of-one");
        var sleeve = await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/joints/{joint["id"]}",
            new { kind = "plug-in-sleeve", name = "Shoulder", firstPart = "body", secondPart = "arm", processes = new[] { "VPP-rigid" } }, HttpStatusCode.OK);
        Assert.Equal("plug-in-sleeve", (string?)sleeve["kind"]);

        var rod = await designer.PostAsync($"/api/figures/{figure}/hardware",
            new { kind = "rod", name = "Metal rod", diameterMm = 1.5, cutLengthMm = 14.5, quantity = 2, parts = new[] { "arm" } }, HttpStatusCode.Created);
        Assert.Equal(14.5, (double)rod["cutLengthMm"]!);

        var glue = await designer.PostAsync($"/api/figures/{figure}/steps", new { title = "Glue", body = "A drop." }, HttpStatusCode.Created);
        var pin = await designer.PostAsync($"/api/figures/{figure}/steps",
            new { title = "Pin", body = "Push the rod in.", parts = new[] { "arm" }, hardware = new[] { (string?)rod["id"] }, position = 1 }, HttpStatusCode.Created);
        Assert.Equal(1, (int)pin["position"]!);
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/steps/{pin["id"]}",
            new { title = "Pin it", body = "Push the rod in.", parts = new[] { "body", "arm" }, position = 9 }, HttpStatusCode.OK);

        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(["Glue", "Pin it"], draft["steps"]!.AsArray().Select(s => (string?)s!["title"]));
        Assert.Equal(["body", "arm"], draft["steps"]![1]!["parts"]!.AsArray().Select(s => (string?)s));
        Assert.Empty(draft["steps"]![1]!["hardware"]!.AsArray());

        foreach (var path in new[] { $"steps/{glue["id"]}", $"hardware/{rod["id"]}", $"joints/{joint["id"]}" })
        {
            using var removed = await designer.DeleteAsync($"/api/figures/{figure}/{path}");
            await removed.ExpectAsync(HttpStatusCode.NoContent);
        }

        draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Single(draft["steps"]!.AsArray());
        Assert.Empty(draft["hardware"]!.AsArray());
        Assert.Empty(draft["joints"]!.AsArray());
    }

    [Fact]
    public async Task The_list_tells_what_stands_in_the_way()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("listed");
        var drafts = await designer.GetJsonAsync("/api/drafts?status=draft&size=100");
        var line = drafts["items"]!.AsArray().Single(i => (string?)i!["slug"] == figure)!;
        Assert.Equal("part-without-revision", (string?)line["obstacles"]![0]!["code"]);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(7, 8, 9)));
        drafts = await designer.GetJsonAsync("/api/drafts?size=100");
        line = drafts["items"]!.AsArray().Single(i => (string?)i!["slug"] == figure)!;
        Assert.Empty(line["obstacles"]!.AsArray());
        Assert.True((bool)line["hasChanges"]!);
    }

    [Fact]
    public async Task The_description_of_the_api_names_the_words_and_the_token()
    {
        using var visitor = Catalogue.Visitor();
        var openApi = await visitor.GetJsonAsync("/openapi/v1.json");
        Assert.Equal("bearer", (string?)openApi["components"]!["securitySchemes"]!["token"]!["scheme"]);
        var create = openApi["paths"]!["/api/figures"]!["post"]!;
        Assert.NotNull(create["security"]![0]!["token"]);
        Assert.Equal("The Tide Clerk", (string?)create["requestBody"]!["content"]!["application/json"]!["example"]!["title"]);
        Assert.Contains("pop-in-ball", openApi["components"]!["schemas"]!.ToJsonString(), StringComparison.Ordinal);
        Assert.NotNull(openApi["paths"]!["/api/figures/{figure}/parts/{part}/variants/{variant}/revisions"]!["post"]!["requestBody"]!["content"]!["multipart/form-data"]);
    }
}

public sealed class DraftWordsOnSqliteTests(SqliteCatalogue catalogue) : DraftWordsTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class DraftWordsOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : DraftWordsTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
