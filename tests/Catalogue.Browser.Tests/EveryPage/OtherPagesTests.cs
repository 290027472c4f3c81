using Xunit;

namespace Catalogue.Browser.Tests.EveryPage;

/// <summary>What belongs to the visitor and to the whole site, and what there is instead of a page.</summary>
public sealed class OtherPagesTests(RunningCatalogue catalogue, Chromium chromium) : PageLook(catalogue, chromium)
{
    [Theory]
    [InlineData("printer", "/printer")]
    [InlineData("printer-set", "/printer?unit=inch&" + Small)]
    [InlineData("printer-pace", "/printer?process=VPP-rigid&volume=64x114x152&layer=0.03&cycle=6")]
    [InlineData("printer-wrong", "/printer?save=true&plate=box&width=abc&depth=114&height=&margin=2")]
    [InlineData("printer-link-wrong", "/printer?volume=huge")]
    [InlineData("first-visit", "/first-visit")]
    [InlineData("first-visit-printer", "/first-visit?" + Small)]
    [InlineData("words", "/words")]
    [InlineData("cautions", "/cautions")]
    [InlineData("rules", "/rules")]
    [InlineData("offline", "/offline")]
    [InlineData("mine", "/mine")]
    public Task My_printer_and_the_cautions(string name, string path) => LookAsync(name, path);

    [Theory]
    [InlineData("error-nothing-here", "/nothing-here")]
    [InlineData("error-figure-missing", "/figures/nobody")]
    [InlineData("error-process-unknown", "/?process=XYZ-odd")]
    public Task What_cannot_be_shown(string name, string path) => LookAsync(name, path);
}
