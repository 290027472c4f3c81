using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Xunit;

namespace Catalogue.Model.Tests.Inspections;

/// <summary>A 3MF package is free to hold thousands of build items; checking each as if it were a part would take hours.</summary>
public sealed class ManyItemsTests
{
    private const int Checked = 12;
    private const int Listed = 1_000;

    [Fact]
    public void Of_a_few_items_each_is_checked_and_nothing_is_said_about_the_rest()
    {
        var report = Inspect(3);
        Assert.Equal(3, report.Items!.Count);
        Assert.All(report.Items, item => Assert.NotNull(item.Thickness));
        Assert.DoesNotContain(report.Warnings!, w => w.Contains("only the first", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_thousands_the_first_are_checked_the_next_measured_and_the_report_says_so()
    {
        var told = new List<int>();
        var report = Inspect(2_000, (percent, _) => told.Add(percent));
        Assert.Equal(Listed, report.Items!.Count);
        Assert.All(report.Items.Take(Checked), item => Assert.True(item.Thickness is not null && item.Processes!.Count > 0));
        Assert.All(report.Items.Skip(Checked), item =>
        {
            Assert.Null(item.Thickness);
            Assert.Null(item.Processes);
            Assert.True(item.Mesh!.Closed);

            // By hand: a box of 2 × 3 × 4 mm.
            Assert.Equal(24, item.VolumeMm3!.Value, 1e-3);
        });

        // The file as a whole is judged on everything it holds.
        Assert.Equal(2_000, report.Mesh!.Shells);
        Assert.NotNull(report.Thickness);
        Assert.Contains(report.Warnings!, w => w.StartsWith("Of 2,000 things only the first 12 were checked each by itself and only the first 1,000 are listed", StringComparison.Ordinal)
            && w.Contains("save it as a file of its own", StringComparison.Ordinal));
        Assert.Equal(told.Order(), told);
    }

    private static InspectionReport Inspect(int items, InspectionStage? stage = null)
    {
        using var content = Package(items);
        return MeshInspector.Inspect(content, content.Length, new InspectionRequest { Processes = [BuiltInProcesses.Create()[0]] }, stage, TestContext.Current.CancellationToken).Report;
    }

    /// <summary>One box, built so many times in rows.</summary>
    private static MemoryStream Package(int items)
    {
        var stream = new MemoryStream();
        ThreeMfWriter.Write(
            stream, [new("box", Solids.Box(2, 3, 4))], [.. Enumerable.Range(0, items).Select(i => new ThreeMfPlacement(0, Rotation.Identity, new(5 * (i % 50), 6 * (i / 50), 0)))]);
        stream.Position = 0;
        return stream;
    }
}
