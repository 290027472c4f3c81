using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The lighthouse lady. Cases: a choice of a lit or a plain front, courses of stone too shallow for filament, a gown open below.</summary>
internal static class DorotheaBeacon
{
    private const string Front = "front";
    private static readonly FilePose Door = FilePose.Upright(DorotheaBeaconShapes.FrontMiddle);

    public static DemoFigure Figure() => new()
    {
        Slug = "dorothea-beacon",
        Title = "Dame Dorothea Beacon",
        Summary = "Director of the troupe: a lighthouse in a bodice, with a lantern room for a hat.",
        Tags = ["stage", "musician", "light inside"],
        Story = """
            **Dame Dorothea Beacon** was keeper of a light that was moved inland by a committee. She took the lantern room with her, wears it, and
            has directed the Half-Tide Players ever since: she stands where everyone can see her, and she sees who has missed a cue.

            By day her door is a plank door with an anchor on it. For evening performances the other door is hung, and there is a light in it.
            """,
        Painting = """
            - **Gown:** whitewash. Two coats off-white, then grey wash into the joints between the stones. One red band, third course from the top.
            - **Door:** harbour green; brass anchor. The lit front is best in warm grey, so that the light does the talking.
            - **Lantern:** dome in red lead, rail black, lens in gloss varnish over pale yellow.
            - **Face:** weather. Rose cheeks, no powder, one eyebrow higher than the other.
            """,
        Licence = "CC-BY-NC-SA-4.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Kit Polperro", "wiring"), new("Old Light Society", "measured drawing of the lantern room")],
        ReferenceNote = "The lantern room is measured; the gown follows the poster of the third season. Nobody remembers the back: the two windows are ours.",
        Cautions =
        [
            "The lit front uses a coin cell. Close its holder with the screw: a swallowed coin cell burns through tissue within two hours. Keep cells away from children.",
            "The winding key fits in the small-parts cylinder: not for children under three.",
            "Courses of stone are 0.4 mm high: resin shows them, most filament printers do not.",
        ],
        Choices = [new(Front, "Front of the gown", "plain-front")],
        Parts =
        [
            Part("rock", "Rock", "Base with limpets; a hole of 10 mm from below for the wires.",
                FilePose.Upright(new(0, 0, 0)), EveryRigid, DorotheaBeaconShapes.Rock, "First release.", 160, ContourSettings.Broad),
            Part("gown", "Gown", "The tower: walls of 3.2 mm, open below, courses of stone raised 0.4 mm.",
                FilePose.Upright(new(0, 0, DorotheaBeaconShapes.GownFoot)), EveryRigid, DorotheaBeaconShapes.Gown, "First release.", 160),
            Part("plain-front", "Plain front", "Plank door with an anchor.", Door, EveryRigid, DorotheaBeaconShapes.PlainFront, "First release.", 160, ContourSettings.Thin) with
            {
                Role = ChoiceMember, Choice = Front,
            },
            Part("lit-front", "Lit front", "Six open panes and a seat for a 5 mm lamp.", Door, EveryRigid, DorotheaBeaconShapes.LitFront, "First release.", 150) with
            {
                Role = ChoiceMember, Choice = Front,
            },
            Part("bodice", "Bodice", "Puffed sleeves, lace at the waist, holes for arms, head and key.",
                FilePose.Upright(new(0, 0, 59)), EveryRigid, DorotheaBeaconShapes.Bodice, "First release.", 160),
            Part("left-arm", "Left arm", "Holds a folded fan.",
                FilePose.Lying(new(1, 0, 0), new(20, -5, 60)), EveryRigid, () => DorotheaBeaconShapes.Arm(left: true), "First release.", 160),
            Part("right-arm", "Right arm", "Shades the eyes that look for sails.",
                FilePose.Lying(new(0, 1, 0), new(-22, -5, 80)), EveryRigid, () => DorotheaBeaconShapes.Arm(left: false), "First release.", 160),
            Part("head", "Head", "Face, curls, bun and earrings.",
                FilePose.Upright(new(0, 0, 78)), EveryRigid, DorotheaBeaconShapes.Head, "First release.", 160),
            Part("lantern-hat", "Lantern hat", "Gallery, glazing bars of 1.5 mm around the lens, dome.",
                FilePose.Upright(DorotheaBeaconShapes.Crown), EveryRigid, DorotheaBeaconShapes.LanternHat, "First release.", 160),
            WindingKey(DorotheaBeaconShapes.KeyPlace, Kit.Back, 0, "Winds the head, slowly, all the way round."),
        ],
        Joints =
        [
            Stuck("gown-on-rock", "Gown on rock", "gown", "rock", 29.2, 29.6, 4.4, "glue"),
            Stuck("front-in-gown", "Plain front in its doorway", "gown", "plain-front", 14, 14.24, 3.4, "glue"),
            Pressed("lit-front-in-gown", "Lit front in its doorway", "gown", "lit-front", 14, 14.24, 3.4),
            Stuck("waist", "Waist", "gown", "bodice", 7, 7.2, 5, "glue"),
            Pressed("neck", "Neck", "bodice", "head", 5, 5.2, 5),
            Stuck("left-shoulder", "Left shoulder", "bodice", "left-arm", 3.5, 3.7, 5, "glue"),
            Stuck("right-shoulder", "Right shoulder", "bodice", "right-arm", 3.5, 3.7, 5, "glue"),
            Pressed("hat", "Hat", "head", "lantern-hat", 5, 5.2, 3),
            Pressed("key", "Key in the back", "bodice", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware =
        [
            Glue(),
            new() { Slug = "lamp", Kind = "light", Name = "Warm white lamp, 5 mm, with wires", Quantity = 1, Size = "Ø 5 mm, 3 V", DiameterMm = 5, ForPart = "lit-front", Substitutes = "A flickering candle lamp of the same size.", Caution = "With anything above 3 V use a resistor." },
            new() { Slug = "cell-holder", Kind = "light", Name = "Coin cell holder with switch and screwed lid", Quantity = 1, Size = "for one 20 mm cell", ForPart = "lit-front", Caution = "Only a holder that needs a tool to open: coin cells are dangerous when swallowed." },
            new() { Slug = "lid-screw", Kind = "screw", Name = "Screw for the holder's lid", Quantity = 1, Size = "M2 × 6", DiameterMm = 2, ForPart = "lit-front" },
            new() { Slug = "tracing-paper", Kind = "other", Name = "Tracing paper for the panes", Quantity = 1, Size = "20 × 35 mm", ForPart = "lit-front", Substitutes = "Greaseproof paper." },
        ],
        Steps =
        [
            new() { Number = 1, Title = "Hang the plain door", Parts = ["gown", "plain-front"], Hardware = ["glue"], ForPart = "plain-front", Text = "From outside, one drop at each hinge. It sits flush with the wall, not with the stones." },
            new() { Number = 2, Title = "Light the evening door", Parts = ["gown", "lit-front"], Hardware = ["lamp", "tracing-paper"], ForPart = "lit-front", Text = "Glue the paper behind the panes, push the lamp into its seat from inside, lead the wires down through the rock. Do not glue the front: lamps die." },
            new() { Number = 3, Title = "Fit the cell", Parts = ["rock"], Hardware = ["cell-holder", "lid-screw"], ForPart = "lit-front", Text = "The holder sits in the hollow under the gown. Close its lid with the screw, always." },
            new() { Number = 4, Title = "Gown on rock", Parts = ["gown", "rock"], Hardware = ["glue"], Text = "The boss of the rock goes into the gown. With the lit front leave it unglued: this is how you get at the switch." },
            new() { Number = 5, Title = "Dress her", Parts = ["bodice", "left-arm", "right-arm"], Hardware = ["glue"], Text = "Bodice on gown, brooch above the door. Arms glued: fan hanging, hand at the brow." },
            new() { Number = 6, Title = "Head and hat", Parts = ["head", "lantern-hat", "winding-key"], Text = "Both turn. She looks at whoever came late." },
        ],
        Reports =
        [
            Report("gown", "standard", 1, MexRigid, WorkedWithCare, "detail-lost", "printing", 131, "old-slipway", new("PLA", 0.2, DeskFilament, "standing", "none"), "Stones nearly invisible on the flanks, stair steps instead. Looks like a bucket."),
            Report("gown", "standard", 1, MexRigid, WorkedWithCare, "detail-lost", "printing", 102, "Anselm", new("PLA", 0.12, DeskFilament, "standing", "none"), "At 0.12 you can feel the stones but not see them. Needs 1 mm."),
            Report("gown", "standard", 1, MexRigid, Worked, null, null, 80, "two-left-boots", new("PETG", 0.16, DeskFilament, "standing", "none"), "Solid. I filed the joints deeper myself."),
            Report("gown", "standard", 1, VppRigid, Worked, null, null, 90, "Marguerite D.", new("rigid resin", 0.05, SmallResin, "upside down, tilted 15°", "medium, on the foot"), "Every stone there."),
            Report("gown", "standard", 1, VppRigid, WorkedWithCare, "trapped-liquid", "printing", 61, "pim", new("rigid resin", 0.05, SmallResin, "standing as filed", "none"), "Printed foot down: the gown is a cup, sucked like a boot in mud. Upside down is better."),
            Report("lantern-hat", "standard", 1, MexRigid, Failed, "snapped", "cleaning", 99, "Anselm", new("PLA", 0.12, DeskFilament, "standing", "inside the lantern"), "Supports inside the lantern took three of eight bars with them."),
            Report("lantern-hat", "standard", 1, MexRigid, Failed, "snapped", "cleaning", 80, "two-left-boots", new("PETG", 0.16, DeskFilament, "standing", "inside the lantern"), "Rail gone. Bars gone. It is a cap now."),
            Report("lantern-hat", "standard", 1, VppRigid, Worked, null, null, 90, "Marguerite D.", new("rigid resin", 0.05, SmallResin, "tilted 20°", "light"), "Jewel."),
            Report("lantern-hat", "standard", 1, VppRigid, WorkedWithCare, "support-scars", "cleaning", 61, "pim", new("rigid resin", 0.05, SmallResin, "standing", "medium"), "Some supports inside cannot be reached with cutters. Left them, look like glazing."),
            Report("lit-front", "standard", 1, VppRigid, Worked, null, null, 52, "Kit P.", new("rigid resin", 0.05, MiddleResin, "lying", "light"), "Lamp is a push fit. Dame Dorothea is lit."),
            Report("lit-front", "standard", 1, MexRigid, WorkedWithCare, "too-tight", "assembly", 47, "ferryman", new("PLA", 0.16, SmallFilament, "standing", "none"), "Lamp seat needed a 5 mm drill."),
            Report("plain-front", "standard", 1, MexRigid, Worked, null, null, 80, "two-left-boots", new("PETG", 0.16, DeskFilament, "lying on its back", "none"), "Fits the doorway after a stroke of the file."),
            Report("left-arm", "standard", 1, VppRigid, Failed, "snapped", "use", 36, "Lene", new("rigid resin", 0.05, SmallResin, "tilted 30°", "light"), "The fan. Of course the fan."),
        ],
    };
}
