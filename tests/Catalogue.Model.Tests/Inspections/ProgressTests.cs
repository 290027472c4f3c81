using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Xunit;

namespace Catalogue.Model.Tests.Inspections;

/// <summary>What somebody who waits for an inspection sees of it, and that it can be stopped wherever it is.</summary>
public sealed class ProgressTests
{
    private static readonly TriangleMesh Part = Solids.Together(Solids.Icosphere(12, 5), Solids.Box(3, 3, 60).Transformed(Rotation.About(Vec3.UnitX, 0.3), new(-1, -1, 5)));

    private static readonly string[] Long = ["thickness", "gaps", "limbs", "liquid", "detail", "holes", "overhang", "selfIntersections"];

    [Fact]
    public void It_moves_within_every_long_check_and_never_goes_back()
    {
        var told = Inspect((_, _) => { }, TestContext.Current.CancellationToken);
        Assert.Equal(told.Select(t => t.Percent).Order(), told.Select(t => t.Percent));
        Assert.All(told, t => Assert.InRange(t.Percent, 0, 100));
        Assert.Equal("read", told[0].Stage);
        foreach (var stage in Long) Assert.Contains(told, t => t.Stage == stage);
        Assert.True(told.Where(t => t.Stage == "thickness").Select(t => t.Percent).Distinct().Count() > 5);
        Assert.True(told.Select(t => t.Percent).Distinct().Count() > 30);
        Assert.InRange(told[^1].Percent, 80, 100);
        Assert.All(told, t => Assert.Contains(t.Stage, StageWords.Known));
    }

    [Theory, InlineData("health"), InlineData("tree"), InlineData("fit"), InlineData("thickness"), InlineData("gaps"), InlineData("limbs"), InlineData("liquid"),
     InlineData("detail"), InlineData("holes"), InlineData("overhang"), InlineData("selfIntersections")]
    public void Stopped_when_a_check_begins_it_ends_with_that_and_no_later_check_begins(string stage)
    {
        using var stop = new CancellationTokenSource();
        var begun = new HashSet<string>();
        Assert.ThrowsAny<OperationCanceledException>(() => Inspect(
            (_, name) =>
            {
                if (stop.IsCancellationRequested) begun.Add(name);
                else if (name == stage) stop.Cancel();
            },
            stop.Token));

        // On the other lanes a check may just have begun; the same lanes begin none.
        Assert.InRange(begun.Except([stage]).Count(), 0, 2 * Math.Min(Environment.ProcessorCount, 4));
    }

    // What is measured does not depend on which check ends first.
    [Fact]
    public void Checks_side_by_side_say_the_same_every_time()
    {
        var (one, two) = (Report(), Report());
        Assert.Equal(InspectionJson.Write(one), InspectionJson.Write(two));

        static InspectionReport Report() => MeshInspector.Inspect(Stl(), null, new InspectionRequest { ForRange = true }).Report with { Milliseconds = null };
    }

    private static List<(int Percent, string Stage)> Inspect(InspectionStage tell, CancellationToken stop)
    {
        var told = new List<(int Percent, string Stage)>();
        MeshInspector.Inspect(Stl(), null, new InspectionRequest { ForRange = true }, (percent, stage) =>
        {
            told.Add((percent, stage));
            tell(percent, stage);
        }, stop);
        return told;
    }

    private static MemoryStream Stl()
    {
        var content = new MemoryStream();
        StlWriter.Write(Part, content);
        content.Position = 0;
        return content;
    }
}
