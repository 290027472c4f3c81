using System.Net;
using System.Net.Sockets;
using System.Text;

namespace Catalogue.Browser.Tests;

/// <summary>A site of one page on a port of its own, as strange to ours as any.</summary>
internal sealed class OtherSite : IDisposable
{
    private readonly HttpListener _listener = new();

    public OtherSite(string html)
    {
        using (var probe = new TcpListener(IPAddress.Loopback, 0))
        {
            probe.Start();
            Address = $"http://127.0.0.1:{((IPEndPoint)probe.LocalEndpoint).Port}/";
        }

        _listener.Prefixes.Add(Address);
        _listener.Start();
        _ = ServeAsync(Encoding.UTF8.GetBytes(html));
    }

    public string Address { get; }

    public void Dispose() => _listener.Close();

    private async Task ServeAsync(byte[] html)
    {
        while (_listener.IsListening)
        {
            HttpListenerContext asked;
            try
            {
                asked = await _listener.GetContextAsync();
            }
            catch (Exception closed) when (closed is HttpListenerException or ObjectDisposedException)
            {
                return;
            }

            asked.Response.ContentType = "text/html; charset=utf-8";
            await asked.Response.OutputStream.WriteAsync(html);
            asked.Response.Close();
        }
    }
}
