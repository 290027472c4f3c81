using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;

namespace Catalogue.Web.Tests.Downloads;

/// <summary>Files of published revisions.</summary>
public sealed class DownloadTests(SqliteCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<SqliteCatalogue>
{
    [Fact]
    public async Task A_file_arrives_with_its_digest_a_telling_name_and_for_good()
    {
        using var visitor = Catalogue.Stranger();
        var (path, bytes) = await PublishedFileAsync("carter");
        using var response = await visitor.GetAsync(path);
        Assert.Equal(bytes, await response.Content.ReadAsByteArrayAsync());
        Assert.Equal("model/stl", response.Content.Headers.ContentType!.MediaType);

        // RFC 9530: Repr-Digest: sha-256=:base64:
        Assert.Equal($"sha-256=:{Convert.ToBase64String(SHA256.HashData(bytes))}:", response.Headers.GetValues("Repr-Digest").Single());
        Assert.Equal($"\"{Convert.ToHexStringLower(SHA256.HashData(bytes))}\"", response.Headers.ETag!.Tag);
        Assert.Contains("immutable", response.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        Assert.Equal("attachment", response.Content.Headers.ContentDisposition!.DispositionType);
        Assert.EndsWith("-body-solid-r1.stl", response.Content.Headers.ContentDisposition.FileName, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_broken_download_goes_on_where_it_stopped()
    {
        using var visitor = Catalogue.Stranger();
        var (path, bytes) = await PublishedFileAsync("porter");
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        request.Headers.Range = new RangeHeaderValue(100, null);
        using var rest = await visitor.SendAsync(request);
        Assert.Equal(HttpStatusCode.PartialContent, rest.StatusCode);
        Assert.Equal(bytes[100..], await rest.Content.ReadAsByteArrayAsync());
        using var beyond = new HttpRequestMessage(HttpMethod.Get, path);
        beyond.Headers.Range = new RangeHeaderValue(bytes.Length, null);
        using var refused = await visitor.SendAsync(beyond);
        Assert.Equal(HttpStatusCode.RequestedRangeNotSatisfiable, refused.StatusCode);
    }

    [Fact]
    public async Task Who_has_the_file_is_not_sent_it_again_and_who_asks_for_its_head_gets_no_body()
    {
        using var visitor = Catalogue.Stranger();
        var (path, bytes) = await PublishedFileAsync("sweeper");
        using var known = new HttpRequestMessage(HttpMethod.Get, path);
        known.Headers.IfNoneMatch.Add(new EntityTagHeaderValue($"\"{Convert.ToHexStringLower(SHA256.HashData(bytes))}\""));
        using var same = await visitor.SendAsync(known);
        Assert.Equal(HttpStatusCode.NotModified, same.StatusCode);
        using var head = await visitor.SendAsync(new HttpRequestMessage(HttpMethod.Head, path));
        Assert.Equal((HttpStatusCode.OK, (long?)bytes.Length), (head.StatusCode, head.Content.Headers.ContentLength));
        Assert.Empty(await head.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task Another_name_leads_to_the_right_one_and_another_revision_to_nothing()
    {
        using var visitor = Catalogue.Stranger();
        var (path, _) = await PublishedFileAsync("baker");
        var folder = path[..path.LastIndexOf('/')];
        using var renamed = await visitor.GetAsync(folder + "/whatever.exe");
        Assert.Equal((HttpStatusCode.MovedPermanently, path), (renamed.StatusCode, renamed.Headers.Location!.OriginalString));
        using var missing = await visitor.GetAsync(folder[..folder.LastIndexOf('/')] + "/2/part.stl");
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
    }

    [Fact]
    public async Task An_upload_that_is_not_published_cannot_be_downloaded()
    {
        using var designer = await Catalogue.DesignerAsync();
        using var visitor = Catalogue.Stranger();
        var figure = await designer.PublishBoxAsync("miller", 10, 10, 10);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 12)));
        using var early = await visitor.GetAsync($"/figures/{figure}/parts/body/solid/2/{figure}-body-solid-r2.stl");
        Assert.Equal(HttpStatusCode.NotFound, early.StatusCode);
    }

    private async Task<(string Path, byte[] Bytes)> PublishedFileAsync(string name)
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.PublishBoxAsync(name, 12, 10, 10);
        return ($"/figures/{figure}/parts/body/solid/1/{figure}-body-solid-r1.stl", Api.BoxStl(12, 10, 10));
    }
}
