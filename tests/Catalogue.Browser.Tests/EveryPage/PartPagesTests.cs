using Xunit;

namespace Catalogue.Browser.Tests.EveryPage;

/// <summary>A part, how to lay it, what was reported of it.</summary>
public sealed class PartPagesTests(RunningCatalogue catalogue, Chromium chromium) : PageLook(catalogue, chromium)
{
    [Theory]
    [InlineData("part", "/figures/lamplighter/parts/arm")]
    [InlineData("part-printer", "/figures/lamplighter/parts/arm?" + Small)]
    [InlineData("part-turned", "/figures/ferryman/parts/oar?unit=inch&" + Small)]
    [InlineData("part-too-large", "/figures/crane-keeper/parts/jib?" + Small)]
    [InlineData("part-two-variants", "/figures/lamplighter/parts/body?" + Small)]
    [InlineData("part-orientations", "/figures/lamplighter/parts/body/orientations?" + Small)]
    [InlineData("part-orientations-no-printer", "/figures/lamplighter/parts/body/orientations")]
    [InlineData("report", "/figures/lamplighter/parts/arm/report?" + Small)]
    [InlineData("report-thanks", "/figures/lamplighter/parts/arm/report?thanks=true")]
    public Task A_part_and_its_reports(string name, string path) => LookAsync(name, path);
}
