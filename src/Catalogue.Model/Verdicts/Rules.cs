using System.Collections.Frozen;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Joints;
using Catalogue.Model.Processes;
using Catalogue.Model.Reports;

namespace Catalogue.Model.Verdicts;

/// <summary>The decision table: every rule there is, in one place. Numbers in its words are the constants that the checks themselves use.</summary>
public static class Rules
{
    /// <summary>
    /// Counted up by hand when what is found of the same measurements, or what is said or kept of it, becomes something else: every kept verdict is then judged again in the background at the
    /// next start. <c>RulesVersionTests</c> fails for a change that forgets it.
    /// </summary>
    public const int Version = 4;

    private static readonly Sentence Practice = $"common practice";
    private static readonly Sentence Handbook = $"any strength-of-materials handbook";
    private static readonly Sentence Package = $"3MF core 1.4.0, chapter on meshes (from memory)";

    // ── the file ──
    public static readonly Rule MeshRejected = new("mesh.rejected", RuleSubject.File, $"Whether the file can be read as a mesh")
    {
        Stop = $"it cannot",
        Do = $"Upload a file that reads; the sentence says what is wrong with this one.",
        Origin = $"the formats' own specifications",
    };

    public static readonly Rule MeshOpen = new("mesh.open", RuleSubject.File, $"Edges with a triangle on one side only")
    {
        Stop = $"any: it is not clear what is inside",
        Do = $"Close the holes and upload again, or look at the gentle repair.",
        Origin = $"a printable solid needs a closed surface ({Package})",
    };

    public static readonly Rule MeshNonManifold = new("mesh.non-manifold", RuleSubject.File, $"Edges shared by more than two triangles")
    {
        Care = $"any: programs disagree on what is inside there",
        Do = $"Separate the surfaces that touch.",
        Origin = Package,
    };

    public static readonly Rule MeshOrientation = new("mesh.orientation", RuleSubject.File, $"Whether neighbouring triangles of a closed surface face the same way")
    {
        Care = $"they do not",
        Do = $"Make all normals point outward.",
        Origin = Package,
    };

    public static readonly Rule MeshSelfIntersections = new("mesh.self-intersections", RuleSubject.File, $"Pairs of triangles that cross")
    {
        Care = $"any: programs disagree on what is inside there",
        Do = $"Unite the overlapping pieces.",
        Origin = Practice,
    };

    public static readonly Rule MeshInsideOut = new("mesh.inside-out", RuleSubject.File, $"Pieces of the surface that are inside out")
    {
        Care = $"any",
        Do = $"Turn their normals outward.",
        Origin = Package,
    };

    public static readonly Rule MeshUntidy = new("mesh.untidy", RuleSubject.File, $"Triangles without area or there twice")
    {
        Note = $"any: harmless for most printers",
        Do = $"Tidy up when convenient.",
        Origin = Practice,
    };

    public static readonly Rule FileWarning = new("file.warning", RuleSubject.File, $"What had to be guessed while reading, such as the unit")
    {
        Care = $"anything",
        Do = $"State the unit when you upload.",
        Origin = $"an inch file read as millimetres is 25.4 times too small",
    };

    public static readonly Rule InspectionPending = new("inspection.pending", RuleSubject.File, $"Whether the checks have been through")
    {
        Note = $"not yet; the verdict is “unchecked” until then",
        Do = $"Look again in a moment.",
        Origin = $"the queue of inspections",
        LeavesOpen = true,
    };

    public static readonly Rule SmallPart = new("small-part", RuleSubject.File, $"Whether the piece goes entirely into the small-parts cylinder, in any orientation")
    {
        Note = $"it does, or cannot be said not to",
        Do = $"Keep it from children under three.",
        Origin = $"16 CFR 1501.4",
    };

    // ── size ──
    public static readonly Rule FitTooLarge = new("fit.too-large", RuleSubject.Size, $"The most room to spare in the build volume less its margin, over all orientations")
    {
        Stop = $"less than 0: too long in every orientation",
        Do = $"Take a larger printer, or ask the designer for a part that is split.",
        Origin = $"the printer's build volume",
    };

