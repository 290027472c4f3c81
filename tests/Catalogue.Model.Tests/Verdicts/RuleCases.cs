using Catalogue.Geometry.Details;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Scaling;
using Catalogue.Model.Tests.Figures;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Tests.Verdicts;

/// <summary>One case per rule and severity of the decision table, with the number worked out by hand. Limits are the built-in ones (shared trade facts, mostly common practice).</summary>
/// <param name="Measured">What the finding has to say it measured; null = the rule is not about a number.</param>
public sealed record RuleCase(Rule Rule, Severity Severity, double? Measured, Func<IEnumerable<Finding>> Findings)
{
    private static BuildVolume Small => BuildVolume.Rectangular(63.5, 114.3, 152.4);

    public static IReadOnlyList<RuleCase> All { get; } =
    [
        .. OfFiles(), .. OfSizes(), .. OfWalls(), .. OfHolesAndLimbs(), .. OfPoses(), .. OfHollows(), .. OfJoints(),
    ];

    private static IEnumerable<RuleCase> OfFiles()
    {
        var sound = FigureTests.Facts();
        RuleCase Of(Rule rule, Severity severity, double? measured, MeshFacts facts) => new(rule, severity, measured, () => RevisionJudge.Judge(facts, Process("VPP-rigid")).Findings);
        yield return new(Rules.MeshRejected, Severity.Stop, null, () => [Rules.MeshRejected.Found(Severity.Stop, $"The file ends in the middle.")]);
        yield return Of(Rules.MeshOpen, Severity.Stop, 3, sound with { OpenEdges = 3, Closed = false });
        yield return Of(Rules.MeshNonManifold, Severity.Care, 2, sound with { NonManifoldEdges = 2, Manifold = false });
        yield return Of(Rules.MeshOrientation, Severity.Care, null, sound with { Oriented = false });
        yield return Of(Rules.MeshSelfIntersections, Severity.Care, 5, sound with { SelfIntersections = 5 });
        yield return Of(Rules.MeshInsideOut, Severity.Care, 1, sound with { InsideOutShells = 1 });
        // 4 without area and 1 twice: 5.
        yield return Of(Rules.MeshUntidy, Severity.Note, 5, sound with { DegenerateTriangles = 4, DuplicateTriangles = 1 });
        yield return Of(Rules.FileWarning, Severity.Care, null, sound with { Warnings = [$"The file is perhaps in inches."] });
        yield return Of(Rules.SmallPart, Severity.Note, null, sound with { SmallPart = true });
        yield return new(Rules.InspectionPending, Severity.Note, null, () => Judgement.Unchecked.Findings);
        yield return new(Rules.NoVariant, Severity.Stop, null, () => FigureJudge.Judge(
            [new(Guid.NewGuid(), "arm", "Arm", PartRole.Required, null, null, []) { OtherVariants = 1 }], "rigid resin").Reasons.Select(r => r.Finding));
        // Wilson 95 % (shared trade facts): 9 of 14 from 38.8 %, above 20 %; 1 of 1 is too few.
        yield return new(Rules.ReportsFailed, Severity.Care, 64.3, () => [ReportFindings.Of(new(9, 14))!]);
        yield return new(Rules.ReportsFailed, Severity.Note, 100, () => [ReportFindings.Of(new(1, 1))!]);
    }

    private static IEnumerable<RuleCase> OfSizes()
    {
        // Along its axes: 63.5 − 66 = −2.5 mm; 63.5 − 63.3 = 0.2 mm; a plate 70 wide that goes in when turned, 1.2 mm to spare.
        RuleCase Of(Rule rule, Severity severity, double spare, bool turned) => new(rule, severity, spare,
            () => [FitFindings.Of(new(spare >= 0, spare, new(60, 100, 120), Rotation.Identity, turned), Small)!]);
        yield return Of(Rules.FitTooLarge, Severity.Stop, -2.5, false);
        yield return Of(Rules.FitTight, Severity.Note, 0.2, false);
        yield return Of(Rules.FitTurn, Severity.Note, 1.2, true);
        // At 40 % a gap of 0.5 / 0.4 = 1.25 mm comes to the clearance; gaps are measured up to 1 mm.
        yield return new(Rules.ScaleNotMeasured, Severity.Care, 40, () => ScaleReach.Findings(FigureTests.Facts() with { Gaps = new(null, []) }, Process("VPP-rigid"), 0.4));
    }

