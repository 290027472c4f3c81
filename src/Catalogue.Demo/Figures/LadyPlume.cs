using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The jellyfish. Case: a figure for resin only, with limbs of 1.5 mm that rigid resin breaks.</summary>
internal static class LadyPlume
{
    private static readonly string[] AnyResin = [VppRigid, VppTough, VppFlexible];
    private static readonly Vec3 Axis = new(0, 0.5, 0);
    private static readonly FilePose RibbonPose = FilePose.Upright(LadyPlumeShapes.RibbonRoot);
    private static readonly FilePose TentaclePose = FilePose.Upright(LadyPlumeShapes.TentacleRoot);
    private static readonly ContourSettings Soft = ContourSettings.Default with { Tolerance = 0.08 };

    public static DemoFigure Figure() => new()
    {
        Slug = "lady-plume",
        Title = "Lady Plume",
        Summary = "A jellyfish who was once, she says, principal dancer at a spa.",
        Tags = ["sea creature", "dancer", "stage"],
        Story = """
            **Lady Plume** floats on from the left, dances what is left of a waltz, and floats off. That is all, and it is why half of the audience have
            come. Nothing of her touches the stage: she is carried by one rod out of a wave, and her tentacles are hung so that they tremble in time.

            She may be the only puppet on the coast with stage fright.
            """,
        Painting = """
            - **Bell:** if you can, print it in clear resin and tint it from inside with ink: rose at the rim, nothing at the crown.
            - **Dancer:** porcelain; cheeks, lips, pearls. The eyes stay closed, two dark lines.
            - **Tutu and ribbons:** white over pale blue, pearl varnish last.
            - **Wave:** sea green, white foam, rod left bright.
            """,
        Licence = "CC0-1.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Lene Aasen", "tentacle trials in eleven resins")],
        ReferenceNote = "No picture survives. Made from one review and a costume bill; take her as an homage.",
        Cautions =
        [
            "For resin printers only: tentacles of 1.5 mm and a bell of 1.6 mm are no work for filament.",
            "In rigid resin the tentacles snap. Tough or flexible resin, please, or accept fewer than six.",
            "Uncured resin irritates skin: nitrile gloves, eye protection, fresh air.",
            "Ribbons and key fit in the small-parts cylinder: not for children under three.",
        ],
        Parts =
        [
            Part("bell", "Bell", "Dome of 1.6 mm with twelve ribs, open below; six eyes for the tentacles.",
                FilePose.Upright(new(0, 0.5, 90)), Resin, LadyPlumeShapes.Bell, "First release.", 75, Soft),
            Part("dancer", "Dancer", "Head and body.", FilePose.Upright(new(0, 0, 46)), Resin, LadyPlumeShapes.Dancer, "First release.", 75),
            Part("tutu", "Tutu", "Two frills of eleven waves on a hub.", FilePose.Upright(new(0, 0, 42)), Resin, LadyPlumeShapes.Tutu, "First release.", 75),
            Part("left-arm", "Left arm", "2.6 mm at the wrist.", FilePose.Lying(new(0, 1, 0), new(20, -4, 70)), AnyResin, () => LadyPlumeShapes.Arm(left: true), "First release.", 75),
            Part("right-arm", "Right arm", "2.6 mm at the wrist.", FilePose.Lying(new(0, 1, 0), new(-20, -4, 70)), AnyResin, () => LadyPlumeShapes.Arm(left: false), "First release.", 75),
            Part("ribbon", "Ribbon", "Frilled ribbon under the tutu; the same file four times.",
                [.. Enumerable.Range(0, 4).Select(i => Around(RibbonPose, 45 + (90 * i), Vec3.Zero))],
                Variant("standard", "Standard", AnyResin, Revision(1, "First release.", 75, RibbonPose, LadyPlumeShapes.Ribbon))),
            Part("tentacle", "Tentacle", "1.5 mm thick, 72 mm long; the same file six times.",
                [.. Enumerable.Range(0, 6).Select(i => Around(TentaclePose, 30 + (60 * i), Axis))],
                Variant("standard", "Standard", AnyResin, Revision(1, "First release.", 75, TentaclePose, LadyPlumeShapes.Tentacle, ContourSettings.Thin))),
            Part("wave", "Wave", "Base with the hole for the carrying rod.", FilePose.Upright(new(0, 2, 0)), Resin, LadyPlumeShapes.Wave, "First release.", 75),
            WindingKey(LadyPlumeShapes.KeyPlace, Kit.Back, 0, "Winds nothing. She insisted.") with { Role = Optional },
        ],
        Joints =
        [
            Pressed("bonnet", "Bell on head", "bell", "dancer", 4, 4.2, 3.6),
            Stuck("waist", "Waist", "tutu", "dancer", 5, 5.2, 4, "glue"),
            Stuck("left-shoulder", "Left shoulder", "dancer", "left-arm", 2.5, 2.7, 3.4, "glue"),
            Stuck("right-shoulder", "Right shoulder", "dancer", "right-arm", 2.5, 2.7, 3.4, "glue"),
            Stuck("ribbons", "Ribbons", "tutu", "ribbon", 2.6, 2.8, 3, "glue"),
            Stuck("tentacles", "Tentacles", "bell", "tentacle", 1.6, 1.8, 2.4, "glue"),
            Pinned("carrier", "Carrying rod", "wave", "tutu", Kit.PinHoleMm, 37, "carrying-rod"),
            Pressed("key", "Key in the back", "dancer", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware =
        [
            Rod("carrying-rod", "Carrying rod", 1, 37),
            Glue(),
            Reamer(),
            new() { Slug = "ink", Kind = "paint", Name = "Alcohol ink for the bell", Quantity = 2, Size = "a few drops, rose and violet", Caution = "Ventilate; stains everything." },
        ],
        Steps =
        [
            new() { Number = 1, Title = "Tint the bell", Parts = ["bell"], Hardware = ["ink"], Text = "Before anything is glued. Drop ink at the rim, tilt, let it run toward the crown." },
            new() { Number = 2, Title = "Raise the rod", Parts = ["wave", "tutu"], Hardware = ["carrying-rod", "hand-drill"], Text = "Ream both holes. Rod into the wave with a drop of resin, cure, tutu on top." },
            new() { Number = 3, Title = "The dancer", Parts = ["tutu", "dancer", "left-arm", "right-arm"], Hardware = ["glue"], Text = "Peg into the tutu, arms into the shoulders, palms up." },
            new() { Number = 4, Title = "Ribbons", Parts = ["tutu", "ribbon"], Hardware = ["glue"], Text = "Four, from below, tips outward." },
            new() { Number = 5, Title = "Hang the tentacles", Parts = ["bell", "tentacle"], Hardware = ["glue"], Text = "Bell upside down in a cup. Peg each tentacle, check that no two cross. Flexible ones need the smallest possible drop." },
            new() { Number = 6, Title = "Bonnet on", Parts = ["bell", "dancer"], Text = "Turn the bell until the face looks out between two tentacles." },
            new() { Number = 7, Title = "The key that winds nothing", Parts = ["winding-key"], ForPart = "winding-key", Text = "Into the back, if you like." },
        ],
        Reports =
        [
            Report("tentacle", "standard", 1, VppRigid, Failed, "snapped", "cleaning", 70, "tidepool", new("rigid clear resin", 0.05, SmallResin, "standing", "light"), "Two of six survived the wash."),
            Report("tentacle", "standard", 1, VppRigid, Failed, "snapped", "use", 64, "harbourlight", new("rigid grey resin", 0.05, SmallResin, "lying", "medium"), "All six on, five left after moving her one shelf up."),
            Report("tentacle", "standard", 1, VppRigid, Failed, "snapped", "assembly", 51, "pim", new("rigid resin", 0.05, SmallResin, "tilted 45°", "medium"), "Broke at the peg."),
            Report("tentacle", "standard", 1, VppRigid, WorkedWithCare, "warped", "cleaning", 43, "quayside prints", new("rigid resin", 0.03, MiddleResin, "lying", "dense"), "Works if you never touch them again."),
            Report("tentacle", "standard", 1, VppTough, Worked, null, null, 60, "Lene", new("tough resin", 0.05, MiddleResin, "tilted 45°", "medium"), "Six of six."),
            Report("tentacle", "standard", 1, VppTough, Worked, null, null, 40, "quayside prints", new("tough resin", 0.05, MiddleResin, "tilted 45°", "medium"), "Tough is right."),
            Report("tentacle", "standard", 1, VppFlexible, Worked, null, null, 58, "Lene", new("flexible resin 80A", 0.05, SmallResin, "lying", "dense"), "They tremble. Worth the price."),
            Report("tentacle", "standard", 1, VppFlexible, WorkedWithCare, "fused", "cleaning", 31, "Marguerite D.", new("flexible resin 80A", 0.05, SmallResin, "lying", "dense"), "Two stuck together while curing. Hang them apart."),
            Report("bell", "standard", 1, VppRigid, Worked, null, null, 60, "Lene", new("rigid clear resin", 0.05, SmallResin, "on edge, 50°", "medium"), "Clear, inked, magic."),
            Report("bell", "standard", 1, VppRigid, Failed, "came-loose", "printing", 51, "pim", new("rigid resin", 0.05, SmallResin, "open side down", "light"), "Suction pulled it off the plate."),
            Report("bell", "standard", 1, VppRigid, WorkedWithCare, "cracked", "use", 27, "tidepool", new("rigid clear resin", 0.05, SmallResin, "on edge", "medium"), "Hairline crack at one of the eyes after pushing a peg in dry. Ream first."),
            Report("ribbon", "standard", 1, VppTough, Worked, null, null, 40, "quayside prints", new("tough resin", 0.05, MiddleResin, "standing", "light"), "Good."),
            Report("left-arm", "standard", 1, VppRigid, WorkedWithCare, "snapped", "cleaning", 64, "harbourlight", new("rigid grey resin", 0.05, SmallResin, "lying", "light"), "Thumb."),
        ],
    };
}