    public static readonly Rule FitTight = new("fit.tight", RuleSubject.Size, $"The same")
    {
        Note = S($"below {FitFindings.TightMm} mm: printers and their margins differ by as much"),
        Do = $"Check your printer's real margins.",
        Origin = Practice,
    };

    public static readonly Rule FitTurn = new("fit.turn", RuleSubject.Size, $"Whether it fits along the axes of its file")
    {
        Note = $"only when turned out of them",
        Do = $"Lay it down as the part's page says.",
        Origin = $"the printer's build volume",
    };

    public static readonly Rule ScaleNotMeasured = new("scale.not-measured", RuleSubject.Size, $"Of a part printed smaller: how thick walls, gaps and limbs are drawn that come to their limits at that size",
        LimitKey.WallFree, LimitKey.WallSupported, LimitKey.Clearance, LimitKey.LimbWidth)
    {
        Care = S($"more than was measured: walls up to {WallMeasures.WallSteps[^1]} mm, gaps up to {GapMeasures.GapSteps[^1]} mm, limbs up to {WallMeasures.LimbSteps[^1]} mm"),
        Do = $"Look at what is fine yourself, or print it larger.",
        Origin = $"what the checks measure",
    };

    // ── walls and gaps ──
    public static readonly Rule WallThin = new("wall.thin", RuleSubject.Walls, $"Thickness of walls held on their sides, by the largest ball that fits inside", LimitKey.WallSupported)
    {
        Stop = S($"thinner than {ThicknessFindings.CertainShare} of the limit over {ThicknessFindings.CertainReach} limits' reach, on a sound surface"),
        Care = S($"thinner than the limit where it reaches {ThicknessFindings.WallReach} limits or more from what holds it"),
        Do = $"Thicken it.",
        Origin = Practice,
    };

    public static readonly Rule WallThinFree = new("wall.thin-free", RuleSubject.Walls, $"The same of fins, rods and other free-standing pieces", LimitKey.WallFree)
    {
        Stop = WallThin.Stop,
        Care = WallThin.Care,
        Do = $"Thicken it.",
        Origin = Practice,
    };

    public static readonly Rule WallEdge = new("wall.edge", RuleSubject.Walls, $"Ridges and blades too short to be walls", LimitKey.WallSupported, LimitKey.WallFree)
    {
        Note = S($"thinner than the limit on {ThicknessFindings.WorthTelling:0} limits squared or more"),
        Do = $"Expect them blunt, or make them thicker.",
        Origin = $"our own bound",
    };

    public static readonly Rule GapNarrow = new("gap.narrow", RuleSubject.Walls, $"Width of gaps between separate pieces of a mesh, and of slots", LimitKey.Clearance)
    {
        Care = S($"between pieces below the limit; of a slot where it is {GapFindings.SlotDepth:0} limits deep and has {GapFindings.SlotAreaMm2:0} mm² of walls"),
        Do = $"Widen the gap if something is to move there, or close it.",
        Origin = Practice,
    };

    public static readonly Rule GapSlot = new("gap.slot", RuleSubject.Walls, $"Width of slots, where pieces stand too close as well", LimitKey.Clearance)
    {
        Care = S($"below the limit where it is {GapFindings.SlotDepth:0} limits deep and has {GapFindings.SlotAreaMm2:0} mm² of walls"),
        Do = $"Widen or close it.",
        Origin = Practice,
    };

    public static readonly Rule GapGroove = new("gap.groove", RuleSubject.Walls, $"Width of shallow grooves, pin holes and engraved lines", LimitKey.Clearance)
    {
        Note = S($"below the limit on {GapFindings.WorthTelling:0} limits squared or more"),
        Do = $"Expect them to fill, or widen them.",
        Origin = $"our own bound",
    };

    // ── holes ──
    public static readonly Rule HoleNarrow = new("hole.narrow", RuleSubject.Holes, $"Diameter of round holes as drawn", LimitKey.HoleDiameter)
    {
        Care = S($"narrower than the limit and not to be opened by hand: narrower than {HoleFindings.LeastOpenedMm} mm, or deeper than {HoleFindings.MostOpenedDepths:0} diameters"),
        Note = $"narrower than the limit, but opened with a drill of its own diameter when it is put together",
        Do = $"Drill or ream it by hand after printing, slowly; where it is too narrow for that, draw it wider.",
        Origin = $"printed holes come out 0.1–0.3 mm small and are reamed by hand (common practice); what a hand drill opens (common practice)",
    };

