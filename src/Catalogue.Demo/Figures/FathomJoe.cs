using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The diver. Cases: 1 mm aerial, cup, blind tube, pin holes of 1.7 mm and one of 1.35 mm, part too small for children.</summary>
internal static class FathomJoe
{
    public static DemoFigure Figure() => new()
    {
        Slug = "fathom-joe",
        Title = "Fathom Joe",
        Summary = "The diver who walks in from the sea at the end of act one, moustache first.",
        Tags = ["sailor", "stage"],
        Story = """
            Nobody hired **Fathom Joe**. On the second evening of the first season he came up the sand out of the water, in front of a full
            audience, asked for tea through a brass trumpet, and has been on the bill ever since. He hears the prompter through the whip aerial on
            his helmet, which is why he answers questions a little before they are asked.

            On stage he plays customs officers, ghosts and, in a false beard, the Sea. His boots are lead. The wooden original weighs eleven
            kilograms and is carried to the beach by two people, one of them complaining.
            """,
        Painting = """
            - **Suit:** warm sand brown, then a thin wash of burnt umber into the folds. Leave the knees lighter: he kneels on shingle.
            - **Helmet and corselet:** dark brown first, copper over it with a dry brush, a touch of blue-green where the nuts meet the dish.
            - **Face:** paint it *before* the glass. Skin, then the moustache in one white stroke from the nose outwards.
            - **Glass:** three thin coats of gloss varnish in the porthole; let each one level lying on its back.
            - **Boots:** dull lead grey. Everybody wants to paint them black. Don't.
            """,
        Licence = "CC-BY-SA-4.0",
        Credits =
        [
            new("Isolde Marrable", "design and figure modelling"),
            new("Tobias Quill", "joints and test prints"),
            new("The notebooks of Ambrose Pell", "stage drawings of the originals"),
        ],
        ReferenceNote = "Helmet, suit and boots follow three photographs and a bill of materials; the aerial is only described in a letter, so its length is a guess.",
        Cautions =
        [
            "The winding key, the aerial and the mug fit in the small-parts cylinder: not for children under three.",
            "The aerial is 1 mm thick. It is a display piece, and it will find your sleeve.",
            "Uncured resin irritates skin: nitrile gloves, eye protection, fresh air.",
        ],
        Parts =
        [
            Part("suit", "Canvas suit", "Torso with corselet, belt and air box. Both shoulder holes are blind; the hip hole goes right through.",
                FilePose.Upright(new(0, 0, 35)), EveryRigid, FathomJoeShapes.Suit, "First release.", 150),
            Part("helmet", "Helmet", "Copper helmet with the face modelled behind the porthole.",
                FilePose.Upright(new(0, 0, 74)), EveryRigid, FathomJoeShapes.Helmet, "First release.", 150),
            Part("aerial", "Whip aerial", "Foot, collar and a whip of 1 mm with a bead on top.",
                [FilePose.Upright(FathomJoeShapes.AerialFoot).Assembled],
                Variant("whip", "Printed whip", [VppRigid, VppTough, PbfRigid],
                    Revision(1, "First release. Print spares.", 150, FilePose.Upright(FathomJoeShapes.AerialFoot), FathomJoeShapes.Aerial, ContourSettings.Thin)),
                Variant("wire-foot", "Foot for a wire whip", [MexRigid],
                    Revision(1, "A 1 mm rod cannot be drawn in filament: print the foot, use steel wire.", 131, FilePose.Upright(FathomJoeShapes.AerialFoot), FathomJoeShapes.AerialForWire, ContourSettings.Thin))),
            Part("left-arm", "Left arm", "Bent arm, fist bored for the speaking trumpet.",
                FilePose.Upright(new(25, -8, 42)), EveryRigid, () => FathomJoeShapes.Arm(left: true), "First release.", 150),
            Part("right-arm", "Right arm", "Raised forearm, fist bored for the mug.",
                FilePose.Upright(new(-25, -8, 48)), EveryRigid, () => FathomJoeShapes.Arm(left: false), "First release.", 150),
            Part("left-leg", "Left leg", "Leg and lead boot, hip hole 1.7 mm.",
                FilePose.Upright(new(9.5, -4, 0)), EveryRigid, () => FathomJoeShapes.Leg(left: true, Kit.PinHoleMm), "First release.", 150),
            Part("right-leg", "Right leg", "Leg and lead boot. The hip hole of this revision is only 1.35 mm.",
                FilePose.Upright(new(-9.5, -4, 0)), EveryRigid, () => FathomJoeShapes.Leg(left: false, 1.35), "First release. Mirrored from the left leg by hand.", 150),
            Part("tea-mug", "Tea mug", "Enamel mug on a peg: open at the top, 1.2 mm walls.",
                FilePose.Upright(FathomJoeShapes.RightFist), EveryRigid, FathomJoeShapes.Mug, "First release.", 140) with { Role = Optional },
            Part("speaking-trumpet", "Speaking trumpet", "Brass trumpet with a 4 mm bore that is closed at the mouthpiece.",
                FilePose.Lying(new(0, -1, 0.25), FathomJoeShapes.LeftFist), EveryRigid, FathomJoeShapes.Trumpet, "First release.", 150),
            WindingKey(FathomJoeShapes.KeyPlace, Kit.Back, 0, "Winds the air box."),
        ],
        Joints =
        [
            Pinned("left-hip", "Left hip", "suit", "left-leg", Kit.PinHoleMm, 30, "hip-rod"),
            Pinned("right-hip", "Right hip", "suit", "right-leg", 1.35, 30, "hip-rod"),
            Pinned("left-shoulder", "Left shoulder", "suit", "left-arm", Kit.PinHoleMm, 15.5, "shoulder-rod"),
            Pinned("right-shoulder", "Right shoulder", "suit", "right-arm", Kit.PinHoleMm, 15.5, "shoulder-rod"),
            Pressed("neck", "Neck", "suit", "helmet", 8, 8.15, 3.8),
            Stuck("aerial-foot", "Aerial foot", "helmet", "aerial", 2.5, 2.7, 4, "glue"),
            Pressed("mug-grip", "Right hand", "right-arm", "tea-mug", 3, 3.2, 5),
            Pressed("trumpet-grip", "Left hand", "left-arm", "speaking-trumpet", 3, 3.2, 7),
            Pressed("key", "Key in the air box", "suit", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware =
        [
            Rod("hip-rod", "Hip rod, through both legs", 1, 30),
            Rod("shoulder-rod", "Shoulder rod", 2, 15.5),
            Glue(),
            Reamer(),
            new()
            {
                Slug = "aerial-wire", Kind = "rod", Name = "Aerial wire", Quantity = 1, Size = "Ø 1.0 mm, spring steel", DiameterMm = 1.0, CutLengthMm = 20,
                Substitutes = "A straightened paper clip looks right but bends.", Caution = "A sharp end at eye height of a child: round it over, or fit a bead.",
                Processes = [MexRigid],
            },
            new() { Slug = "gloss-varnish", Kind = "paint", Name = "Gloss varnish for the porthole", Quantity = 1, Size = "5 ml", Caution = "Ventilate." },
        ],
        Steps =
        [
            new()
            {
                Number = 1, Title = "Ream the holes", Parts = ["suit", "left-arm", "right-arm", "left-leg", "right-leg"], Hardware = ["hand-drill"],
                Text = "Turn the 1.6 mm drill through every pin hole by hand until the rod slides with a little drag. The right leg's hole is tighter than the others: take it out in two steps, and support the tongue while you do.",
            },
            new()
            {
                Number = 2, Title = "Hang the legs", Parts = ["suit", "left-leg", "right-leg"], Hardware = ["hip-rod"],
                Text = "Hold both tongues in their slots and push the hip rod through from one side. Mark it, pull it out, cut it 1–2 mm shorter than the mark, deburr, push it home. On resin close each end with a drop of resin and cure it; on filament a touch of glue on one end is enough.",
            },
            new()
            {
                Number = 3, Title = "Pin the arms", Parts = ["suit", "left-arm", "right-arm"], Hardware = ["shoulder-rod", "glue"],
                Text = "Glue a shoulder rod into each arm, not into the suit: the arms turn on the suit's side. Leave 8 mm standing out.",
            },
            new()
            {
                Number = 4, Title = "Set the printed aerial", Parts = ["helmet", "aerial"], Hardware = ["glue"], Processes = [VppRigid, VppTough, PbfRigid],
                Text = "Hold it by the collar, never by the whip. One drop of glue in the hole; stand it upright until it has set.",
            },
            new()
            {
                Number = 5, Title = "Set the wire aerial", Parts = ["helmet", "aerial"], Hardware = ["aerial-wire", "glue"], Processes = [MexRigid],
                Text = "Glue the wire into its foot first, the foot into the helmet afterwards. Fit a bead or a drop of epoxy on the tip.",
            },
            new()
            {
                Number = 6, Title = "Crown him", Parts = ["suit", "helmet", "speaking-trumpet", "winding-key"],
                Text = "Press the helmet down until its rim meets the corselet; it turns. Trumpet into the left fist, key into the back.",
            },
            new()
            {
                Number = 7, Title = "Pour the tea", Parts = ["right-arm", "tea-mug"], ForPart = "tea-mug",
                Text = "Push the mug's peg into the right fist from the inside. A drop of tinted varnish in the bottom makes a very good strong tea.",
            },
        ],
        Reports = FathomJoeReports.All(),
    };
}
