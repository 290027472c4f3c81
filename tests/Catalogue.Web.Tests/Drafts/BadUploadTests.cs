using System.Buffers.Binary;
using System.Net;
using System.Text;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>Uploads that are not what they should be: a clear error, and the last good state stays.</summary>
public abstract class BadUploadTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    public static TheoryData<string, string> NotMeshes => new()
    {
        { "truncated", "truncated" },
        { "wrong count", "truncated" },
        { "words", "not-a-mesh" },
        { "zeros", "not-a-mesh" },
        { "not a number", "not-finite" },
        { "infinite", "not-finite" },
    };

    [Theory, MemberData(nameof(NotMeshes))]
    public async Task A_file_that_is_no_mesh_is_rejected_with_its_reason_and_blocks_publishing(string kind, string code)
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await PublishedAsync(designer);

        var revision = await designer.UploadAsync(figure, Bad(kind));
        var inspection = await designer.InspectedAsync(revision);
        Assert.Equal("rejected", (string?)inspection["state"]);
        Assert.Equal(code, (string?)inspection["errorCode"]);
        Assert.True(((string)inspection["error"]!).Length > 20);

        using var refused = await designer.PostAsync($"/api/figures/{figure}/publish", null);
        var detail = await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "mesh-rejected");
        Assert.Contains("readers still see what they saw before", detail, StringComparison.Ordinal);
        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(("published", 1), ((string?)draft["status"], (int)draft["edition"]!));
        var verdicts = draft["parts"]![0]!["variants"]![0]!["revisions"]![0]!["verdicts"]!.AsArray();
        Assert.All(verdicts, v => Assert.Equal("unsuited", (string?)v!["verdict"]));
    }

    [Fact]
    public async Task A_binary_file_whose_header_says_solid_is_read_by_its_size()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("solid");
        var stl = Api.BoxStl(10, 20, 30);
        Encoding.ASCII.GetBytes("solid named like a text file").CopyTo(stl, 0);
        var revision = await designer.UploadAsync(figure, stl);
        var inspection = await designer.InspectedAsync(revision);
        Assert.Equal(6_000, (double)inspection["mesh"]!["volumeMm3"]!, 3);
    }

    [Fact]
    public async Task An_empty_file_is_refused_at_once()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("empty");
        using var inForm = await designer.TryUploadAsync(figure, []);
        await inForm.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "file-empty");
        using var noBody = await designer.PostAsync(Api.Revisions(figure), null);
        await noBody.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "file-missing");
        await ExpectNothingKeptAsync(designer, figure);
    }

    [Fact]
    public async Task A_bare_body_is_taken_with_its_words_in_the_address()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("bare");
        using var content = new ByteArrayContent(Api.BoxStl(1, 1, 2));
        using var response = await designer.PostAsync(Api.Revisions(figure) + "?unit=inch&note=By+hand&file=arm.stl", content);
        var revision = await response.ExpectAsync(HttpStatusCode.Accepted);
        Assert.Equal(("inch", "By hand", "arm.stl"), ((string?)revision["unit"], (string?)revision["note"], (string?)revision["fileName"]));
        Assert.EndsWith($"/api/inspections/{revision["inspection"]!["id"]}", response.Headers.Location!.ToString(), StringComparison.Ordinal);
        // 1×1×2 inches at 25.4 mm (international inch, exact since 1959).
        Assert.Equal(2 * Math.Pow(25.4, 3), (double)(await designer.InspectedAsync(revision))["mesh"]!["volumeMm3"]!, 1);
    }

    [Theory]
    [InlineData("../../../etc/passwd.stl", "passwd.stl")]
    [InlineData("C:\\Users\\me\\left arm.stl", "left arm.stl")]
    [InlineData("..", "part.stl")]
    [InlineData("a\tb:c?.stl", "abc.stl")]
    public async Task A_file_name_never_becomes_a_path(string sent, string kept)
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("paths");
        using var content = new ByteArrayContent(Api.BoxStl(10, 10, 10));
        using var response = await designer.PostAsync(Api.Revisions(figure) + "?file=" + Uri.EscapeDataString(sent), content);
        Assert.Equal(kept, (string?)(await response.ExpectAsync(HttpStatusCode.Accepted))["fileName"]);
    }

    [Fact]
    public async Task A_form_that_is_not_one_file_is_refused_and_nothing_is_kept()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("forms");

        using var noFile = new MultipartFormDataContent { { new StringContent("mm"), "unit" } };
        using var missing = await designer.PostAsync(Api.Revisions(figure), noFile);
        await missing.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "file-missing");

        using var two = Api.Form(Api.BoxStl(1, 2, 3));
        two.Add(new ByteArrayContent(Api.BoxStl(1, 2, 3)), "second", "second.stl");
        using var both = await designer.PostAsync(Api.Revisions(figure), two);
        await both.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "too-many-files");

        using var badUnit = await designer.TryUploadAsync(figure, Api.BoxStl(1, 2, 3), ("unit", "furlong"));
        await badUnit.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "unit-invalid");

        using var longNote = await designer.TryUploadAsync(figure, Api.BoxStl(1, 2, 3), ("note", new string('n', 2_001)));
        await longNote.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, "text-too-long");
        await ExpectNothingKeptAsync(designer, figure);
    }

    [Theory]
    [InlineData("multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=file; filename=a.stl\r\n\r\nsolid a")]
    [InlineData("multipart/form-data; boundary=b", "--b\r\nContent-Disp")]
    [InlineData("multipart/form-data", "--b\r\n")]
    [InlineData("multipart/form-data; boundary=b", "--b\r\nContent-Type: text/plain\r\n\r\nx\r\n--b--\r\n")]
    public async Task A_form_that_breaks_off_is_told_apart_and_leaves_nothing(string type, string body)
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("broken");
        using var content = new ByteArrayContent(Encoding.ASCII.GetBytes(body));
        content.Headers.TryAddWithoutValidation("Content-Type", type);
        using var response = await designer.PostAsync(Api.Revisions(figure), content);
        await response.ExpectProblemAsync(HttpStatusCode.BadRequest, "request-malformed");
        await ExpectNothingKeptAsync(designer, figure);
        Assert.Empty(Directory.GetFiles(Path.Combine(Catalogue.BlobFolder, "incoming")));
    }

    [Fact]
    public async Task An_upload_to_nowhere_is_refused()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("nowhere");
        foreach (var path in new[] { Api.Revisions("no-such-figure"), Api.Revisions(figure, "no-such-part"), Api.Revisions(figure, "body", "no-such-variant") })
        {
            using var form = Api.Form(Api.BoxStl(1, 2, 3));
            using var response = await designer.PostAsync(path, form);
            await response.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        }
    }

    [Fact]
    public async Task Without_a_designers_token_nothing_is_taken()
    {
        using var visitor = Catalogue.Visitor();
        using var form = Api.Form(Api.BoxStl(1, 2, 3));
        using var anonymous = await visitor.PostAsync(Api.Revisions("any"), form);
        await anonymous.ExpectProblemAsync(HttpStatusCode.Unauthorized, "token-missing");
        visitor.DefaultRequestHeaders.Authorization = new("Bearer", "figures_" + new string('0', 64));
        using var unknown = await visitor.PostAsync("/api/figures", null);
        await unknown.ExpectProblemAsync(HttpStatusCode.Unauthorized, "token-missing");
    }

    private static async Task ExpectNothingKeptAsync(HttpClient designer, string figure)
    {
        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Empty(draft["parts"]![0]!["variants"]![0]!["revisions"]!.AsArray());
    }

    private static async Task<string> PublishedAsync(HttpClient designer)
    {
        var figure = await designer.NewFigureAsync("good");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        return figure;
    }

    private static byte[] Bad(string kind)
    {
        var good = Api.BoxStl(12, 13, 14);
        switch (kind)
        {
            case "truncated":
                return good[..^77];
            case "wrong count":
                BinaryPrimitives.WriteUInt32LittleEndian(good.AsSpan(80), 4_000_000_000);
                return good;
            case "words":
                return Encoding.UTF8.GetBytes("Dear catalogue, this is a letter and not a mesh. " + new string('.', 200));
            case "zeros":
                return new byte[70];
            case "not a number":
                BinaryPrimitives.WriteSingleLittleEndian(good.AsSpan(84 + 12), float.NaN);
                return good;
            default:
                BinaryPrimitives.WriteSingleLittleEndian(good.AsSpan(84 + 12), float.PositiveInfinity);
                return good;
        }
    }
}

public sealed class BadUploadOnSqliteTests(SqliteCatalogue catalogue) : BadUploadTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class BadUploadOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : BadUploadTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