    public static readonly Rule HoleThinWall = new("hole.thin-wall", RuleSubject.Holes, $"Wall beside a hole that takes a pin", LimitKey.WallSupported)
    {
        Care = S($"thinner than the limit, beside holes up to {HoleFindings.WidestPinMm} mm"),
        Do = $"Move the hole or thicken the part there.",
        Origin = Practice,
    };

    public static readonly Rule HoleThinFloor = new("hole.thin-floor", RuleSubject.Holes, $"Floor of a blind hole", LimitKey.WallSupported)
    {
        Note = $"thinner than the limit",
        Do = $"Push no pin hard against it.",
        Origin = Practice,
    };

    public static readonly Rule HoleRod = new("hole.rod", RuleSubject.Holes, S($"Holes within {HoleFindings.MeantForRodMm} mm of {HoleFindings.UsualRodMm} mm, which the usual rod goes into"))
    {
        Note = $"the rod does not slide in as printed",
        Do = $"Ream or drill to the rod's diameter, by hand.",
        Origin = $"printed holes come out 0.1–0.3 mm small, hinge pins are 1.5 mm rod (common practice); sliding fit 1.5 H7/h6 (ISO 286-2)",
    };

    // ── limbs ──
    public static readonly Rule LimbThin = new("limb.thin", RuleSubject.Limbs, $"Width of limbs and pegs, narrow both ways", LimitKey.LimbWidth)
    {
        Care = S($"narrower than {ThicknessFindings.NarrowLimb} of the limit"),
        Note = $"narrower than the limit",
        Do = $"Thicken it, or print it lying down, slowly.",
        Origin = $"the limit is where limbs print and clean up well, not where they fail (common practice)",
    };

    public static readonly Rule LimbFragile = new("limb.fragile", RuleSubject.Limbs,
        S($"Bending stress in the weakest section of a limb under {LimbFindings.FingerN:0} N at its tip, or in a fall from {LimbFindings.TableM} m, against modulus × least elongation of the material"))
    {
        Care = S($"more than {LimbFindings.CareBeyond} times what the material stands"),
        Note = $"more than the material stands",
        Do = $"Make it as thick as is said, or print it in a material that bends.",
        Origin = S($"σ = F·L·c ÷ I; σ = c·√(6·E·m·g·h ÷ (I·d)) ({Handbook}); asked of materials that break below {LimbFindings.BrittleBelowPercent:0} % (common practice)"),
    };

    // ── as the file lies ──
    public static readonly Rule OverhangArea = new("overhang.area", RuleSubject.Pose, $"Surface that hangs over more than the limit from the vertical, less what bridges", LimitKey.OverhangAngle, LimitKey.BridgeLength)
    {
        Note = S($"{OverhangFindings.WorthTellingMm2:0} mm² or more"),
        Do = $"Turn the part, or plan for supports and their marks.",
        Origin = $"the file's pose is often not the one printed in, so it is never more than a note",
    };

    public static readonly Rule OverhangBridge = new("overhang.bridge", RuleSubject.Pose, $"Longest span of an underside held on both sides", LimitKey.BridgeLength)
    {
        Note = $"longer than the limit",
        Do = $"Turn the part, or support the middle.",
        Origin = $"as above",
    };

    public static readonly Rule OverhangIsland = new("overhang.island", RuleSubject.Pose, $"Places that start in mid-air", LimitKey.LayerHeightMax)
    {
        Note = $"any that rises more than the thickest layer, or than your printer's layer where you said it",
        Do = $"Support it or turn the part.",
        Origin = Practice,
        Categories = ["MEX", "VPP"],
    };

    // ── hollows ──
    public static readonly Rule LiquidSealed = new("liquid.sealed", RuleSubject.Hollows, $"Voids closed on all sides")
    {
        Care = $"any",
        Do = $"Open it where is said, or fill it.",
        Origin = Practice,
        Categories = ["VPP", "PBF"],
    };

