using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The girl in the wind. Cases: a coat too large for a small printer along any axis that fits askew, a bowl of an umbrella, a torn draft.</summary>
internal static class NellGale
{
    private static readonly FilePose Canopy = FilePose.Upright(NellGaleShapes.CanopyTop);

    public static DemoFigure Figure() => new()
    {
        Slug = "nell-gale",
        Title = "Nell Gale",
        Summary = "Leans into a wind only she can feel; the audience hold their hats all the same.",
        Tags = ["sailor", "stage"],
        Story = """
            **Nell Gale** enters against the wind. There is no wind; there is a boy with a tin sheet in the wings. But in forty seasons nobody in the
            first three rows has failed to turn up a collar.

            She is hung from a single rod through the hips and balanced so finely that a breath does move her. The mechanic called it his only
            honest trick.
            """,
        Painting = """
            - **Oilskins:** mustard, two glazes of burnt sienna, highlights almost lemon along the flying tails.
            - **Boots:** black, with a wet gloss only below the ankle.
            - **Umbrella:** eight panels in two reds, or whatever was on sale.
            - **Face:** nose and cheeks redder than you dare.
            """,
        Licence = "CC-BY-4.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Hester Brackwater", "umbrella"), new("Odd Pettersen", "orientation trials")],
        ReferenceNote = "Drawn from the stage sketch of her entrance; the figure's stance is the sketch's to the degree.",
        Cautions =
        [
            "The coat is saved in her stance, leaning off to one side: it is larger than 63.5 mm along every axis of its file. Turned along its length it fits a small printer well.",
            "Ends of the umbrella's shaft are sharp: round them over, and mind your eyes when cutting.",
            "The winding key and the crook fit in the small-parts cylinder: not for children under three.",
        ],
        Parts =
        [
            Part("coat", "Oilskin coat", "Torso and flying coat-tails in one piece, in the stance of the figure.",
                FilePose.Upright(NellGaleShapes.CoatMiddle), EveryRigid, NellGaleShapes.Coat, "First release. Saved in her stance, so that nobody glues her upright.", 100),
            Part("head", "Head", "Face, sou'wester and the hair that got out.",
                FilePose.Upright(NellGaleShapes.HeadMiddle), EveryRigid, NellGaleShapes.Head, "First release.", 100),
            Part("left-arm", "Left arm", "Holds the umbrella; the fist is bored for its shaft.",
                FilePose.Upright(NellGaleShapes.Grip), EveryRigid, () => NellGaleShapes.Arm(left: true), "First release.", 100),
            Part("right-arm", "Right arm", "Holds on to the hat.",
                FilePose.Upright(new(-32, -14, 88)), EveryRigid, () => NellGaleShapes.Arm(left: false), "First release.", 100),
            Part("left-boot", "Left boot", "Leg and wading boot, stepping forward.",
                FilePose.Upright(new(12, -4, 2.6)), EveryRigid, () => NellGaleShapes.Boot(left: true), "First release.", 100),
            Part("right-boot", "Right boot", "Leg and wading boot, pushing off.",
                FilePose.Upright(new(-12, 4, 2.6)), EveryRigid, () => NellGaleShapes.Boot(left: false), "First release.", 100),
            Part("canopy", "Umbrella canopy", "Dome of 1.3 mm with eight ribs. A bowl, if you print it the wrong way up.", [Canopy.Assembled],
                Variant("standard", "Standard", EveryRigid,
                    Revision(1, "First release.", 100, Canopy, NellGaleShapes.Canopy),
                    TornDraft(2, "Trial: lighter scallops. The export lost part of the cloth; redo before publishing.", 2, Canopy, NellGaleShapes.Canopy, NellGaleShapes.CanopyTop + new Vec3(9, -9, -5), 6))),
            Part("crook", "Crook", "Handle below the fist, bored for the shaft.",
                FilePose.Upright(NellGaleShapes.Grip), EveryRigid, NellGaleShapes.Crook, "First release.", 100),
            Part("cobbles", "Cobbles", "Oval of wet paving that holds both boots by a peg.",
                FilePose.Upright(Vec3.Zero), EveryRigid, NellGaleShapes.Cobbles, "First release.", 100, ContourSettings.Rough),
            WindingKey(NellGaleShapes.KeyPlace, NellGaleShapes.KeyDirection, 0, "Winds the shiver."),
        ],
        Joints =
        [
            Pinned("left-hip", "Left hip", "coat", "left-boot", Kit.PinHoleMm, 26, "hip-rod"),
            Pinned("right-hip", "Right hip", "coat", "right-boot", Kit.PinHoleMm, 26, "hip-rod"),
            Stuck("left-sole", "Left sole", "cobbles", "left-boot", 3, 3.2, 3.6, "glue"),
            Stuck("right-sole", "Right sole", "cobbles", "right-boot", 3, 3.2, 3.6, "glue"),
            Pressed("neck", "Neck", "coat", "head", 5, 5.2, 5),
            Stuck("left-shoulder", "Left shoulder", "coat", "left-arm", 3.5, 3.7, 5, "glue"),
            Stuck("right-shoulder", "Right shoulder", "coat", "right-arm", 3.5, 3.7, 5, "glue"),
            Pinned("shaft-in-canopy", "Shaft in canopy", "canopy", "left-arm", Kit.PinHoleMm, 52, "umbrella-shaft"),
            Pinned("shaft-in-crook", "Shaft in crook", "crook", "left-arm", Kit.PinHoleMm, 52, "umbrella-shaft"),
            Pressed("key", "Key in the back", "coat", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware = [Rod("hip-rod", "Hip rod, through both legs", 1, 26), Rod("umbrella-shaft", "Umbrella shaft", 1, 52), Glue(), Reamer()],
        Steps =
        [
            new() { Number = 1, Title = "Plant the boots", Parts = ["cobbles", "left-boot", "right-boot"], Hardware = ["glue"], Text = "Left boot forward. Do not glue yet." },
            new() { Number = 2, Title = "Hang her on the rod", Parts = ["coat", "left-boot", "right-boot"], Hardware = ["hip-rod", "hand-drill"], Text = "Ream hips and tongues, slide the rod through, let her find her lean. Glue the soles, then the rod." },
            new() { Number = 3, Title = "Umbrella", Parts = ["left-arm", "canopy", "crook"], Hardware = ["umbrella-shaft", "glue"], Text = "Shaft through the fist first, crook on its lower end, canopy on top. 6 mm of rod go into each." },
            new() { Number = 4, Title = "Arms and head", Parts = ["coat", "left-arm", "right-arm", "head"], Hardware = ["glue"], Text = "Set the head before the right arm: the hand holds the brim." },
            new() { Number = 5, Title = "Wind her up", Parts = ["winding-key"], Text = "Key between the shoulder blades." },
        ],
        Reports =
        [
            Report("coat", "standard", 1, VppRigid, Failed, "does-not-fit-printer", "printing", 88, "harbourlight", new("rigid resin", 0.05, SmallResin, "as in the file", "medium"), "Seven millimetres too wide for my plate whichever face I put down."),
            Report("coat", "standard", 1, VppRigid, Worked, null, null, 71, "Marguerite D.", new("rigid resin", 0.05, SmallResin, "along its length, tilted", "medium"), "Turn it so that the tails point straight up. Fits with room to spare on the same small printer."),
            Report("coat", "standard", 1, VppRigid, Worked, null, null, 49, "tidepool", new("rigid resin", 0.05, SmallResin, "along its length", "medium"), "Thanks for the hint, worked."),
            Report("coat", "standard", 1, MexRigid, Worked, null, null, 66, "two-left-boots", new("PETG", 0.16, DeskFilament, "on its back", "everywhere"), "Lots of support, came out well."),
            Report("coat", "standard", 1, MexRigid, WorkedWithCare, "support-scars", "cleaning", 39, "Anselm", new("PLA", 0.2, DeskFilament, "as in the file", "everywhere"), "Underside of the tails is a ploughed field."),
            Report("canopy", "standard", 1, VppRigid, WorkedWithCare, "came-loose", "printing", 71, "Marguerite D.", new("rigid resin", 0.05, SmallResin, "open side to the film", "medium"), "Suction cup. Came off the plate, second try on edge was fine."),
            Report("canopy", "standard", 1, VppRigid, Failed, "came-loose", "printing", 55, "pim", new("rigid resin", 0.05, SmallResin, "flat", "light"), "Heard it let go at layer 300."),
            Report("canopy", "standard", 1, VppRigid, Worked, null, null, 49, "tidepool", new("rigid resin", 0.05, SmallResin, "on edge, 60°", "medium"), "On edge, no trouble."),
            Report("canopy", "standard", 1, MexRigid, Worked, null, null, 66, "two-left-boots", new("PETG", 0.12, DeskFilament, "dome up", "inside"), "Ok with supports inside."),
            Report("left-boot", "standard", 1, VppRigid, WorkedWithCare, "too-tight", "assembly", 71, "Marguerite D.", new("rigid resin", 0.05, SmallResin, "tilted", "light"), "Peg needed a little sanding."),
            Report("crook", "standard", 1, VppRigid, Failed, "snapped", "use", 20, "Lene", new("rigid resin", 0.05, SmallResin, "lying", "light"), "The hook caught in a sleeve. Mine."),
        ],
    };
}
