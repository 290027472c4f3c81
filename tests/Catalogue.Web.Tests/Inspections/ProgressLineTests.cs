using Catalogue.Web.Commands;

namespace Catalogue.Web.Tests.Inspections;

public sealed class ProgressLineTests
{
    [Fact]
    public void The_line_is_written_over_itself_and_wiped_away()
    {
        using var console = new StringWriter();
        var line = new ProgressLine(console, seen: true, "arm.stl");
        line.Report(9, "thickness");
        line.Report(10, "gaps");
        line.Wipe();
        Assert.Equal("\rarm.stl: 9 %, thickness\rarm.stl: 10 %, gaps    \r                   \r", console.ToString());
    }

    [Fact]
    public void Where_nobody_looks_nothing_is_written()
    {
        using var console = new StringWriter();
        var line = new ProgressLine(console, seen: false, "arm.stl");
        line.Report(9, "thickness");
        line.Wipe();
        Assert.Empty(console.ToString());
    }
}