    private static IEnumerable<RuleCase> OfWalls()
    {
        // Resin: held walls 0.5 mm, free ones 1 mm. A wall has to reach 1.5 limits and have 2 limits² of surface; a stop half the limit over 3 limits.
        RuleCase Wall(Rule rule, Severity severity, double thick, double reach, bool free, double area = 60) => new(rule, severity, thick,
            () => ThicknessFindings.Of(Walls(Region(thick, reach, area) with { FreeStanding = free }), true, Process("VPP-rigid")));
        yield return Wall(Rules.WallThin, Severity.Care, 0.4, 4, false);
        yield return Wall(Rules.WallThin, Severity.Stop, 0.22, 4, false);
        yield return Wall(Rules.WallThinFree, Severity.Care, 0.8, 4, true);
        yield return Wall(Rules.WallThinFree, Severity.Stop, 0.4, 4, true);
        // Reaches 0.5 mm, less than 1.5 × 0.5, on 20 mm² (20 × 0.5² = 5): a ridge worth telling.
        yield return Wall(Rules.WallEdge, Severity.Note, 0.4, 0.5, false, 20);
        // Filament: 5 mm; 4 mm is a note, 1.8 mm (below 0.4 × 5 = 2) asks for care.
        yield return new(Rules.LimbThin, Severity.Note, 4, () => ThicknessFindings.Of(Limb(4), true, Process("MEX-rigid")));
        yield return new(Rules.LimbThin, Severity.Care, 1.8, () => ThicknessFindings.Of(Limb(1.8), true, Process("MEX-rigid")));
        // Clearance 0.5 mm: pieces 0.3 mm apart; a slot 0.4 mm wide, 2 mm (≥ 2 × 0.5) deep, 30 mm² (≥ 3); a groove that is shallower.
        var (apart, slot) = (Region(0.3, 5, 30) with { BetweenPieces = true }, Region(0.4, 2, 30));
        RuleCase Gap(Rule rule, Severity severity, double measured, params ThinRegion[] regions) =>
            new(rule, severity, measured, () => GapFindings.Of(new(0.3, Steps(GapMeasures.GapSteps, regions)), Process("VPP-rigid")));
        yield return Gap(Rules.GapNarrow, Severity.Care, 0.3, apart);
        yield return Gap(Rules.GapSlot, Severity.Care, 0.4, apart, slot);
        yield return Gap(Rules.GapGroove, Severity.Note, 0.4, slot with { ReachMm = 0.5 });
        // Filament: relief 0.4 mm high (limit 1), grooves 0.35 mm wide (limit 0.6), 40 mm of each (worth telling from 5).
        var details = new DetailMeasures
        {
            Low = Ladder(DetailMeasures.Heights, 0.5, new(null, 0.4, 150, 40, Vec3.Zero)),
            Ridges = Ladder(DetailMeasures.Sizes, 0.6, new(0.5, 1.5, 20, 40, Vec3.Zero)),
            Grooves = Ladder(DetailMeasures.Sizes, 0.4, new(0.35, 1.5, 14, 40, Vec3.Zero)),
        };
        yield return new(Rules.DetailLost, Severity.Note, 0.4, () => DetailFindings.Of(details, Process("MEX-rigid")));
        yield return new(Rules.DetailClosed, Severity.Note, 0.35, () => DetailFindings.Of(details, Process("MEX-rigid")));
    }

    private static IEnumerable<RuleCase> OfHolesAndLimbs()
    {
        RuleCase Hole(Rule rule, Severity severity, double measured, string process, RoundHole hole) =>
            new(rule, severity, measured, () => HoleFindings.Of(new() { Holes = [hole], Pegs = [], More = false }, Process(process)));
        var plain = new RoundHole { DiameterMm = 1.2, ClearMm = 1.2, DepthMm = 6, Axis = Vec3.UnitZ, Mouth = Vec3.Zero, Center = Vec3.Zero, Through = true, WallMm = 2 };
        // Filament prints holes open from 2 mm: 1 mm is opened with a drill, 0.8 mm is too narrow for one.
        yield return Hole(Rules.HoleNarrow, Severity.Note, 1, "MEX-rigid", plain with { DiameterMm = 1, ClearMm = 1 });
        yield return Hole(Rules.HoleNarrow, Severity.Care, 0.8, "MEX-rigid", plain with { DiameterMm = 0.8, ClearMm = 0.8 });
        yield return Hole(Rules.HoleThinWall, Severity.Care, 0.4, "VPP-rigid", plain with { WallMm = 0.4 });
        yield return Hole(Rules.HoleThinFloor, Severity.Note, 0.3, "VPP-rigid", plain with { Through = false, FloorMm = 0.3 });
        // 1.7 − 0.3…0.1 = 1.4…1.6 mm: a 1.5 mm rod may need reaming.
        yield return Hole(Rules.HoleRod, Severity.Note, 1.7, "VPP-rigid", plain with { DiameterMm = 1.7, ClearMm = 1.7 });
        // Round bar Ø 3, 30 mm: 10 N × 30 ÷ (π 3³ ÷ 32) = 113.2 MPa; Ø 3.5: 71.3 MPa. Resin stands 2900 × 2 % = 58 MPa; care from 87.
        yield return new(Rules.LimbFragile, Severity.Care, 113.2, () => LimbFindings.Of(Bar(3, 30), Process("VPP-rigid")));
        yield return new(Rules.LimbFragile, Severity.Note, 71.3, () => LimbFindings.Of(Bar(3.5, 30), Process("VPP-rigid")));
    }

