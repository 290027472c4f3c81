using System.Net;
using Catalogue.Web.Storage;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>A catalogue that takes one mebibyte, on a disk that can be declared full.</summary>
public sealed class CrampedCatalogue : SqliteCatalogue
{
    public bool DiskIsFull { get; set; }

    protected override IEnumerable<(string Key, string Value)> Settings() => [("Catalogue:MaxUploadMiB", "1")];

    protected override void Replace(IServiceCollection services) => services.Replace(ServiceDescriptor.Singleton<IBlobStore>(provider =>
        new FillingBlobStore(new FolderBlobStore(provider.GetRequiredService<IOptions<CatalogueOptions>>().Value.BlobFolder), () => DiskIsFull)));

    /// <summary>Fails as a full disk does: in the middle of a file, with the operating system's code.</summary>
    private sealed class FillingBlobStore(IBlobStore inner, Func<bool> isFull) : IBlobStore
    {
        private const int NoSpaceLeftOnDevice = 28; // ENOSPC, errno.h

        public Task<StoredBlob> WriteAsync(Stream content, long maxBytes, CancellationToken cancellation) =>
            inner.WriteAsync(isFull() ? new Filling(content) : content, maxBytes, cancellation);

        public Task<Stream?> OpenAsync(string sha256, CancellationToken cancellation) => inner.OpenAsync(sha256, cancellation);

        public Task<bool> ExistsAsync(string sha256, CancellationToken cancellation) => inner.ExistsAsync(sha256, cancellation);

        public IAsyncEnumerable<string> ListAsync(CancellationToken cancellation) => inner.ListAsync(cancellation);

        public Task DeleteAsync(string sha256, CancellationToken cancellation) => inner.DeleteAsync(sha256, cancellation);

        private sealed class Filling(Stream content) : MemoryStream
        {
            private int _read;

            public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default)
            {
                if (_read > 0) throw new IOException("No space left on device", NoSpaceLeftOnDevice);
                return _read = await content.ReadAsync(buffer, cancellationToken);
            }
        }
    }
}

/// <summary>Too much at once, and a full disk.</summary>
public sealed class CrampedTests(CrampedCatalogue catalogue) : IClassFixture<CrampedCatalogue>
{
    [Fact]
    public async Task A_file_over_the_cap_is_refused_with_the_cap_and_nothing_is_kept()
    {
        using var designer = await catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("large");

        using var form = Api.Form(new byte[(1024 * 1024) + 1]);
        using var response = await designer.PostAsync(Api.Revisions(figure), form);
        var detail = await response.ExpectProblemAsync(HttpStatusCode.RequestEntityTooLarge, "file-too-large");
        Assert.Contains("1 MiB", detail, StringComparison.Ordinal);
        await ExpectNothingAsync(designer, figure);
    }

    [Fact]
    public async Task A_body_far_over_the_cap_is_cut_off_before_it_is_read()
    {
        using var designer = await catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("huge");
        using var content = new ByteArrayContent(new byte[8 * 1024 * 1024]);
        using var request = new HttpRequestMessage(HttpMethod.Post, Api.Revisions(figure)) { Content = content };
        request.Headers.ExpectContinue = true;
        using var response = await designer.SendAsync(request);
        await response.ExpectProblemAsync(HttpStatusCode.RequestEntityTooLarge, "request-too-large");
        await ExpectNothingAsync(designer, figure);
    }

    [Fact]
    public async Task A_body_that_does_not_say_how_long_it_is_is_counted()
    {
        using var designer = await catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("endless");
        using var content = new StreamContent(new MemoryStream(new byte[1200 * 1024]));
        using var request = new HttpRequestMessage(HttpMethod.Post, Api.Revisions(figure)) { Content = content };
        request.Headers.TransferEncodingChunked = true;
        using var response = await designer.SendAsync(request);
        await response.ExpectProblemAsync(HttpStatusCode.RequestEntityTooLarge, "file-too-large");
        await ExpectNothingAsync(designer, figure);
    }

    [Fact]
    public async Task A_full_disk_is_told_and_the_last_good_revision_stays()
    {
        using var designer = await catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("full");
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 10)));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        var stored = Directory.GetFiles(catalogue.BlobFolder, "*", SearchOption.AllDirectories).Length;

        catalogue.DiskIsFull = true;
        using (var refused = await designer.TryUploadAsync(figure, Api.BoxStl(10, 10, 11)))
        {
            var detail = await refused.ExpectProblemAsync(HttpStatusCode.InsufficientStorage, "disk-full");
            Assert.Contains("Nothing was kept", detail, StringComparison.Ordinal);
        }

        catalogue.DiskIsFull = false;
        Assert.Equal(stored, Directory.GetFiles(catalogue.BlobFolder, "*", SearchOption.AllDirectories).Length);
        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal(("published", 1), ((string?)draft["status"], (int)draft["edition"]!));
        Assert.Equal(2, (int)(await designer.UploadAsync(figure, Api.BoxStl(10, 10, 11)))["number"]!);
    }

    private async Task ExpectNothingAsync(HttpClient designer, string figure)
    {
        var draft = await designer.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Empty(draft["parts"]![0]!["variants"]![0]!["revisions"]!.AsArray());
        Assert.Empty(Directory.GetFiles(Path.Combine(catalogue.BlobFolder, "incoming")));
    }
}