    public static readonly Rule LiquidDrain = new("liquid.drain", RuleSubject.Hollows, $"Widest way out of a hollow", LimitKey.DrainDiameter)
    {
        Care = S($"narrower than {LiquidFindings.Facets} of the limit, on {LiquidFindings.ShakenOutMm3:0} mm³ or more"),
        Note = $"the same on less, which a shake or a rinse empties",
        Do = $"Open it where is said.",
        Origin = $"a round hole of flat facets is narrower than its name; our own bounds",
        Categories = ["VPP", "PBF"],
    };

    public static readonly Rule LiquidVent = new("liquid.vent", RuleSubject.Hollows, $"Ways out of a hollow that are wide enough", LimitKey.DrainCount, LimitKey.DrainDiameter)
    {
        Care = S($"fewer than the limit, on {LiquidFindings.OneWayMm3:0} mm³ or more"),
        Note = $"the same on less, where air and liquid take turns",
        Do = $"Open a second way at its other end.",
        Origin = $"our own bound",
        Categories = ["VPP", "PBF"],
    };

    public static readonly Rule LiquidPool = new("liquid.pool", RuleSubject.Hollows, $"Liquid that stays in hollows open toward the platform, as the file lies")
    {
        Note = S($"{LiquidFindings.WorthTellingMm3:0} mm³ or more"),
        Do = $"Turn the part, or drill where is said.",
        Origin = $"common practice; our own bound",
        Categories = ["VPP"],
    };

    public static readonly Rule LiquidSuction = new("liquid.suction", RuleSubject.Hollows, $"Area that the film seals off, layer after layer, as the file lies")
    {
        Note = S($"{LiquidFindings.WorthTellingMm2:0} mm² or more"),
        Do = $"Turn the part, or let air in where is said.",
        Origin = $"separation force: Polymers 2023, 15, 2716; our own bound",
        Categories = ["VPP"],
    };

    // ── fine relief ──
    public static readonly Rule DetailLost = new("detail.lost", RuleSubject.Relief, $"Height of steps and width of ridges", LimitKey.DetailHeight, LimitKey.DetailWidth)
    {
        Note = S($"{DetailFindings.WorthTellingMm:0} mm or more of them below the limit, or below your printer's layer or line where you said it and that is more"),
        Do = $"Raise or widen them, or expect a plainer surface.",
        Origin = $"the part prints and works without them; our own bound",
    };

    public static readonly Rule DetailClosed = new("detail.closed", RuleSubject.Relief, $"Width of grooves", LimitKey.DetailWidth)
    {
        Note = S($"{DetailFindings.WorthTellingMm:0} mm or more of them below the limit, or below your printer's line where you said it and that is more"),
        Do = $"Widen them, or cut them after printing.",
        Origin = $"our own bound",
    };

    // ── joints ──
    public static readonly Rule JointStrain = new("joint.strain", RuleSubject.Joints,
        $"Strain of a socket over its ball, of a hole over a pressed peg, or of a retracting part over its seat, against the middle of the material's elongation")
    {
        Stop = S($"more than {JointMechanics.MostShareOfStrain} of it"),
        Care = S($"more than {JointMechanics.UsualShareOfStrain} of it"),
        Note = $"within it",
        Do = $"Change the dimension the sentence names, or print that part in a material that bends.",
        Origin = S($"(ball Ø − mouth Ø) ÷ mouth Ø; thickness ÷ seat Ø ({Handbook}); at most 0.5 to 0.7 of what the material survives (common practice)"),
    };

    public static readonly Rule JointLoose = new("joint.loose", RuleSubject.Joints, $"Hold of a mouth over its ball; play of a plug in its sleeve")
    {
        Stop = $"the mouth is as wide as the ball",
        Care = S($"a plug that has more than {JointMechanics.MostGluedPlayMm} mm of play"),
        Do = $"Make the mouth narrower; the plug thicker.",
        Origin = Practice,
    };

    public static readonly Rule JointTight = new("joint.tight", RuleSubject.Joints, $"Play of a plug, ball or peg, less what the process may miss on both", LimitKey.Accuracy)
    {
        Stop = $"drawn without any play",
        Care = $"what the process may miss can take all of it",
        Do = $"Leave the clearance; sand until it goes in.",
        Origin = $"review PMC9247992, table 1",
    };

