using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Scaling;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Scaling;

public sealed class ScaledFigureTests
{
    private static readonly Process Resin = BuiltInProcesses.Create().Single(p => p.Code == "VPP-rigid");
    private static readonly BuildVolume Room = BuildVolume.Rectangular(64, 114, 152);
    private static readonly Guid Plate = Guid.NewGuid();

    // By hand, a plate of 60 × 40 × 1.6 mm lying free: resin wants 1 mm of a free wall, less 2 %: from 0.98 / 1.6 = 61.25 % on it is thick enough.
    // Half the limit over three limits' reach stops: 0.5 × 0.98 / 1.6 = 30.6 %. It fits 64 × 114 × 152 mm up to 152 / 60 = 253.3 % at least (lying along its height).
    [Fact]
    public void A_plate_holds_from_where_its_wall_is_thick_enough_to_where_it_fits()
    {
        var figure = Figure(Solids.Box(60, 40, 1.6), fitsUpTo: 2.6);
        var spans = figure.Spans();
        Assert.Equal((PrintScale.LeastPercent, PrintScale.MostPercent), (spans[0].FromPercent, spans[^1].ToPercent));
        Assert.Equal([Verdict.Unsuited, Verdict.Care, Verdict.Suits, Verdict.Unsuited], spans.Select(s => s.Verdict));
        Assert.Equal(30.6, spans[1].FromPercent, 0.5);
        Assert.Equal(61.25, spans[2].FromPercent, 0.2);
        Assert.Equal(260, spans[2].ToPercent, 0.11);
        Assert.Equal("wall.thin-free", Assert.Single(spans[1].Reasons).Finding.Code);
        Assert.Equal("fit.too-large", Assert.Single(spans[3].Reasons).Finding.Code);
        Assert.Contains("up to 260 %", spans[3].Reasons[0].Finding.Message.English, StringComparison.Ordinal);
        var (from, to) = ScaledFigure.Holds(spans)!.Value;
        Assert.Equal((spans[1].FromPercent, spans[2].ToPercent), (from, to));
        Assert.Equal(2.6, figure.FitsUpTo);
    }

    // A figure that is too large as drawn holds at the smaller scales where it fits.
    [Fact]
    public void Too_large_as_drawn_it_tells_down_to_which_scale_it_fits()
    {
        var spans = Figure(Solids.Box(80, 40, 40), fitsUpTo: 0.8).Spans();
        var (from, to) = ScaledFigure.Holds(spans)!.Value;
        Assert.True(from < 50);
        Assert.Equal(80, to, 0.11);
    }

    // Walls are measured up to 3 mm, gaps up to 1 mm: at a free wall of 1 mm and a clearance of 0.5 mm down to 33.3 % and 50 %.
    [Theory, InlineData(0.5, 0), InlineData(0.49, 1), InlineData(0.33, 2), InlineData(3, 0)]
    public void Beyond_what_was_measured_it_says_so(double scale, int findings) =>
        Assert.Equal(findings, ScaleReach.Findings(Facts(Solids.Box(20, 20, 20)), Resin, scale).Count(f => f is { Code: "scale.not-measured", Severity: Severity.Care }));

    [Fact]
    public void An_accessory_that_does_not_fit_leaves_the_figure_as_it_is()
    {
        var figure = new ScaledFigure([Part(Plate, PartRole.Required, Facts(Solids.Box(20, 20, 20)), 5), Part(Guid.NewGuid(), PartRole.Optional, Facts(Solids.Box(20, 20, 20)), 0.5)], [], Resin, Room);
        var verdict = figure.At(PrintScale.Drawn);
        Assert.Equal((Verdict.Suits, 5), (verdict.Verdict, figure.FitsUpTo));
        Assert.Contains(verdict.Reasons, r => r is { Optional: true, Finding.Code: "fit.too-large" });
    }

    // By hand: lengths × 0.5, areas × 0.25, volumes × 0.125; a push strains a limb by the inverse square (F·L·c / I: s · s / s⁴), a fall by the same at every scale.
    [Fact]
    public void Measurements_scale_by_their_dimension()
    {
        var section = new LimbSection
        {
            At = new(0, 0, 2),
            Axis = Vec3.UnitZ,
            AreaMm2 = 7,
            SecondMomentMm4 = 4,
            FibreMm = 1.5,
            ThicknessMm = 3,
            LeverMm = 30,
            BeyondMm3 = 200,
            BeyondLeverMm = 15,
        };
        var drawn = Facts(Solids.Box(10, 20, 40)) with { Limbs = new() { Limbs = [new() { Tip = new(0, 0, 40), Pushed = section, Dropped = section }] } };
        var half = drawn.Scaled(0.5, smallPart: true);
        Assert.Equal(new Vec3(5, 10, 20), half.Size);
        Assert.Equal((1_000, 700, true), (half.VolumeMm3, half.AreaMm2, half.SmallPart));
        var (limb, before) = (half.Limbs!.Limbs[0], drawn.Limbs!.Limbs[0]);
        Assert.Equal(4 * LimbFindings.Push(before), LimbFindings.Push(limb), 9);
        Assert.Equal(LimbFindings.Drop(before, Resin.Material), LimbFindings.Drop(limb, Resin.Material), 9);
        Assert.Equal(before, drawn.Scaled(0.5, false).Scaled(2, false).Limbs!.Limbs[0]);
    }

    private static ScaledFigure Figure(TriangleMesh mesh, double fitsUpTo) => new([Part(Plate, PartRole.Required, Facts(mesh), fitsUpTo)], [], Resin, Room);

    private static ScalablePart Part(Guid id, PartRole role, MeshFacts facts, double fitsUpTo) =>
        new(new(id, "plate", "Plate", role, null, null, []), [new(Guid.NewGuid(), Guid.NewGuid(), "all", RevisionJudge.Judge(facts, Resin), facts, fitsUpTo)]);

    private static MeshFacts Facts(TriangleMesh mesh)
    {
        using var file = new MemoryStream();
        StlWriter.Write(mesh, file);
        file.Position = 0;
        return MeshInspector.Inspect(file, file.Length, new() { Unit = Geometry.Formats.LengthUnit.Millimetre }).Facts;
    }
}
