using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The usher. Case: an arm that slides back round a bend and so needs filament or flexible resin.</summary>
internal static class MisterPeriwinkle
{
    private static readonly string[] Bending = [MexRigid, MexFlexible, VppFlexible];
    private static readonly FilePose Arm = FilePose.Lying(new(1, 0, 0), MisterPeriwinkleShapes.SlideCenter);

    public static DemoFigure Figure() => new()
    {
        Slug = "mister-periwinkle",
        Title = "Mister Periwinkle",
        Summary = "Usher and box office: takes your ticket, then takes his arm back.",
        Tags = ["sea creature", "front of house"],
        Story = """
            **Mister Periwinkle** shows you to your patch of sand. He is never late, because he is always there already. When a patron haggles, his right
            arm withdraws into his sleeve, slowly, with dignity, and does not come out until the full price has been named.

            The works for it are the oldest in the troupe: a spring, a ratchet and a strip of whalebone, replaced over the years by a strip of almost
            everything.
            """,
        Painting = """
            - **Shell:** blue-black at the mouth, fading to bone at the heart of the spiral. Varnish it satin.
            - **Foot:** warm grey, wet gloss along the frill.
            - **Waistcoat:** bottle green with brass buttons; bow tie claret.
            - **Cap:** claret with gold braid. He earned it.
            """,
        Licence = "CC-BY-SA-4.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Tobias Quill", "sliding arm")],
        ReferenceNote = "He still exists, in a glass case at a ferry terminal; measured there through the glass.",
        Cautions =
        [
            "The right arm bends every time it slides. In rigid resin it breaks at the first patron: print it in filament or flexible resin.",
            "Cap and key fit in the small-parts cylinder: not for children under three.",
        ],
        Parts =
        [
            Part("body", "Body", "Foot and waistcoat, with a channel under the right sleeve and a seat for the shell.",
                FilePose.Upright(new(0, 12, 0)), EveryRigid, MisterPeriwinkleShapes.Body, "First release.", 90),
            Part("shell", "Shell", "Spiral with a groove for the sliding arm and the hole for the key.",
                FilePose.Lying(new(1, 0, 0), MisterPeriwinkleShapes.ShellCenter), EveryRigid, MisterPeriwinkleShapes.Shell, "First release.", 90),
            Part("head", "Head", "Face with both eyes on their stalks.",
                FilePose.Upright(new(0, -13, 71)), EveryRigid, MisterPeriwinkleShapes.Head, "First release.", 90),
            Part("sliding-arm", "Sliding arm", "A strip of 2.4 mm, bent to a radius of 38 mm, with cuff and glove.", [Arm.Assembled],
                Variant("bending", "For materials that bend", Bending, Revision(1, "First release.", 90, Arm, MisterPeriwinkleShapes.RetractingArm))),
            Part("left-arm", "Left arm", "Carries a tray of tickets.",
                FilePose.Upright(new(16, -22, 47)), EveryRigid, MisterPeriwinkleShapes.LeftArm, "First release.", 90),
            Part("cap", "Pillbox cap", "Worn between the eyes.",
                FilePose.Upright(MisterPeriwinkleShapes.Crown), EveryRigid, MisterPeriwinkleShapes.Cap, "First release.", 90),
            WindingKey(MisterPeriwinkleShapes.KeyPlace, Kit.Back, 0, "Winds the arm back in."),
        ],
        Joints =
        [
            new()
            {
                Slug = "sliding-shoulder", Name = "Right shoulder", Kind = Retracting, PartA = "body", PartB = "sliding-arm",
                BendThicknessMm = MisterPeriwinkleShapes.ArmThickness, BendRadiusMm = MisterPeriwinkleShapes.SeatRadius, ClearanceMm = 1.0, LengthMm = 64, Hardware = ["pull-spring"],
            },
            Stuck("shell-seat", "Shell on body", "body", "shell", 6, 6.2, 6, "glue"),
            Pressed("neck", "Neck", "body", "head", 6, 6.2, 5),
            Stuck("left-shoulder", "Left shoulder", "body", "left-arm", 3.5, 3.7, 6, "glue"),
            Pressed("cap", "Cap", "head", "cap", 3, 3.2, 3),
            Pressed("key", "Key in the shell", "shell", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware =
        [
            Glue(),
            new() { Slug = "pull-spring", Kind = "spring", Name = "Soft tension spring", Quantity = 1, Size = "Ø 3 × 15 mm, 0.2 mm wire", DiameterMm = 3, Substitutes = "A thin rubber band, renewed every summer.", Caution = "Stretched springs jump: hold both ends." },
            new() { Slug = "dry-lube", Kind = "other", Name = "Dry lubricant or candle wax", Quantity = 1, Size = "a touch" },
        ],
        Steps =
        [
            new() { Number = 1, Title = "Clean the channel", Parts = ["body", "shell"], Text = "Draw a strip of fine sandpaper through both halves of the channel. The arm must fall through by itself." },
            new() { Number = 2, Title = "Thread the arm", Parts = ["body", "sliding-arm"], Hardware = ["dry-lube"], Text = "Wax the strip, feed it in from the front. It has to bend: if it creaks, the material is wrong, stop." },
            new() { Number = 3, Title = "Shell and spring", Parts = ["body", "shell", "sliding-arm"], Hardware = ["pull-spring", "glue"], Text = "Hook the spring to the strip's end and to the shell, then glue the shell on its seat. The strip lies in the groove." },
            new() { Number = 4, Title = "The rest of him", Parts = ["head", "cap", "left-arm", "winding-key"], Hardware = ["glue"], Text = "Head pressed, cap between the eyes, tray level." },
        ],
        Reports =
        [
            Report("sliding-arm", "bending", 1, MexRigid, Worked, null, null, 80, "two-left-boots", new("PETG", 0.2, DeskFilament, "lying on its side", "none"), "Lying on its side it is strong. Slides for ever."),
            Report("sliding-arm", "bending", 1, MexRigid, WorkedWithCare, "cracked", "use", 61, "old-slipway", new("PLA", 0.2, DeskFilament, "lying on its side", "none"), "PLA went white at the bend after a week. PETG since then."),
            Report("sliding-arm", "bending", 1, MexRigid, Failed, "layers-parted", "use", 58, "Anselm", new("PLA", 0.2, SmallFilament, "standing", "everywhere"), "Printed standing. Of course it broke along a layer."),
            Report("sliding-arm", "bending", 1, MexFlexible, WorkedWithCare, "too-loose", "assembly", 44, "Wenna T.", new("TPU 95A", 0.2, DeskFilament, "lying on its side", "none"), "Too limp to push, good to pull. He withdraws but does not return."),
            Report("sliding-arm", "bending", 1, VppFlexible, Worked, null, null, 37, "Marguerite D.", new("flexible resin 80A", 0.05, SmallResin, "lying, tilted 15°", "dense"), "Tricky supports, lovely motion."),
            Report("sliding-arm", "bending", 1, VppFlexible, Failed, "warped", "printing", 25, "pim", new("flexible resin 80A", 0.05, SmallResin, "standing", "medium"), "Wobbled while printing, layers shifted. Lay it down."),
            Report("body", "standard", 1, VppRigid, Worked, null, null, 37, "Marguerite D.", new("rigid resin", 0.05, SmallResin, "standing, tilted 20°", "medium"), "Channel clean after a flush with the syringe."),
            Report("body", "standard", 1, MexRigid, WorkedWithCare, "hole-blocked", "printing", 61, "old-slipway", new("PLA", 0.2, DeskFilament, "standing", "from the plate"), "Bridge inside the channel sagged, filed it open."),
            Report("head", "standard", 1, VppRigid, Failed, "snapped", "use", 19, "harbourlight", new("rigid resin", 0.05, SmallResin, "tilted 30°", "medium"), "Left eye, at the stalk. The usual cat."),
            Report("head", "standard", 1, MexRigid, Worked, null, null, 61, "old-slipway", new("PLA", 0.16, DeskFilament, "standing", "under the eyes"), "Ok."),
        ],
    };
}
