using Xunit;

namespace Catalogue.Browser.Tests.EveryPage;

/// <summary>A figure as it is drawn and at another size.</summary>
public sealed class FigurePagesTests(RunningCatalogue catalogue, Chromium chromium) : PageLook(catalogue, chromium)
{
    [Theory]
    [InlineData("figure", "/figures/lamplighter")]
    [InlineData("figure-printer", "/figures/lamplighter?" + Small)]
    [InlineData("figure-filament", "/figures/lamplighter?process=MEX-rigid&volume=220x220x240&unit=inch")]
    [InlineData("figure-too-large", "/figures/crane-keeper?" + Small)]
    [InlineData("figure-put-together", "/figures/signal-keeper?" + Small)]
    [InlineData("figure-bare", "/figures/" + LongName + "?" + Small)]
    public Task A_figure(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("scale", "/figures/lamplighter/scale")]
    [InlineData("scale-smaller", "/figures/lamplighter/scale?percent=80&" + Small)]
    [InlineData("scale-larger", "/figures/lamplighter/scale?percent=170&unit=inch&process=MEX-rigid&volume=220x220x240")]
    [InlineData("scale-as-drawn", "/figures/crane-keeper/scale?" + Small)]
    [InlineData("scale-wrong", "/figures/lamplighter/scale?percent=tiny&" + Small)]
    public Task A_figure_at_another_size(string name, string path) => LookAsync(name, path);
}