    private static IEnumerable<RuleCase> OfPoses()
    {
        var level = new OverhangMeasures
        {
            Rotation = Rotation.Identity,
            HeightMm = 20,
            RestingMm2 = 100,
            AreaMm2 = [.. Enumerable.Repeat(300.0, 90)],
            SupportVolumeMm3 = [.. Enumerable.Repeat(6000.0, 90)],
            OnPartMm2 = [.. new double[90]],
            Bridges = [],
            BridgeCount = 0,
            Islands = [],
            IslandCount = 0,
        };
        // 300 mm² hang over; a bridge of 12 mm where 10 print; an island 7 mm up that lasts 5 mm.
        yield return new(Rules.OverhangArea, Severity.Note, 300, () => OverhangFindings.Of(level, 4000, Process("MEX-rigid")));
        yield return new(Rules.OverhangBridge, Severity.Note, 12, () => OverhangFindings.Of(level with { Bridges = [new(12, 60, 600, Vec3.Zero)], BridgeCount = 1 }, 4000, Process("MEX-rigid")));
        yield return new(Rules.OverhangIsland, Severity.Note, 1, () => OverhangFindings.Of(level with { Islands = [new(7, 5, 25, false, Vec3.Zero)], IslandCount = 1 }, 4000, Process("VPP-rigid")));
    }

    private static IEnumerable<RuleCase> OfHollows()
    {
        RuleCase Of(Rule rule, Severity severity, double measured, TrappedLiquid liquid) => new(rule, severity, measured, () => LiquidFindings.Of(liquid, Process("VPP-rigid")));
        yield return Of(Rules.LiquidSealed, Severity.Care, 7200, Dry with { Cavities = [Hollow(7200) with { Sealed = true }] });
        // 4 mm are wanted, 0.9 × 4 = 3.6 pass: 3 mm do not. 40 mm³ are shaken out (50).
        yield return Of(Rules.LiquidDrain, Severity.Care, 3, Dry with { Cavities = [Hollow(5000, 3)] });
        yield return Of(Rules.LiquidDrain, Severity.Note, 3, Dry with { Cavities = [Hollow(40, 3)] });
        // One way of 4 mm where two are wanted; below 1000 mm³ air and liquid take turns.
        yield return Of(Rules.LiquidVent, Severity.Care, 1, Dry with { Cavities = [Hollow(5000, 4)] });
        yield return Of(Rules.LiquidVent, Severity.Note, 1, Dry with { Cavities = [Hollow(900, 4)] });
        yield return Of(Rules.LiquidPool, Severity.Note, 900, Dry with { Pools = [new(900, 12, Vec3.Zero, null)], PooledMm3 = 900 });
        yield return Of(Rules.LiquidSuction, Severity.Note, 400, Dry with { SuctionCups = [new(400, 30, 8000, Vec3.Zero, null)], SuctionMm2 = 400, SuctionLastsMm = 30 });
    }

