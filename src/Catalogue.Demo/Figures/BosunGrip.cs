using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The crab. Cases: pop-in balls in filament and plug-in sleeves in resin for the same parts, stripes too shallow for filament, a mouth nobody has measured.</summary>
internal static class BosunGrip
{
    private const string Tumbled = "Powder parts come back tumbled, which takes the edge off the mouth. How wide it is then, nobody has measured yet.";

    private static readonly FilePose Shell = FilePose.Upright(new(0, 1, 35));
    private static readonly FilePose LeftClaw = FilePose.Lying(new(0, -1, 0), new(42, -8, 62));
    private static readonly FilePose RightClaw = FilePose.Lying(new(0, -1, 0), new(-42, -8, 62));
    private static readonly FilePose Eye = FilePose.Upright(BosunGripShapes.EyeFoot);

    public static DemoFigure Figure() => new()
    {
        Slug = "bosun-grip",
        Title = "Bosun Grip",
        Summary = "The strongest crab between two tides, in a striped bathing suit, with a moustache to match.",
        Tags = ["sea creature", "strong", "stage"],
        Story = """
            **Bosun Grip** lifts things: barbells, small boats, the front row. Off stage he packs the carts, and it is said that he has never put
            anything down gently except a hat. The crusher on his left is for applause; the nipper on his right deals with autographs.

            The act ends with him walking off sideways under the barbell while the band plays something straight.
            """,
        Painting = """
            - **Shell:** brick red, dry-brushed orange along the rim and the spikes. Underside cream.
            - **Bathing suit:** navy and white. The stripes stand out by 0.4 mm and guide the brush on resin prints; on filament prints mask them.
            - **Moustache:** black gloss, two coats, wax tips in brown.
            - **Barbell:** iron black with a rusty bar. Write any weight you like on it.
            """,
        Licence = "CC-BY-SA-4.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Tobias Quill", "shoulder joints in both versions")],
        ReferenceNote = "Four photographs agree on everything but the number of spikes; we counted the ones that are sharp.",
        Cautions =
        [
            "Take the carapace and claws that belong to your process: sockets and balls for filament and powder, sleeves for resin. They do not mix.",
            "A pop-in ball has to stretch its socket by 3 %. Rigid resin does not stretch; it bursts.",
            "Eye stalks and key fit in the small-parts cylinder: not for children under three.",
        ],
        Parts =
        [
            Part("carapace", "Carapace", "Shell and bathing suit. Sockets for pop-in shoulders or holes for plug-in ones.", [Shell.Assembled],
                Variant("sockets", "With sockets", Filament, Revision(1, "First release. Sockets of 7.2 mm with a mouth of 6.78 mm.", 130, Shell, () => BosunGripShapes.Carapace(sockets: true))),
                Variant("sleeves", "With sleeve holes", Resin, Revision(1, "First release. 6.0 mm holes for glued sleeves.", 130, Shell, () => BosunGripShapes.Carapace(sockets: false)))),
            Part("left-claw", "Left claw, the crusher", "Arm and crusher, raised.", [LeftClaw.Assembled],
                Variant("ball", "With a ball", Filament, Revision(1, "First release. Ball of 7.0 mm.", 130, LeftClaw, () => BosunGripShapes.Claw(left: true, ball: true))),
                Variant("sleeve", "With a sleeve", Resin, Revision(1, "First release. Sleeve of 5.8 mm, 6 mm long.", 130, LeftClaw, () => BosunGripShapes.Claw(left: true, ball: false)))),
            Part("right-claw", "Right claw, the nipper", "Arm and nipper, raised.", [RightClaw.Assembled],
                Variant("ball", "With a ball", Filament, Revision(1, "First release. Ball of 7.0 mm.", 130, RightClaw, () => BosunGripShapes.Claw(left: false, ball: true))),
                Variant("sleeve", "With a sleeve", Resin, Revision(1, "First release. Sleeve of 5.8 mm, 6 mm long.", 130, RightClaw, () => BosunGripShapes.Claw(left: false, ball: false)))),
            Part("left-leg", "Left legs", "One walking leg in a boot and two idle ones.",
                FilePose.Upright(new(20, 0, 0)), EveryRigid, () => BosunGripShapes.Leg(left: true), "First release.", 130),
            Part("right-leg", "Right legs", "One walking leg in a boot and two idle ones.",
                FilePose.Upright(new(-20, 0, 0)), EveryRigid, () => BosunGripShapes.Leg(left: false), "First release.", 130),
            Part("eye-stalk", "Eye on its stalk", "The same file twice; the stalk is 3.2 mm thick.",
                [Eye.Assembled, Beside(Eye, -2 * BosunGripShapes.EyeFoot.X)],
                Variant("standard", "Standard", EveryRigid, Revision(1, "First release.", 130, Eye, BosunGripShapes.EyeStalk))),
            Part("moustache", "Moustache", "Waxed, with a nose in the middle and a peg behind.",
                FilePose.Lying(new(0, -1, 0), BosunGripShapes.MoustachePlace), EveryRigid, BosunGripShapes.Moustache, "First release.", 130),
            Part("barbell", "Barbell", "Two cannonballs on a bar. Lies behind him until the finale.",
                FilePose.Upright(BosunGripShapes.Barbell), EveryRigid, BosunGripShapes.BarbellShape, "First release.", 125, ContourSettings.Broad) with { Role = Optional },
            WindingKey(BosunGripShapes.KeyPlace, Kit.Back, 0, "Winds the claws."),
        ],
        Joints =
        [
            Ball("left-shoulder-ball", "Left shoulder", "carapace", "left-claw", MexRigid),
            Ball("right-shoulder-ball", "Right shoulder", "carapace", "right-claw", MexRigid),
            Ball("left-shoulder-tumbled", "Left shoulder", "carapace", "left-claw", PbfRigid) with { MouthMm = null, Note = Tumbled },
            Ball("right-shoulder-tumbled", "Right shoulder", "carapace", "right-claw", PbfRigid) with { MouthMm = null, Note = Tumbled },
            Sleeve("left-shoulder-sleeve", "Left shoulder", "carapace", "left-claw", Resin, "glue"),
            Sleeve("right-shoulder-sleeve", "Right shoulder", "carapace", "right-claw", Resin, "glue"),
            Pinned("left-hip", "Left hip", "carapace", "left-leg", Kit.PinHoleMm, 38, "hip-rod"),
            Pinned("right-hip", "Right hip", "carapace", "right-leg", Kit.PinHoleMm, 38, "hip-rod"),
            Pressed("eyes", "Eye stalks", "carapace", "eye-stalk", 3, 3.2, 5),
            Stuck("moustache-peg", "Moustache", "carapace", "moustache", 2.5, 2.7, 4.5, "glue"),
            Pressed("key", "Key in the back", "carapace", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware = [Rod("hip-rod", "Hip rod, through both legs", 1, 38), Glue(), Reamer()],
        Steps =
        [
            new() { Number = 1, Title = "Hang the legs", Parts = ["carapace", "left-leg", "right-leg"], Hardware = ["hip-rod", "hand-drill"], Text = "Ream both hips, hold the tongues in their slots, push the rod through, mark it, cut it 1–2 mm shorter than the mark, deburr, push it home." },
            new() { Number = 2, Title = "Pop in the shoulders", Parts = ["carapace", "left-claw", "right-claw"], Processes = [MexRigid, PbfRigid], Text = "Warm the carapace in your hands, not in the oven. Set the ball straight on the mouth, push with your thumb behind the elbow until it clicks. No glue." },
            new() { Number = 3, Title = "Glue the shoulders", Parts = ["carapace", "left-claw", "right-claw"], Hardware = ["glue"], Processes = [VppRigid, VppTough], Text = "Try both sleeves dry and choose the pose. Glue thinly on the sleeve, not in the hole: trapped glue pushes the arm out again." },
            new() { Number = 4, Title = "Face", Parts = ["eye-stalk", "moustache"], Hardware = ["glue"], Text = "Stalks pressed in, pupils to the front; moustache with one drop on its peg." },
            new() { Number = 5, Title = "Props", Parts = ["winding-key"], Text = "Key in the back." },
            new() { Number = 6, Title = "Load the barbell", Parts = ["barbell"], ForPart = "barbell", Text = "He can hold it: open the crusher a little with warm water, or lay it at his feet and let the audience wait." },
        ],
        Reports = BosunGripReports.All(),
    };
}
