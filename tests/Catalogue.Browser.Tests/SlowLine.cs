using System.Net;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace Catalogue.Browser.Tests;

/// <summary>The catalogue as a reader far away sees it: pages come in pieces after their sheets are there, scripts and pictures late and out of order, the same way every time.</summary>
internal sealed class SlowLine : IAsyncDisposable
{
    private const int PieceBytes = 2500;
    private const int LatestMs = 700;
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(80); // Long enough for a browser without a graphics card to paint.

    private readonly HttpClient _client = new(new SocketsHttpHandler { AllowAutoRedirect = false, AutomaticDecompression = DecompressionMethods.None, UseCookies = false });
    private readonly WebApplication _line;
    private readonly string _from;
    private int _sheets;

    private SlowLine(string from)
    {
        _from = from;
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        builder.Logging.ClearProviders();
        _line = builder.Build();
        _line.Run(PassAsync);
    }

    public string Address => _line.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

    public static async Task<SlowLine> ToAsync(RunningCatalogue catalogue)
    {
        var line = new SlowLine(catalogue.Address);
        await line._line.StartAsync();
        return line;
    }

    public async ValueTask DisposeAsync()
    {
        await _line.DisposeAsync();
        _client.Dispose();
    }

    private async Task PassAsync(HttpContext http)
    {
        var asked = http.Request.Path + http.Request.QueryString;
        using var answer = await _client.GetAsync(new Uri(_from + asked), http.RequestAborted);
        var bytes = await answer.Content.ReadAsByteArrayAsync(http.RequestAborted);
        http.Response.StatusCode = (int)answer.StatusCode;
        http.Response.ContentType = answer.Content.Headers.ContentType?.ToString();
        var type = answer.Content.Headers.ContentType?.MediaType;
        if (type == "text/html")
        {
            await InPiecesAsync(bytes, http.Response.Body, http.RequestAborted);
            return;
        }

        if (type != "text/css") await Task.Delay(LateBy(asked), http.RequestAborted);
        await http.Response.Body.WriteAsync(bytes, http.RequestAborted);
        if (type == "text/css") Interlocked.Increment(ref _sheets);
    }

    /// <summary>The head first; the rest once its sheets are there, so that the browser paints what it has.</summary>
    private async Task InPiecesAsync(ReadOnlyMemory<byte> page, Stream body, CancellationToken stop)
    {
        var head = page.Span.IndexOf("</head>"u8);
        var sheets = _sheets + Encoding.UTF8.GetString(page.Span[..head]).Split("rel=\"stylesheet\"").Length - 1;
        await body.WriteAsync(page[..head], stop);
        await body.FlushAsync(stop);
        for (var i = 0; i < 200 && Volatile.Read(ref _sheets) < sheets; i++) await Task.Delay(25, stop);
        for (var from = head; from < page.Length; from += PieceBytes)
        {
            await body.WriteAsync(page.Slice(from, Math.Min(PieceBytes, page.Length - from)), stop);
            await body.FlushAsync(stop);
            await Task.Delay(Pause, stop);
        }
    }

    private static int LateBy(string path) => (int)(path.Aggregate(2166136261u, (hash, letter) => (hash ^ letter) * 16777619u) % LatestMs);
}