    private static IEnumerable<RuleCase> OfJoints()
    {
        RuleCase Of(Rule rule, Severity severity, double measured, string process, JointSpec joint) =>
            new(rule, severity, measured, () => JointMechanics.Of(joint, Process(process)).Select(m => m.Finding));
        JointSpec Ball(double mouth) => new(JointKind.PopInBall, "Shoulder") { InnerDiameterMm = 7, MouthDiameterMm = mouth };
        JointSpec Sleeve(double plug, double? length = null) => new(JointKind.PlugInSleeve, "Hip") { InnerDiameterMm = plug, OuterDiameterMm = length is null ? 6 : null, LengthMm = length };
        JointSpec Hinge(double hole) => new(JointKind.PinnedHinge, "Knee") { InnerDiameterMm = 1.5, OuterDiameterMm = hole };
        // (7 − 6.78) ÷ 6.78 = 3.24 %; PLA in the middle 5.5 %, 0.6 of it 3.3, 0.7 of it 3.85: (7 − 6.76) ÷ 6.76 = 3.55 %. Resin 4 %: 2.8.
        yield return Of(Rules.JointStrain, Severity.Note, 3.24, "MEX-rigid", Ball(6.78));
        yield return Of(Rules.JointStrain, Severity.Care, 3.55, "MEX-rigid", Ball(6.76));
        yield return Of(Rules.JointStrain, Severity.Stop, 3.24, "VPP-rigid", Ball(6.78));
        yield return Of(Rules.JointLoose, Severity.Stop, 0, "MEX-rigid", Ball(7));
        // 6 − 5.4 = 0.6, more than 0.5 of play; less 0.005 × 11.4 = 0.543.
        yield return Of(Rules.JointLoose, Severity.Care, 0.543, "VPP-rigid", Sleeve(5.4));
        // 6 − 6 = 0, less 0.06; 6 − 5.98 = 0.02, less 0.0599; 6 − 5.8 = 0.2, less 0.059.
        yield return Of(Rules.JointTight, Severity.Stop, -0.06, "VPP-rigid", Sleeve(6));
        yield return Of(Rules.JointTight, Severity.Care, -0.04, "VPP-rigid", Sleeve(5.98));
        yield return Of(Rules.JointPlay, Severity.Note, 0.141, "VPP-rigid", Sleeve(5.8));
        // 4 ÷ 5 = 0.8; 6 ÷ 5 = 1.2.
        yield return Of(Rules.JointShort, Severity.Note, 0.8, "VPP-rigid", Sleeve(5, 4));
        yield return Of(Rules.JointGrip, Severity.Note, 1.2, "VPP-rigid", Sleeve(5, 6));
        // 1.35 − 0.3 = 1.05, drawn narrower than the rod; 1.7 − 0.3 = 1.4, drawn wider.
        // A ball of 7 mm in a mouth that nobody measured; a pressed peg without its hole would do as well.
        yield return new(Rules.JointUnknown, Severity.Note, null, () => JointMechanics.Of(Ball(7) with { MouthDiameterMm = null }, Process("PBF-rigid")).Select(m => m.Finding));
        yield return Of(Rules.JointPin, Severity.Care, 1.05, "MEX-rigid", Hinge(1.35));
        yield return Of(Rules.JointPin, Severity.Note, 1.4, "MEX-rigid", Hinge(1.7));
    }

    private static Process Process(string code) => BuiltInProcesses.Create().Single(p => p.Code == code);

    private static ThinRegion Region(double thick, double reach, double area) => new() { MinMm = thick, TypicalMm = thick, AreaMm2 = area, At = Vec3.Zero, ReachMm = reach };

    private static List<ThinStep> Steps(IReadOnlyList<double> ladder, params ThinRegion[] regions) =>
        [.. ladder.Select(s => (s, Below: regions.Where(r => r.TypicalMm < s).ToList())).Where(s => s.Below.Count > 0).Select(s => new ThinStep(s.s, s.Below.Count, s.Below.Sum(r => r.AreaMm2), s.Below))];

    private static WallMeasures Walls(ThinRegion region) => new(1000, 500, null, Steps(WallMeasures.WallSteps, region), []);

    private static WallMeasures Limb(double width) => new(1000, 500, null, [], Steps(WallMeasures.LimbSteps, Region(width, 20, 200)));

    private static List<DetailStep> Ladder(IReadOnlyList<double> sizes, double from, DetailFeature feature) =>
        [.. sizes.Select(s => s < from ? new DetailStep(s, 0, 0, 0, []) : new DetailStep(s, 1, feature.AreaMm2, feature.LengthMm, [feature]))];

    private static LimbMeasures Bar(double diameter, double length)
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
            BeyondMm3 = Math.PI * diameter * diameter / 4 * length,
            BeyondLeverMm = length / 2,
        };
        return new() { Limbs = [new() { Tip = new(0, 0, length), Pushed = section, Dropped = section }] };
    }

    private static TrappedLiquid Dry => new()
    {
        Rotation = Rotation.Identity.ToRowMajor(),
        PitchMm = 0.1,
        FinestOpeningMm = 0.3,
        Cavities = [],
        Pools = [],
        SuctionCups = [],
        PooledMm3 = 0,
        SuctionMm2 = 0,
        SuctionLastsMm = 0,
    };

    private static Cavity Hollow(double volume, params double[] openings) => new()
    {
        VolumeMm3 = volume,
        At = Vec3.Zero,
        Sealed = false,
        Openings = [.. openings.Select(d => new CavityOpening(d, Vec3.UnitX, -1))],
        SkinMm = 2,
        SkinAt = Vec3.UnitY,
        Drain = null,
        Vent = null,
    };
}
