using System.Diagnostics;
using System.Net;
using System.Net.Sockets;

namespace Catalogue.Web.Tests.Crashes;

/// <summary>The program as a process of its own, so that it can really be killed: SIGKILL, no farewell.</summary>
internal sealed class KillableProgram : IAsyncDisposable
{
    private readonly string[] _settings;
    private Process? _process;

    public KillableProgram(params string[] settings)
    {
        _settings = settings;
        using var probe = new TcpListener(IPAddress.Loopback, 0);
        probe.Start();
        Address = new($"http://127.0.0.1:{((IPEndPoint)probe.LocalEndpoint).Port}");
    }

    public Uri Address { get; }

    public async Task StartAsync()
    {
        var start = new ProcessStartInfo(Environment.ProcessPath is { } dotnet && Path.GetFileNameWithoutExtension(dotnet) == "dotnet" ? dotnet : "dotnet")
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        string[] words = [Path.Combine(AppContext.BaseDirectory, "Catalogue.Web.dll"), "--urls", Address.ToString(), "--Logging:LogLevel:Default=Warning", .. _settings];
        foreach (var word in words) start.ArgumentList.Add(word);
        _process = Process.Start(start)!;
        _process.OutputDataReceived += (_, _) => { };
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
        using var client = new HttpClient { BaseAddress = Address };
        for (var waited = Stopwatch.StartNew(); ; await Task.Delay(50))
        {
            try
            {
                using var answer = await client.GetAsync(new Uri("/healthz", UriKind.Relative));
                if (answer.IsSuccessStatusCode) return;
            }
            catch (HttpRequestException)
            {
                Assert.False(_process.HasExited, "The program ended instead of starting again.");
            }

            Assert.True(waited.Elapsed < TimeSpan.FromSeconds(60), "The program did not start within a minute.");
        }
    }

    public async Task KillAsync()
    {
        if (_process is null) return;
        _process.Kill();
        await _process.WaitForExitAsync();
        _process.Dispose();
        _process = null;
    }

    public async ValueTask DisposeAsync() => await KillAsync();
}
