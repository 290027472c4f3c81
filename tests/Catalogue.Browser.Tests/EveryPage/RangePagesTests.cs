using Xunit;

namespace Catalogue.Browser.Tests.EveryPage;

/// <summary>The shelf and the matrix.</summary>
public sealed class RangePagesTests(RunningCatalogue catalogue, Chromium chromium) : PageLook(catalogue, chromium)
{
    [Theory]
    [InlineData("range", "/")]
    [InlineData("range-printer", "/?" + Small)]
    [InlineData("range-volume-only", "/?volume=64x114x152")]
    [InlineData("range-round-inches", "/?process=MEX-rigid&round=180x280&unit=inch")]
    [InlineData("range-nothing", "/?q=anchor&verdict=care&" + Small)]
    [InlineData("range-narrowed", "/?q=lampligther&height=90-120&height=120-150&needs=rod&licence=CC-BY-4.0&verdict=suits&verdict=care&" + Small)]
    [InlineData("matrix", "/matrix")]
    [InlineData("matrix-large", "/matrix?volume=220x220x300")]
    public Task The_range_and_its_matrix(string name, string path) => LookAsync(name, path);
}