    public static readonly Rule JointPlay = new("joint.play", RuleSubject.Joints, $"The same", LimitKey.Accuracy)
    {
        Note = $"some is left: it goes together",
        Do = $"Nothing.",
        Origin = $"review PMC9247992, table 1",
    };

    public static readonly Rule JointShort = new("joint.short", RuleSubject.Joints, $"Length of a glued plug by its diameter")
    {
        Note = S($"less than {JointMechanics.LeastPlugShare}"),
        Do = $"Hold it straight until the glue has set.",
        Origin = Practice,
    };

    public static readonly Rule JointGrip = new("joint.grip", RuleSubject.Joints, $"The same")
    {
        Note = $"enough",
        Do = $"Nothing.",
        Origin = Practice,
    };

    public static readonly Rule JointPin = new("joint.pin", RuleSubject.Joints, $"The hinge's hole as drawn against its rod")
    {
        Care = S($"drawn more than {JointMechanics.FacetsMm} mm narrower than the rod: much has to be drilled away"),
        Note = $"drawn as wide as the rod or wider: whatever is left to ream is part of putting it together",
        Do = $"Ream or drill to the rod's diameter, by hand; draw the hole at least as wide as the rod.",
        Origin = S($"printed holes come out {RodPassage.LeastShrinkMm}–{RodPassage.MostShrinkMm} mm small, ream by hand (common practice); sliding fit H7/h6 (ISO 286-2)"),
    };

    public static readonly Rule JointUnknown = new("joint.unknown", RuleSubject.Joints, $"Whether the dimensions are given that a joint has to stretch or bend by")
    {
        Note = $"one is missing; the verdict is “unchecked” until it is given",
        Do = $"Give the dimension with the joint; until then print its two parts first and try.",
        Origin = $"what the designer gave",
        LeavesOpen = true,
    };

    // ── how it is built, and what came of it ──
    public static readonly Rule NoVariant = new("process.no-variant", RuleSubject.Build, $"Whether the part has a file made for the process")
    {
        Stop = $"it has none",
        Do = $"Print that part on another process, or ask the designer for a variant.",
        Origin = $"what the designer declared",
    };

    public static readonly Rule ReportsFailed = new("reports.failed", RuleSubject.Prints, $"Share of reported prints of this very revision on this process that failed, with its 95 % interval")
    {
        Care = S($"{FailureShare.FewestReports} reports or more, and the interval's lower end is above {100 * FailureShare.CareAbove:0} %"),
        Note = $"any failure short of that",
        Do = $"Read what happened; a designer answers with a new revision.",
        Origin = $"Wilson score interval (Wilson 1927, from memory); bounds our own: one failure in sixty accuses nobody",
    };

    /// <summary>All of them, in the order of the table.</summary>
    public static IReadOnlyList<Rule> All { get; } =
    [
        MeshRejected, MeshOpen, MeshNonManifold, MeshOrientation, MeshSelfIntersections, MeshInsideOut, MeshUntidy, FileWarning, InspectionPending, SmallPart,
        FitTooLarge, FitTight, FitTurn, ScaleNotMeasured,
        WallThin, WallThinFree, WallEdge, GapNarrow, GapSlot, GapGroove,
        HoleNarrow, HoleThinWall, HoleThinFloor, HoleRod,
        LimbThin, LimbFragile,
        OverhangArea, OverhangBridge, OverhangIsland,
        LiquidSealed, LiquidDrain, LiquidVent, LiquidPool, LiquidSuction,
        DetailLost, DetailClosed,
        JointStrain, JointLoose, JointTight, JointPlay, JointShort, JointGrip, JointPin, JointUnknown,
        NoVariant, ReportsFailed,
    ];

    private static readonly FrozenDictionary<string, Rule> ByCode = All.ToFrozenDictionary(r => r.Code);

    /// <summary>The rule of a code; null for a code of an earlier version that is still stored somewhere.</summary>
    public static Rule? Of(string code) => ByCode.GetValueOrDefault(code);
}
