using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Model.Costs;
using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Costs;

public sealed class PrintCostTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    // A bar of 20 × 20 × 40 mm standing: 16 000 mm³, 4 000 mm².
    private static readonly PrintShape Bar = new(16_000, 4_000, 40, 0);

    // A cube of 20 mm: 8 000 mm³, 2 400 mm².
    private static readonly PrintShape Cube = new(8_000, 2_400, 20, 0);

    // By hand: 16 cm³ × 1.15 = 18.4 cm³; × 30 per litre = 0.552. (40 + 5) / 0.05 = 900 layers; 6 × 35 s + 894 × 8 s = 7 362 s.
    [Fact]
    public void Resin_is_the_piece_and_the_waste_and_takes_a_cycle_per_layer()
    {
        var cost = Of("VPP-rigid", Bar);
        Assert.Equal(18_400, cost.MaterialMm3.Value, 6);
        Assert.Equal(0.552, cost.Price!.Value.Value, 6);
        Assert.Equal(18.4 * 1.15, cost.Grams.Value, 6);
        Assert.Equal(7_362, cost.Seconds.Value, 6);
        Assert.Equal("Material: (16.0 cm³) × (1 + 15 % waste) = 18.4 cm³", cost.Arithmetic[0].English);
        Assert.Equal("Price: 18.4 cm³ × 30 per litre = 0.55", cost.Arithmetic[1].English);
        Assert.Equal("Time: (40 mm high + 5 mm of supports) ÷ 0.05 mm = 900 layers; 6 × 35 s + 894 × 8 s = 2 h 3 min", cost.Arithmetic[2].English);
    }

    // By hand: waste 15 % ± 60 % of it moves 16 cm³ × 0.09 = 1.44 cm³. Price: 1.44 cm³ × 0.03 = 0.0432 and 25 % of 0.552 = 0.138; √(0.0432² + 0.138²) = 0.1446.
    // Time: cycle 894 × 3.2 s = 2 860.8; base layers 1.8 × 27 s = 48.6; base cycle 6 × 10.5 s = 63; lift 2 mm = 40 layers × 8 s = 320; √ of the sum of squares = 2 879.7 (GUM 5.1.2).
    [Fact]
    public void The_range_adds_independent_errors_by_their_squares()
    {
        var cost = Of("VPP-rigid", Bar);
        Assert.Equal((18_400 - 1_440, 18_400 + 1_440), (Math.Round(cost.MaterialMm3.Low, 6), Math.Round(cost.MaterialMm3.High, 6)));
        Assert.Equal(0.552 - 0.1446, cost.Price!.Value.Low, 4);
        Assert.Equal(0.552 + 0.1446, cost.Price!.Value.High, 4);
        Assert.Equal(2_879.7, cost.Seconds.High - cost.Seconds.Value, 0.1);
    }

    // By hand: (16 000 + 2 000 × 8 %) × 1.15 = 18 584 mm³.
    [Fact]
    public void Supports_fill_a_share_of_the_room_under_overhangs()
    {
        var cost = Of("VPP-rigid", Bar with { SupportMm3 = 2_000 });
        Assert.Equal(18_584, cost.MaterialMm3.Value, 6);
        Assert.Contains("+ 2.0 cm³ under overhangs × 8 %", cost.Arithmetic[0].English, StringComparison.Ordinal);
    }

    // By hand: skin 2 400 × 1.2 = 2 880 mm³, inside 5 120 × 20 % = 1 024: 3 904; × 1.1 = 4 294.4 mm³ × 1.24 = 5.325 g × 20 per kg = 0.1065.
    // Flow 0.2 × 0.45 × 50 = 4.5 mm³/s: 3 904 / 4.5 × 1.3 = 1 127.8 s, and 100 layers × 1 s.
    [Fact]
    public void Filament_is_a_skin_and_a_filling_and_takes_its_flow()
    {
        var cost = Of("MEX-rigid", Cube);
        Assert.Equal(4_294.4, cost.MaterialMm3.Value, 6);
        Assert.Equal(5.325, cost.Grams.Value, 0.001);
        Assert.Equal(0.1065, cost.Price!.Value.Value, 0.0001);
        Assert.Equal(1_227.8, cost.Seconds.Value, 0.1);
        Assert.Contains("24 cm² × 1.2 mm of skin + 5.12 cm³ inside × 20 %", cost.Arithmetic[0].English, StringComparison.Ordinal);
        Assert.Contains("(0.2 mm × 0.45 mm × 50 mm/s)", cost.Arithmetic[2].English, StringComparison.Ordinal);
    }

    [Fact]
    public void A_clock_says_the_time_of_the_estimate_whatever_the_pace()
    {
        foreach (var pace in new[] { PrinterPace.Usual, new(0.1, 5, 9) })
            foreach (var process in Processes)
                foreach (var shape in new[] { Bar, Cube, new(3_200, 3_520, 2, 0) })
                    Assert.Equal(PrintCost.Of(shape, process, pace)?.Seconds.Value, PrintClock.Of(process, pace)?.Seconds(shape));
        Assert.True(PrintClock.Of(Processes.First(p => p.Code == "VPP-rigid"), PrinterPace.Usual)!.ByLayers);
        Assert.False(PrintClock.Of(Processes.First(p => p.Code == "MEX-rigid"), PrinterPace.Usual)!.ByLayers);
    }

    // By hand: a plate of 40 × 40 × 2 mm: 3 200 mm³, 3 520 mm²; a skin of 1.2 mm from both sides leaves nothing inside.
    [Fact]
    public void A_thin_piece_of_filament_is_solid()
    {
        var cost = Of("MEX-rigid", new(3_200, 3_520, 2, 0));
        Assert.Equal(3_520, cost.MaterialMm3.Value, 6);
        Assert.Contains("solid, because", cost.Arithmetic[0].English, StringComparison.Ordinal);
    }

    // By hand: 8 cm³ × 2 × 0.92 g/cm³ × 60 per kg = 0.8832; 200 layers × 12 s.
    [Fact]
    public void Powder_wastes_as_much_again_and_needs_no_supports()
    {
        var cost = Of("PBF-rigid", Cube with { SupportMm3 = 5_000 });
        Assert.Equal((16_000, 2_400), (Math.Round(cost.MaterialMm3.Value, 6), cost.Seconds.Value));
        Assert.Equal(0.8832, cost.Price!.Value.Value, 6);
    }

    // Common practice: flexible resin is about twice the rigid one.
    [Fact]
    public void Flexible_resin_costs_twice_the_rigid_one() =>
        Assert.Equal(2, Of("VPP-flexible", Bar).Price!.Value.Value / Of("VPP-rigid", Bar).Price!.Value.Value, 9);

    // By hand: 45 / 0.1 = 450 layers; 6 × 35 + 444 × 4 s = 1 986 s. Filament at 10 mm³/s: 3 904 / 10 × 1.3 + 100 = 607.5 s.
    [Fact]
    public void The_visitors_own_printer_counts_before_the_usual_one()
    {
        var resin = PrintCost.Of(Bar, Named("VPP-rigid"), new(0.1, 4, null))!;
        Assert.Equal(1_986, resin.Seconds.Value, 6);
        var filament = PrintCost.Of(Cube, Named("MEX-rigid"), new(null, 4, 10))!;
        Assert.Equal(607.5, filament.Seconds.Value, 0.1);
        Assert.Contains("÷ 10 mm³/s", filament.Arithmetic[2].English, StringComparison.Ordinal);

        // The range is narrower than that of a printer nobody described.
        Assert.True(resin.Seconds.High / resin.Seconds.Value < 1.15);
    }

    [Fact]
    public void Without_a_price_material_and_time_are_told_all_the_same()
    {
        var process = Named("VPP-rigid");
        process.Rate(RateKey.Price)!.Change(0, 0, "set by the host");
        var cost = PrintCost.Of(Bar, process, PrinterPace.Usual)!;
        Assert.Null(cost.Price);
        Assert.Equal(2, cost.Arithmetic.Count);

        // Compared with others it still counts by grams and the material's usual price beside the rigid one: 18.4 × 1.15 × 1.
        Assert.Equal(21.16, PrintCost.ToCompare(Bar, process), 6);
        Assert.Equal(0.552, PrintCost.ToCompare(Bar, Named("VPP-rigid")), 6);
    }

    [Fact]
    public void Parts_add_up_and_accessories_do_not_count()
    {
        var process = Named("VPP-rigid");
        PartCost Part(string name, int quantity, PrintShape shape) => new(Guid.NewGuid(), name, name, quantity, process, Of("VPP-rigid", shape));
        var cost = new FigureCost([Part("body", 1, Bar), Part("arm", 2, Cube)], [Part("hat", 1, Cube)], 0);

        // 16 + 2 × 8 = 32 cm³ × 1.15; × 0.03 = 1.104.
        Assert.Equal(36_800, cost.MaterialMm3.Value, 6);
        Assert.Equal(1.104, cost.Price!.Value.Value, 6);

        // Arm: 25 / 0.05 = 500 layers; 210 + 494 × 8 = 4 162 s. One after another 7 362 + 2 × 4 162; together as long as the tallest.
        Assert.Equal(15_686, cost.Seconds.Value, 6);
        Assert.Equal(7_362, cost.TogetherSeconds!.Value.Value, 6);
    }

    [Fact]
    public void A_part_that_only_fits_turned_is_as_high_as_it_is_then()
    {
        var facts = Facts(new(10, 12, 170), supportMm3: 900);
        var room = BuildVolume.Rectangular(64, 114, 152);
        var fit = new FitAnswer(true, 3, new(60, 110, 130), Rotation.Identity, true);
        Assert.Equal((130, true), Height(PrintShape.Of(facts, Named("VPP-rigid"), room, fit)!));
        Assert.Equal((170, false), Height(PrintShape.Of(facts, Named("VPP-rigid"))!));
        Assert.Equal((170, false), Height(PrintShape.Of(facts, Named("VPP-rigid"), BuildVolume.Round(100, 200), fit)!));
        static (double, bool) Height(PrintShape shape) => (shape.HeightMm, shape.Turned);
    }

    [Fact]
    public void What_filament_bridges_needs_no_support_and_powder_none_at_all()
    {
        var facts = Facts(new(10, 10, 10), supportMm3: 900, new Bridge(8, 40, 200, Vec3.Zero), new Bridge(14, 40, 300, Vec3.Zero));
        Assert.Equal(700, PrintShape.Of(facts, Named("MEX-rigid"))!.SupportMm3);
        Assert.Equal(900, PrintShape.Of(facts, Named("VPP-rigid"))!.SupportMm3);
        Assert.Equal(0, PrintShape.Of(facts, Named("PBF-rigid"))!.SupportMm3);
        Assert.Null(PrintShape.Of(facts with { Closed = false }, Named("PBF-rigid")));
    }

    [Theory]
    [InlineData(RateKey.LayerHeight, 0, 10, "rate-invalid")]
    [InlineData(RateKey.Price, -1, 10, "rate-invalid")]
    [InlineData(RateKey.Price, double.NaN, 10, "rate-invalid")]
    [InlineData(RateKey.Price, 30, 101, "spread-invalid")]
    public void A_rate_that_makes_no_sense_is_refused(string key, double value, double spread, string code)
    {
        var rate = Named("VPP-rigid").Rate(key)!;
        var before = rate.Value;
        Assert.Equal(code, Assert.Throws<RuleBrokenException>(() => rate.Change(value, spread, "ours")).Code);
        Assert.Equal(before, rate.Value);
    }

    private static Process Named(string code) => BuiltInProcesses.Create().Single(p => p.Code == code);

    private static PrintCost Of(string process, PrintShape shape) => PrintCost.Of(shape, Processes.Single(p => p.Code == process), PrinterPace.Usual)!;

    private static MeshFacts Facts(Vec3 size, double supportMm3, params Bridge[] bridges) => new()
    {
        Triangles = 12,
        Shells = 1,
        Closed = true,
        Manifold = true,
        Oriented = true,
        OpenEdges = 0,
        NonManifoldEdges = 0,
        DegenerateTriangles = 0,
        DuplicateTriangles = 0,
        InsideOutShells = 0,
        Voids = 0,
        Size = size,
        VolumeMm3 = size.X * size.Y * size.Z,
        AreaMm2 = 100,
        UnitStated = true,
        Overhangs = new()
        {
            Rotation = Rotation.Identity,
            HeightMm = size.Z,
            RestingMm2 = 0,
            AreaMm2 = [.. Enumerable.Repeat(50.0, 90)],
            SupportVolumeMm3 = [.. Enumerable.Repeat(supportMm3, 90)],
            OnPartMm2 = [.. Enumerable.Repeat(0.0, 90)],
            Bridges = bridges,
            BridgeCount = bridges.Length,
            Islands = [],
            IslandCount = 0,
        },
    };
}
