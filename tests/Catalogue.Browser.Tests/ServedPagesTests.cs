using System.Text.Json;
using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>What is said of every page as it is served, before a browser mends anything.</summary>
public sealed class ServedPagesTests(RunningCatalogue catalogue, Chromium chromium)
{
    // HTML Living Standard and WAI-ARIA, as the npm package html-validate knows them; its settings lie beside it with their reasons.
    [Fact]
    public async Task Every_page_is_valid_html()
    {
        var folder = Workplace.Out("html");
        foreach (var earlier in Directory.EnumerateFiles(folder)) File.Delete(earlier);
        foreach (var page in await AllAsync()) await File.WriteAllTextAsync(Path.Combine(folder, page.Name + ".html"), page.Html);
        var report = Path.Combine(folder, "report.json");
        await PageCheckers.RunAsync("node_modules/html-validate/bin/html-validate.mjs", "--config", "html-validate.config.mjs", "--formatter", "json=" + report, folder + "/*.html");
        var complaints = JsonSerializer.Deserialize<List<Checked>>(await File.ReadAllTextAsync(report), JsonSerializerOptions.Web)!
            .SelectMany(file => file.Messages.Select(m => $"{Path.GetFileName(file.FilePath)}:{m.Line}: {m.RuleId}: {m.Message}"));
        Assert.Empty(complaints);
    }

    // W3C Content Security Policy Level 3, section 8: what makes a policy useless against injected markup.
    [Fact]
    public async Task Every_page_has_a_policy_that_lets_no_inline_script_or_style_run()
    {
        string[] holes = ["unsafe-inline", "unsafe-eval", "unsafe-hashes", " *", "http:", "https:"];
        foreach (var (name, policy, _) in await AllAsync())
            Assert.True(policy.Contains("default-src 'self'", StringComparison.Ordinal) && !holes.Any(hole => policy.Contains(hole, StringComparison.Ordinal)), $"{name}: “{policy}”");
    }

    private static readonly SemaphoreSlim Turn = new(1);
    private static List<Served>? _all;

    /// <summary>Every page, asked for once by a visitor or by the host.</summary>
    private async Task<List<Served>> AllAsync()
    {
        await Turn.WaitAsync();
        try
        {
            return _all ??= await AskAsync();
        }
        finally
        {
            Turn.Release();
        }
    }

    private async Task<List<Served>> AskAsync()
    {
        await using var visitor = await chromium.ReaderAsync(1280);
        await using var host = await chromium.ReaderAsync(1280);
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        await workshop.SignInAsync(host);
        var pages = new List<Served>();
        foreach (var (name, path) in PageList.Public) pages.Add(await ServedAsync(visitor, name, path));
        foreach (var (name, path) in PageList.Designers) pages.Add(await ServedAsync(host, "designer-" + name, path));
        return pages;
    }

    private async Task<Served> ServedAsync(IBrowserContext reader, string name, string path)
    {
        var answer = await reader.APIRequest.GetAsync(catalogue.Address + path, new() { Headers = [new("Accept", "text/html")] });
        return new(name, answer.Headers.GetValueOrDefault("content-security-policy", ""), await answer.TextAsync());
    }

    private sealed record Served(string Name, string Policy, string Html);

    private sealed record Checked(string FilePath, IReadOnlyList<Complaint> Messages);

    private sealed record Complaint(string RuleId, string Message, int Line);
}
