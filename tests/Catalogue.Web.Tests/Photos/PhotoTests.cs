using System.Buffers.Binary;
using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using SkiaSharp;

namespace Catalogue.Web.Tests.Photos;

/// <summary>Photos of figures: kept upright and without what the camera wrote, shown once the figure is published, taken away for good.</summary>
public abstract class PhotoTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    private const string Place = "53.5511N-SECRET-PLACE";

    [Fact]
    public async Task A_photo_is_kept_upright_and_without_place_or_device()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("photographed", 10, 10, 10);
        var added = await AddAsync(designer, figure, Jpeg(400, 300, orientation: 6, SKColors.SteelBlue), "Built by Ada");
        Assert.Equal((300, 400), ((int)added["width"]!, (int)added["height"]!));
        using var visitor = Catalogue.CreateClient();
        var shown = await visitor.GetByteArrayAsync((string)added["url"]!);
        using var picture = SKBitmap.Decode(shown);
        Assert.Equal((300, 400), (picture.Width, picture.Height));

        // The red corner was at the top left of what the camera wrote; held a quarter turn clockwise it is at the top right.
        Assert.True(picture.GetPixel(290, 8) is { Red: > 200, Blue: < 90 }, picture.GetPixel(290, 8).ToString());
        Assert.True(picture.GetPixel(8, 8) is { Blue: > 140 }, picture.GetPixel(8, 8).ToString());
        Assert.DoesNotContain(Place, Encoding.Latin1.GetString(shown), StringComparison.Ordinal);
        Assert.DoesNotContain("Exif", Encoding.Latin1.GetString(shown), StringComparison.Ordinal);
        var html = WebUtility.HtmlDecode(await visitor.GetStringAsync($"/figures/{figure}"));
        Assert.Contains("alt=\"Built by Ada\"", html, StringComparison.Ordinal);
        var view = JsonNode.Parse(await visitor.GetStringAsync($"/api/figures/{figure}"))!["photos"]!.AsArray();
        Assert.Equal("Built by Ada", (string?)Assert.Single(view)!["words"]);
    }

    [Fact]
    public async Task A_large_photo_is_made_smaller_and_narrower_for_screens()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("large-photo", 10, 10, 10);
        var added = await AddAsync(designer, figure, Jpeg(4_800, 3_000, orientation: 1, SKColors.Olive), "Four thousand pixels");
        Assert.Equal((2_400, 1_500), ((int)added["width"]!, (int)added["height"]!));
        using var visitor = Catalogue.CreateClient();
        foreach (var size in new[] { 480, 960, 1_920 })
        {
            using var picture = SKBitmap.Decode(await visitor.GetByteArrayAsync(((string)added["url"]!).Replace("1920", $"{size}", StringComparison.Ordinal)));
            Assert.Equal((size, size * 5 / 8), (picture.Width, picture.Height));
        }
    }

    [Fact]
    public async Task What_is_no_photo_is_refused_and_nothing_is_kept()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("no-photo", 10, 10, 10);
        var whole = Jpeg(200, 200, 1, SKColors.Gray);
        await RefusedAsync(designer, figure, "not a picture"u8.ToArray(), "photo-unreadable");
        await RefusedAsync(designer, figure, whole[..(whole.Length / 2)], "photo-unreadable");
        await RefusedAsync(designer, figure, [.. "GIF89a"u8, 1, 0, 1, 0, 0, 0, 0, 0x3B], "photo-unreadable");
        await RefusedAsync(designer, figure, Vast(), "photo-too-large");
        await RefusedAsync(designer, figure, new byte[(24 * 1024 * 1024) + 1], "photo-too-large");
        await RefusedAsync(designer, figure, whole, "text-missing", words: " ");
        Assert.Empty((await PhotosAsync(designer, figure)).AsArray());
    }

    [Fact]
    public async Task The_same_photo_twice_and_a_thirteenth_are_refused()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("many-photos", 10, 10, 10);
        for (var i = 0; i < 12; i++) await AddAsync(designer, figure, Jpeg(60 + i, 50, 1, SKColors.Teal), $"Number {i}");
        await RefusedAsync(designer, figure, Jpeg(60, 50, 1, SKColors.Teal), "photo-there");
        await RefusedAsync(designer, figure, Jpeg(90, 50, 1, SKColors.Teal), "photos-full");
        Assert.Equal(12, (await PhotosAsync(designer, figure)).AsArray().Count);
    }

    [Fact]
    public async Task Of_a_draft_only_designers_see_photos()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("secret-photo");
        var added = await AddAsync(designer, figure, Jpeg(100, 100, 1, SKColors.Plum), "Not yet");
        using var visitor = Catalogue.CreateClient();
        using var hidden = await visitor.GetAsync((string)added["url"]!);
        Assert.Equal(HttpStatusCode.NotFound, hidden.StatusCode);
        using var seen = await designer.GetAsync((string)added["url"]!);
        Assert.Equal(HttpStatusCode.OK, seen.StatusCode);
        Assert.Contains("private", seen.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task It_is_told_put_first_and_taken_away()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("two-photos", 10, 10, 10);
        var one = await AddAsync(designer, figure, Jpeg(80, 60, 1, SKColors.Red), "One");
        var two = await AddAsync(designer, figure, Jpeg(81, 60, 1, SKColors.Green), "Two");
        await designer.SendAsync(HttpMethod.Put, $"/api/figures/{figure}/photos/{two["id"]}", new { words = "Second, now first", first = true }, HttpStatusCode.OK);
        Assert.Equal(["Second, now first", "One"], (await PhotosAsync(designer, figure)).AsArray().Select(p => (string?)p!["words"]));
        await designer.SendAsync(HttpMethod.Delete, $"/api/figures/{figure}/photos/{one["id"]}", null, HttpStatusCode.NoContent);
        using var visitor = Catalogue.CreateClient();
        using var gone = await visitor.GetAsync((string)one["url"]!);
        Assert.Equal(HttpStatusCode.NotFound, gone.StatusCode);
        Assert.Single((await PhotosAsync(designer, figure)).AsArray());
    }

    [Fact]
    public async Task Without_a_token_nobody_changes_photos()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("guarded-photo", 10, 10, 10);
        using var visitor = Catalogue.CreateClient();
        await SendAsync(visitor, figure, Jpeg(50, 50, 1, SKColors.Red), "Mine", HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task On_the_page_it_is_added_told_and_taken_away_by_hand()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync("photo-page", 10, 10, 10);
        using var browser = await Catalogue.SignedInAsync();
        await browser.GoAsync($"/edit-photos/{figure}");
        Assert.Contains("No photo yet", browser.Text, StringComparison.Ordinal);
        await browser.SubmitFileAsync($"/edit-photos/{figure}", "no picture"u8.ToArray(), "a.jpg", ("words", "Painted in brass"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains("Painted in brass", browser.Html, StringComparison.Ordinal);
        await browser.SubmitFileAsync($"/edit-photos/{figure}", Jpeg(80, 80, 1, SKColors.Gold), "a.jpg", ("words", "Painted in brass"));
        Assert.Contains("The photo is there.", browser.Text, StringComparison.Ordinal);
        var photo = (string)(await PhotosAsync(designer, figure))[0]!["id"]!;
        await browser.SubmitAsync($"handler=Describe&photo={photo}", ("words", "Painted in gold"));
        Assert.Equal("Painted in gold", (string?)(await PhotosAsync(designer, figure))[0]!["words"]);
        await browser.SubmitAsync($"handler=Remove&photo={photo}");
        Assert.Empty((await PhotosAsync(designer, figure)).AsArray());
        Assert.Equal(HttpStatusCode.BadRequest, await browser.ForgeFileAsync($"/edit-photos/{figure}", Jpeg(81, 80, 1, SKColors.Gold)));
        Assert.Empty((await PhotosAsync(designer, figure)).AsArray());
    }

    private static async Task<JsonNode> PhotosAsync(HttpClient designer, string figure) => JsonNode.Parse(await designer.GetStringAsync($"/api/drafts/{figure}"))!["photos"]!;

    private static async Task<JsonNode> AddAsync(HttpClient designer, string figure, byte[] photo, string words) => (await SendAsync(designer, figure, photo, words, HttpStatusCode.Created))!;

    private static async Task RefusedAsync(HttpClient designer, string figure, byte[] photo, string code, string words = "A photo") =>
        Assert.EndsWith(":" + code, (string?)(await SendAsync(designer, figure, photo, words, HttpStatusCode.UnprocessableEntity))!["type"], StringComparison.Ordinal);

    private static async Task<JsonNode?> SendAsync(HttpClient client, string figure, byte[] photo, string words, HttpStatusCode expected)
    {
        using var content = new ByteArrayContent(photo);
        content.Headers.ContentType = new MediaTypeHeaderValue("image/jpeg");
        using var response = await client.PostAsync($"/api/figures/{figure}/photos?words={Uri.EscapeDataString(words)}", content);
        var answer = await response.Content.ReadAsStringAsync();
        Assert.True(expected == response.StatusCode, $"{response.StatusCode}: {answer}");
        return answer.Length == 0 ? null : JsonNode.Parse(answer);
    }

    /// <summary>A JPEG with a red corner at the top left, and what a camera writes: how it was held, and where.</summary>
    private static byte[] Jpeg(int width, int height, ushort orientation, SKColor ground)
    {
        using var bitmap = new SKBitmap(width, height);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(ground);
            using var red = new SKPaint();
            red.Color = SKColors.Red;
            canvas.DrawRect(0, 0, width / 5f, height / 5f, red);
        }

        using var image = SKImage.FromBitmap(bitmap);
        var jpeg = image.Encode(SKEncodedImageFormat.Jpeg, 95).ToArray();
        byte[] exif = [.. "Exif\0\0MM\0*"u8, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, (byte)orientation, 0, 0, 0, 0, 0, 0, .. Encoding.ASCII.GetBytes(Place)];
        var length = new byte[2];
        BinaryPrimitives.WriteUInt16BigEndian(length, (ushort)(exif.Length + 2));
        return [0xFF, 0xD8, 0xFF, 0xE1, .. length, .. exif, .. jpeg[2..]];
    }

    /// <summary>A PNG that says it is 50 000 pixels wide and high, and holds none of them.</summary>
    private static byte[] Vast()
    {
        byte[] header = [.. "IHDR"u8, 0, 0, 0xC3, 0x50, 0, 0, 0xC3, 0x50, 8, 6, 0, 0, 0];
        var crc = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(crc, Crc(header));
        return [0x89, .. "PNG\r\n\u001a\n"u8, 0, 0, 0, 13, .. header, .. crc, 0, 0, 0, 0, .. "IDAT"u8, 0x35, 0xAF, 0x06, 0x1E];
    }

    /// <summary>CRC-32 as PNG wants it (ISO/IEC 15948, annex D).</summary>
    private static uint Crc(byte[] bytes)
    {
        var crc = 0xFFFFFFFFu;
        foreach (var value in bytes)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++) crc = (crc & 1) != 0 ? 0xEDB88320 ^ (crc >> 1) : crc >> 1;
        }

        return ~crc;
    }
}

public sealed class PhotosOnSqliteTests(SqliteCatalogue catalogue) : PhotoTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PhotosOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : PhotoTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
