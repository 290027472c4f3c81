using System.Text.Json.Nodes;
using Catalogue.Web.Demo;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;

namespace Catalogue.Web.Tests.Demo;

/// <summary>The finished demo at the volume it promises: every word of a verdict, and each cell for the reason that was worked out by hand.</summary>
public sealed class DemoMatrixTests(DemoCatalogue catalogue) : IClassFixture<DemoCatalogue>
{
    private const string Volume = "63.5x114.3x152.4";

    [Fact]
    public async Task The_matrix_shows_every_kind_of_verdict()
    {
        using var visitor = catalogue.Visitor();
        var matrix = await visitor.GetJsonAsync("/api/matrix");
        Assert.Equal(Volume, (string?)matrix["volume"]);
        var words = matrix["rows"]!.AsArray().SelectMany(r => r!["cells"]!.AsArray()).Select(c => (string?)c!["verdict"]).Distinct().Order(StringComparer.Ordinal);
        Assert.Equal(["care", "suits", "unchecked", "unsuited"], words);
    }

    [Fact]
    public async Task Each_cell_is_decided_by_what_was_worked_out_by_hand()
    {
        using var visitor = catalogue.Visitor();
        var matrix = await visitor.GetJsonAsync("/api/matrix");
        var shown = matrix["rows"]!.AsArray().SelectMany(r => r!["cells"]!.AsArray().Select(c => (Figure: (string)r["figure"]!, Process: (string)c!["process"]!, Verdict: (string)c["verdict"]!))).ToList();
        Assert.Equal(shown.Select(c => (c.Figure, c.Process)).Order(), DemoCells.All.Select(c => (c.Figure, c.Process)).Order());
        var wrong = new List<string>();
        foreach (var cell in DemoCells.All)
        {
            var verdict = shown.Single(c => (c.Figure, c.Process) == (cell.Figure, cell.Process)).Verdict;
            var figure = await visitor.GetJsonAsync($"/api/figures/{cell.Figure}?process={cell.Process}&volume={Volume}");
            var deciding = Deciding(figure, verdict);
            if ((verdict, (string?)figure["verdict"]) != (cell.Verdict, cell.Verdict) || deciding != cell.Deciding)
                wrong.Add($"{cell.Figure} on {cell.Process}: {verdict} ({deciding}), by hand {cell.Verdict} ({cell.Deciding}), because {cell.Because}");
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    /// <summary>“arm: wall.thin; body: limb.fragile”: what makes the verdict, accessories apart.</summary>
    private static string Deciding(JsonNode figure, string verdict)
    {
        var severity = verdict switch
        {
            "unsuited" => "stop",
            "care" => "care",
            "unchecked" => "note",
            _ => "",
        };
        var reasons = figure["reasons"]!.AsArray().Where(r => (string?)r!["severity"] == severity && r["optional"]?.GetValue<bool>() != true).Select(r => $"{r!["part"]}: {r["code"]}");
        return string.Join("; ", reasons.Distinct().Order(StringComparer.Ordinal));
    }
}

/// <summary>A catalogue that is filled with the demo range, as the command <c>demo</c> fills it.</summary>
public sealed class DemoCatalogue : SqliteCatalogue
{
    /// <summary>Some seventy meshes are made and inspected: a minute or two, more on a busy machine.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(20);

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.ConfigureTestServices(services => services.AddHostedService<DemoPublisher>());
    }

    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        await Services.GetServices<IHostedService>().OfType<DemoPublisher>().Single().ExecuteTask!.WaitAsync(Patience);
        await Task.Delay(TimeSpan.FromSeconds(2)); // The index follows within a second.
    }
}
