using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The octopus. Cases: a part that fits no small printer, a head with a sealed void and its drained revision, flexible bellows.</summary>
internal static class OctaviaSqueeze
{
    private static readonly FilePose Mantle = FilePose.Upright(new(0, 3, 56));
    private static readonly FilePose End = FilePose.Lying(new(1, 0, 0), OctaviaSqueezeShapes.Concertina + new Geometry.Meshes.Vec3(15.6, 0, 0));
    private static readonly FilePose Bellows = FilePose.Lying(new(1, 0, 0), OctaviaSqueezeShapes.Concertina);

    public static DemoFigure Figure() => new()
    {
        Slug = "octavia-squeeze",
        Title = "Octavia Squeeze",
        Summary = "Octopus, contralto and concertina; six feet on the sand and two hands to play with.",
        Tags = ["sea creature", "musician", "stage"],
        Story = """
            **Octavia Squeeze** provides the music. She knows four hundred tunes, most of them about drowning, and plays them in the order the tide
            suggests. Her concertina was pulled out of a wreck and has never dried completely, which gives the low notes their famous wobble.

            She was the first puppet the troupe's mechanic built after the sea took his workshop, and the last for which he had enough brass: the works
            move only her arms. Everything below the bodice is ballast, because the wind on the flats will have a puppet over if it can.
            """,
        Painting = """
            - **Skin:** coral red over a violet undercoat, so that the folds stay dark. Sponge it, don't brush it; skin that ripples.
            - **Suckers:** pale peach, one dot each. There are twenty-two. You will count them.
            - **Eyes:** gold, with a horizontal bar for the pupil. Half-closed lids in the skin colour.
            - **Boater:** straw yellow, thin brown wash, ribbon in the colour of your local lifeboat.
            - **Concertina:** black ends, ivory buttons, bellows in wine red with gilt ridges.
            """,
        Licence = "CC-BY-4.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Wenna Tregear", "concertina"), new("Odd Pettersen", "resin test prints")],
        ReferenceNote = "Head and skirt after a poster and two sketchbook pages; the bodice is invented, no picture shows what she wore under the shawl.",
        Cautions =
        [
            "The skirt is 145 mm across and in one piece. Look at your printer before you look at the colours.",
            "Do not print revision 1 of the mantle in resin: its hollow has no way out. Revision 2 drains.",
            "Wash the inside of the hollow head with a syringe, twice, and let it drip dry before curing.",
            "The winding key fits in the small-parts cylinder: not for children under three.",
        ],
        Parts =
        [
            Part("skirt", "Skirt of tentacles", "Six tentacles and the hem of the skirt in one piece, about 131 × 146 × 39 mm.",
                FilePose.Upright(new(0, 0, 0.4)), EveryRigid, OctaviaSqueezeShapes.Skirt, "First release.", 140, ContourSettings.Broad),
            Part("bodice", "Bodice", "Waistcoat with lapels and bow tie, blind shoulder holes, seat for the head.",
                FilePose.Upright(new(0, 0, 33)), EveryRigid, OctaviaSqueezeShapes.Bodice, "First release.", 140),
            Part("mantle", "Mantle", "The head: 2.6 mm of wall around a hollow, to save material.", [Mantle.Assembled],
                Variant("hollow", "Hollow", EveryRigid,
                    Revision(1, "First release: hollowed to save two thirds of the material.", 140, Mantle, () => OctaviaSqueezeShapes.Mantle(drained: false), ContourSettings.Broad),
                    Revision(2, "Two drain openings of 4 mm beside the neck, hidden once the head is on. Revision 1 kept its liquid: see the reports.", 62, Mantle, () => OctaviaSqueezeShapes.Mantle(drained: true), ContourSettings.Broad))),
            Part("boater", "Straw boater", "Hat with ribbon, pegged on a little to one side.",
                FilePose.Lying(new(0.22, -0.3, 1), OctaviaSqueezeShapes.Crown), EveryRigid, OctaviaSqueezeShapes.Boater, "First release.", 140),
            Part("left-arm", "Left arm", "Tentacle that curls through the concertina's strap.",
                FilePose.Upright(new(25, -13, 40)), EveryRigid, () => OctaviaSqueezeShapes.Arm(left: true), "First release.", 140),
            Part("right-arm", "Right arm", "Tentacle that curls through the concertina's strap.",
                FilePose.Upright(new(-25, -13, 40)), EveryRigid, () => OctaviaSqueezeShapes.Arm(left: false), "First release.", 140),
            Part("concertina-end", "Concertina end", "Hexagonal end with seven buttons; the same file twice.",
                [End.Assembled, Around(End, 180, OctaviaSqueezeShapes.Concertina)],
                Variant("standard", "Standard", EveryRigid, Revision(1, "First release.", 140, End, OctaviaSqueezeShapes.EndPlate))),
            Part("bellows", "Bellows", "Seven folds between the ends.", [Bellows.Assembled],
                Variant("display", "Solid, for display", EveryRigid, Revision(1, "First release.", 140, Bellows, () => OctaviaSqueezeShapes.Bellows(squeezable: false))),
                Variant("squeezable", "Thin and open, really squeezes", [MexFlexible, VppFlexible],
                    Revision(1, "Walls of 1.3 mm, open at both ends.", 118, Bellows, () => OctaviaSqueezeShapes.Bellows(squeezable: true)))),
            WindingKey(OctaviaSqueezeShapes.KeyPlace, Kit.Back, 0, "Winds the arms."),
        ],
        Joints =
        [
            Stuck("waist", "Waist", "skirt", "bodice", 9, 9.2, 6, "glue"),
            Pressed("neck", "Neck", "bodice", "mantle", 8, 8.2, 5),
            Pinned("left-shoulder", "Left shoulder", "bodice", "left-arm", Kit.PinHoleMm, 16, "shoulder-rod"),
            Pinned("right-shoulder", "Right shoulder", "bodice", "right-arm", Kit.PinHoleMm, 16, "shoulder-rod"),
            Pressed("hat", "Hat", "mantle", "boater", 4, 4.2, 1.6),
            Stuck("bellows-ends", "Bellows in their ends", "concertina-end", "bellows", 8, 8.2, 1.9, "glue"),
            Pressed("left-strap", "Left hand", "concertina-end", "left-arm", 3, 3.2, 3.6),
            Pressed("right-strap", "Right hand", "concertina-end", "right-arm", 3, 3.2, 3.6),
            Pressed("key", "Key in the back", "bodice", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware =
        [
            Rod("shoulder-rod", "Shoulder rod", 2, 16),
            Glue(),
            Reamer(),
            new() { Slug = "ballast", Kind = "other", Name = "Steel shot for ballast", Quantity = 1, Size = "40 g", Substitutes = "Dry sand and a drop of glue.", Caution = "Wash your hands after handling lead shot; better not to use it." },
        ],
        Steps =
        [
            new() { Number = 1, Title = "Weigh her down", Parts = ["skirt"], Hardware = ["ballast"], Text = "Press the shot into epoxy under the hem, between the tentacles. She stands without, until somebody shuts a door." },
            new() { Number = 2, Title = "Wash out the head", Parts = ["mantle"], Processes = [VppRigid, VppTough], Text = "Before curing: fill the hollow with solvent through one drain, shake, empty, twice. Shine the lamp in through both openings." },
            new() { Number = 3, Title = "Bodice on skirt", Parts = ["skirt", "bodice"], Hardware = ["glue"], Text = "Glue the bodice's peg into the hem, bow tie over the gap between the two front tentacles." },
            new() { Number = 4, Title = "Assemble the concertina", Parts = ["concertina-end", "bellows"], Hardware = ["glue"], Text = "Both ends with their buttons outward. The squeezable bellows are glued round their rims only." },
            new() { Number = 5, Title = "Arms", Parts = ["bodice", "left-arm", "right-arm", "concertina-end"], Hardware = ["shoulder-rod", "hand-drill"], Text = "Ream the shoulders, pin both arms loosely, *then* push the pegs of both hands into the concertina. Only now push the rods home." },
            new() { Number = 6, Title = "Head, hat, key", Parts = ["mantle", "boater", "winding-key"], Text = "The head turns on its peg; the hat belongs over the left eye." },
        ],
        Reports = OctaviaSqueezeReports.All(),
    };
}
