namespace Catalogue.Web.Tests.Demo;

/// <summary>One cell of the demo's matrix as it has to be.</summary>
/// <param name="Deciding">Part and code of every finding that makes the verdict, in the order of the alphabet.</param>
/// <param name="Because">The working by hand, from what the figure was made to show (<c>src/Catalogue.Demo/README.md</c>), its dimensions and the built-in limits.</param>
internal sealed record DemoCell(string Figure, string Process, string Verdict, string Deciding, string Because);

/// <summary>All cells, worked out by hand.</summary>
internal static class DemoCells
{
    private const string OlafsParts = "body drum-shell drum-skin fez head left-arm right-arm tusk winding-key";
    private const string Rod = "the right hip is drawn at 1.35 mm for a rod of 1.5 mm";

    public static IReadOnlyList<DemoCell> All { get; } =
    [
        new("big-drum-olaf", "MEX-rigid", "care", "drum-shell: joint.tight", "skins of 40.8 in a ledge of 41.2 mm: 0.4 of play; 0.5 % of 82 mm is 0.41, more than all of it"),
        .. NotMade("big-drum-olaf", "made for filament only", OlafsParts, "MEX-flexible", "VPP-tough", "VPP-flexible", "PBF-rigid"),
        new("big-drum-olaf", "VPP-rigid", "unsuited", "body: joint.strain; " + NoFile(OlafsParts), "made for filament only; his balls, joined alike everywhere, would strain 3.24 %, more than 0.7 of the 4 % that rigid resin survives"),

        new("bosun-grip", "MEX-rigid", "care", "carapace: hole.thin-wall; left-leg: limb.fragile; right-leg: limb.fragile",
            "the hip hole of 1.7 mm leaves the shell at a slant, half a millimetre below it, less than 0.8; idle legs of 2.8 mm break in what is brittle; balls strain (7 − 6.78) ÷ 6.78 = 3.2 %, under 0.6 of 5.5 %"),
        new("bosun-grip", "VPP-rigid", "care", "carapace: hole.thin-wall; left-leg: limb.fragile; right-leg: limb.fragile", "the same hole, less than 0.5; legs of 2.8 mm are brittle; sleeves of 5.8 in 6 mm go together"),
        new("bosun-grip", "VPP-tough", "care", "carapace: hole.thin-wall", "the same hole; tough resin bends before it breaks"),
        new("bosun-grip", "PBF-rigid", "unchecked", "carapace: joint.unknown", "nobody has measured the mouths after tumbling; without them it would be care for the same hole"),
        .. NotMade("bosun-grip", "no rigid part is made for what is flexible", "carapace eye-stalk left-claw left-leg moustache right-claw right-leg winding-key", "MEX-flexible", "VPP-flexible"),

        new("dorothea-beacon", "MEX-rigid", "care", "gown: limb.thin; head: limb.thin; lantern-hat: limb.thin",
            "below 0.4 of 5 mm: window frames of 1.8 mm that stand 1.2 mm off the tower at their sides, curls and earrings, glazing bars of 1.5 mm"),
        new("dorothea-beacon", "VPP-rigid", "suits", "", "walls of 3.2 mm, all parts smaller than the volume; limbs have no least width in resin; the gown is open below"),
        new("dorothea-beacon", "VPP-tough", "suits", "", "as in rigid resin"),
        new("dorothea-beacon", "PBF-rigid", "suits", "", "no least width of limbs, no walls below 0.7 mm"),
        .. NotMade("dorothea-beacon", "no part is made for what is flexible", "bodice gown head lantern-hat left-arm plain-front right-arm rock winding-key", "MEX-flexible", "VPP-flexible"),

        new("fathom-joe", "MEX-rigid", "care", "aerial: hole.thin-wall; suit: joint.pin", $"the foot for a wire: its hole of 1.1 mm ends where the peg of 2.5 mm begins, (2.5 − 1.1) ÷ 2 = 0.7 < 0.8 mm of wall; {Rod}"),
        new("fathom-joe", "VPP-rigid", "care", "aerial: limb.fragile; aerial: reports.failed; suit: joint.pin", $"a whip of 1 mm, 17 mm long; 9 of 14 snapped; {Rod}"),
        new("fathom-joe", "VPP-tough", "care", "suit: joint.pin", $"the whip bends; {Rod}"),
        new("fathom-joe", "PBF-rigid", "care", "aerial: limb.fragile; suit: joint.pin", $"the whip of 1 mm; {Rod}"),
        .. NotMade("fathom-joe", "no part is made for what is flexible", "aerial helmet left-arm left-leg right-arm right-leg speaking-trumpet suit winding-key", "MEX-flexible", "VPP-flexible"),

        new("lady-plume", "VPP-rigid", "care", "left-arm: limb.fragile; right-arm: limb.fragile; tentacle: limb.fragile; tentacle: reports.failed",
            "arms of 2.6 mm, tentacles of 1.5 mm and 72 mm long: twigs in what is brittle; 3 of 4 reported ones failed, from 30 % (Wilson, 95 %), above 20"),
        new("lady-plume", "VPP-tough", "suits", "", "the same limbs bend"),
        new("lady-plume", "VPP-flexible", "unsuited", NoFile("bell dancer tutu wave"), "only limbs and ribbons are made for flexible resin; her key is an accessory"),
        .. NotMade("lady-plume", "made for resin only", "bell dancer left-arm ribbon right-arm tentacle tutu wave", "MEX-rigid", "MEX-flexible", "PBF-rigid"),

        new("mister-periwinkle", "MEX-rigid", "suits", "", "the sliding arm bends 2.4 ÷ (2 × 38) = 3.16 %, under 0.6 of the 5.5 % that filament survives"),
        new("mister-periwinkle", "VPP-rigid", "unsuited", "body: joint.strain; sliding-arm: process.no-variant", "rigid resin survives 4 %, and 3.16 is more than 0.7 of it; no such arm is made for it either"),
        .. NotMade("mister-periwinkle", "the arm is made for what bends only", "sliding-arm", "VPP-tough", "PBF-rigid"),
        .. NotMade("mister-periwinkle", "only the arm is made for what is flexible", "body cap head left-arm shell winding-key", "MEX-flexible", "VPP-flexible"),

        new("nell-gale", "MEX-rigid", "suits", "", "the coat is too large along its file's axes and fits when turned; nothing thinner than 0.8 mm"),
        new("nell-gale", "VPP-rigid", "suits", "", "as in filament; a canopy of 1.3 mm is thicker than the 1 mm of free walls"),
        new("nell-gale", "VPP-tough", "suits", "", "as in rigid resin"),
        new("nell-gale", "PBF-rigid", "suits", "", "as in filament"),
        .. NotMade("nell-gale", "no part is made for what is flexible", "canopy coat cobbles crook head left-arm left-boot right-arm right-boot winding-key", "MEX-flexible", "VPP-flexible"),

        .. new[] { "MEX-rigid", "VPP-rigid", "VPP-tough", "PBF-rigid" }.Select(p =>
            new DemoCell("octavia-squeeze", p, "unsuited", "skirt: fit.too-large", "a skirt of 131 × 146 mm goes into no box of 63.5 × 114.3 × 152.4 mm, however it is turned")),
        .. NotMade("octavia-squeeze", "only the bellows are made for what is flexible", "boater bodice concertina-end left-arm mantle right-arm skirt winding-key", "MEX-flexible", "VPP-flexible"),
    ];

    private static IEnumerable<DemoCell> NotMade(string figure, string because, string parts, params string[] processes) =>
        processes.Select(p => new DemoCell(figure, p, "unsuited", NoFile(parts), because));

    private static string NoFile(string parts) => string.Join("; ", parts.Split(' ').Select(p => $"{p}: process.no-variant"));
}
