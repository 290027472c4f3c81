using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Verdicts;

public sealed class LimbFindingsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    // By hand, cantilever (any strength-of-materials handbook): a round bar of 3 mm, 30 mm long; Z = π 3³ / 32 = 2.651 mm³; 10 N × 30 mm / Z = 113.2 MPa.
    [Fact]
    public void A_finger_breaks_a_long_thin_bar_of_resin()
    {
        var limb = Bar(3, 30);
        Assert.Equal(113.2, LimbFindings.Push(limb), 0.1);
        var finding = Assert.Single(Of("VPP-rigid", limb));
        Assert.Equal(("limb.fragile", Severity.Care, 113.2, 58, "MPa"), (finding.Code, finding.Severity, finding.Measured, finding.Limit, finding.Unit));

        // 2900 MPa × 2 % = 58 MPa; 3 mm × ∛(113.2 / 58) = 3.75 mm.
        Assert.Contains("10 N × 30.0 mm ÷ 2.651 mm³ = 113 MPa", finding.Arithmetic!.English, StringComparison.Ordinal);
        Assert.Contains("2900 MPa × 2 % = 58 MPa", finding.Arithmetic!.English, StringComparison.Ordinal);
        Assert.Contains("Make it 3.8 mm thick", finding.Message.English, StringComparison.Ordinal);
        Assert.Contains("handbook", finding.Source!.English, StringComparison.Ordinal);
        Assert.Equal(Vec3.Zero, finding.At);
    }

    // The same bar of 3.8 mm: Z = 5.387, 300 / 5.387 = 55.7 MPa < 58.
    [Fact]
    public void Thickened_as_advised_it_holds() => Assert.Empty(Of("VPP-rigid", Bar(3.8, 30)));

    // 3.5 mm: Z = 4.209, 71.3 MPa: 1.23 times what the resin stands.
    [Fact]
    public void A_little_beyond_the_limit_is_only_noted() => Assert.Equal(Severity.Note, Assert.Single(Of("VPP-rigid", Bar(3.5, 30))).Severity);

    // By hand: 4189 mm³ × 1.15 mg = 4.817 g; × 9.81 × 0.75 m = 35.44 N·mm; I = π 3⁴ / 64 = 3.976; σ = 1.5 √(6 × 2900 × 35.44 / (3.976 × 20)) = 132.1 MPa.
    [Fact]
    public void A_heavy_ball_on_a_short_stick_breaks_off_in_a_fall()
    {
        var limb = Bar(3, 12, 4189, 20);
        var resin = Processes.Single(p => p.Code == "VPP-rigid").Material;
        Assert.Equal(132.1, LimbFindings.Drop(limb, resin), 0.3);
        var finding = Assert.Single(Of("VPP-rigid", limb));
        Assert.Contains("fall from a table", finding.Message.English, StringComparison.Ordinal);
        Assert.Contains("(4.8 g)", finding.Arithmetic!.English, StringComparison.Ordinal);
        Assert.Contains("= 132 MPa", finding.Arithmetic!.English, StringComparison.Ordinal);

        // Under a given energy stress falls with the thickness: 3 × 132.1 / 58 = 6.83.
        Assert.Contains("Make it 6.9 mm thick", finding.Message.English, StringComparison.Ordinal);
    }

    [Theory, InlineData("VPP-flexible"), InlineData("VPP-tough"), InlineData("MEX-flexible")]
    public void What_bends_is_not_judged(string process) => Assert.Empty(Of(process, Bar(1, 40)));

    [Fact]
    public void Several_limbs_make_one_finding_about_the_worst()
    {
        var finding = Assert.Single(Of("MEX-rigid", Bar(3, 40), Bar(1, 20), Bar(12, 40)));
        Assert.Contains("2 limbs", finding.Message.English, StringComparison.Ordinal);
        Assert.StartsWith("A limb is 1.0 mm thick", finding.Message.English, StringComparison.Ordinal);
    }

    private static List<Finding> Of(string process, params Limb[] limbs) => [.. LimbFindings.Of(new() { Limbs = limbs }, Processes.Single(p => p.Code == process))];

    /// <summary>A round bar, with whatever mass beyond.</summary>
    private static Limb Bar(double diameter, double length, double? beyond = null, double? beyondLever = null)
    {
        var section = new LimbSection
        {
            At = Vec3.Zero,
            Axis = Vec3.UnitZ,
            AreaMm2 = Math.PI * diameter * diameter / 4,
            SecondMomentMm4 = Math.PI * Math.Pow(diameter, 4) / 64,
            FibreMm = diameter / 2,
            ThicknessMm = diameter,
            LeverMm = length,
            BeyondMm3 = beyond ?? Math.PI * diameter * diameter / 4 * length,
            BeyondLeverMm = beyondLever ?? length / 2,
        };
        return new() { Tip = new(0, 0, length), Pushed = section, Dropped = section };
    }
}
