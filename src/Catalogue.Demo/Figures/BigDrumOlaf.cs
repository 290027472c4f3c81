using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>The walrus. Cases: a figure for filament only, an optional accessory with a spring motor and wheels, small parts.</summary>
internal static class BigDrumOlaf
{
    private static readonly string[] Only = [MexRigid];
    private static readonly FilePose TuskPose = FilePose.Lying(new(0, 0, -1), BigDrumOlafShapes.TuskSeat);
    private static readonly FilePose SkinPose = FilePose.Lying(new(0, -1, 0), BigDrumOlafShapes.DrumCenter);
    private static readonly FilePose WheelPose = FilePose.Lying(new(1, 0, 0), BigDrumOlafShapes.CartMiddle + new Vec3(17.6, 15, 7.6));

    public static DemoFigure Figure() => new()
    {
        Slug = "big-drum-olaf",
        Title = "Big Drum Olaf",
        Summary = "Walrus, bandsman, weather: you hear him before you see the posters.",
        Tags = ["sea creature", "musician"],
        Story = """
            **Big Drum Olaf** announces the show. He starts on the promenade at low water less two hours and drums all the way down to the stage, with
            half the town behind him by then. He has one tempo. It has been measured against the lifeboat's engine and is the steadier of the two.

            When the tide turns, the drum is loaded on the limpet, the limpet is wound, and both of them leave before the applause is over.
            """,
        Painting = """
            - **Hide:** walnut, washed darker in every fold; belly lighter where the coat opens.
            - **Coat:** scarlet, braid and buttons gold. Epaulettes may be vulgar.
            - **Tusks:** ivory, brown at the root, one slightly chipped.
            - **Drum:** hoops red and white, cords in string colour, skins parchment with the half tide in blue.
            - **Limpet:** slate and lichen.
            """,
        Licence = "CC-BY-4.0",
        Credits = [new("Isolde Marrable", "design and figure modelling"), new("Tobias Quill", "limpet cart"), new("Hester Brackwater", "drum")],
        ReferenceNote = "From life, as far as the troupe's accounts go; the limpet is described there as \"the small machine, 4 shillings\".",
        Cautions =
        [
            "Made for filament: pop-in shoulders, walls and limbs of 5 mm and more. There is no resin version.",
            "Tusks, wheels and key fit in the small-parts cylinder: not for children under three.",
            "The spring motor has pinching gears: fit its cover.",
        ],
        Parts =
        [
            Part("body", "Body", "Coat, flippers, tail, sockets for both shoulders.",
                FilePose.Upright(Vec3.Zero), Only, BigDrumOlafShapes.Body, "First release.", 110),
            Part("head", "Head", "Whiskers, eyebrows and two seats for tusks.",
                FilePose.Upright(new(0, 0, 60)), Only, BigDrumOlafShapes.Head, "First release.", 110),
            Part("tusk", "Tusk", "The same file twice.", [TuskPose.Assembled, Beside(TuskPose, -2 * BigDrumOlafShapes.TuskSeat.X)],
                Variant("standard", "Standard", Only, Revision(1, "First release.", 110, TuskPose, BigDrumOlafShapes.Tusk))),
            Part("drum-shell", "Drum shell", "Hoops, cords and a ledge for the skins.",
                FilePose.Lying(new(0, -1, 0), BigDrumOlafShapes.DrumCenter), Only, BigDrumOlafShapes.DrumShell, "First release.", 110, ContourSettings.Rough),
            Part("drum-skin", "Drum skin", "1.5 mm, with the half tide on it; the same file twice.", [SkinPose.Assembled, Around(SkinPose, 180, BigDrumOlafShapes.DrumCenter)],
                Variant("standard", "Standard", Only, Revision(1, "First release.", 110, SkinPose, BigDrumOlafShapes.DrumSkin))),
            Part("left-arm", "Left arm", "Mallet down.",
                FilePose.Upright(new(26, -20, 42)), Only, () => BigDrumOlafShapes.Arm(left: true), "First release.", 110),
            Part("right-arm", "Right arm", "Mallet up.",
                FilePose.Upright(new(-28, -18, 50)), Only, () => BigDrumOlafShapes.Arm(left: false), "First release.", 110),
            Part("fez", "Fez", "With a tassel.", FilePose.Upright(BigDrumOlafShapes.Crown), Only, BigDrumOlafShapes.Fez, "First release.", 110),
            Part("limpet-cart", "Limpet cart", "Tows the drum home: a shell with a bay of 19 × 26 × 16 mm for a spring motor.",
                FilePose.Upright(BigDrumOlafShapes.CartMiddle), Only, BigDrumOlafShapes.Cart, "First release.", 104) with { Role = Optional },
            Part("cart-wheel", "Cart wheel", "Spoked, on a 1.5 mm axle; the same file four times.",
                [WheelPose.Assembled, Beside(WheelPose, 0, -30), Beside(WheelPose, -35.2), Beside(WheelPose, -35.2, -30)],
                Variant("standard", "Standard", Only, Revision(1, "First release.", 104, WheelPose, BigDrumOlafShapes.CartWheel))) with { Role = Optional },
            WindingKey(BigDrumOlafShapes.KeyPlace, Kit.Back, 0, "Winds the mallets.") with
            {
                Variants = [Variant("standard", "Standard", Only, Revision(1, "The troupe's common key: one size, one hole, every puppet.", 200, FilePose.Upright(Vec3.Zero), Kit.KeyShape))],
            },
        ],
        Joints =
        [
            Ball("left-shoulder", "Left shoulder", "body", "left-arm"),
            Ball("right-shoulder", "Right shoulder", "body", "right-arm"),
            Pressed("neck", "Neck", "body", "head", 10, 10.3, 7),
            Stuck("tusks", "Tusks", "head", "tusk", 4, 4.2, 4.6, "glue"),
            Pressed("hat", "Fez", "head", "fez", 6, 6.2, 4),
            Stuck("skins", "Skins in their ledge", "drum-shell", "drum-skin", 40.8, 41.2, 1.5, "glue"),
            Stuck("drum-pad", "Drum on the belly", "body", "drum-shell", 16.8, 17.2, 0.5, "glue"),
            Pinned("axles", "Axles", "limpet-cart", "cart-wheel", Kit.PinHoleMm, 38, "axle"),
            Pressed("key", "Key in the back", "body", "winding-key", Kit.KeyShaftMm, Kit.KeyHoleMm, 6),
        ],
        Hardware =
        [
            Glue(),
            Rod("axle", "Axle", 2, 38) with { ForPart = "limpet-cart" },
            new() { Slug = "spring-motor", Kind = "motor", Name = "Small wind-up spring motor", Quantity = 1, Size = "18 × 25 × 15 mm or less", ForPart = "limpet-cart", Substitutes = "The works of a broken wind-up toy, glued in.", Caution = "Gears pinch: fit the cover before winding." },
            new() { Slug = "tyre", Kind = "wheel", Name = "Rubber ring as tyre", Quantity = 4, Size = "12 × 2 mm", DiameterMm = 12, ForPart = "limpet-cart", Substitutes = "A slice of bicycle tube." },
            new() { Slug = "tow-cord", Kind = "elastic", Name = "Tow cord", Quantity = 1, Size = "Ø 0.8 mm, 80 mm", DiameterMm = 0.8, CutLengthMm = 80, ForPart = "limpet-cart" },
        ],
        Steps =
        [
            new() { Number = 1, Title = "Drum", Parts = ["drum-shell", "drum-skin"], Hardware = ["glue"], Text = "Skins on their ledges, sun upward on both, a thin line of glue." },
            new() { Number = 2, Title = "Pop in the arms", Parts = ["body", "left-arm", "right-arm"], Text = "Warm the body in your hands, set the ball straight, push until it clicks. Mallet down on the left, up on the right." },
            new() { Number = 3, Title = "Face", Parts = ["head", "tusk"], Hardware = ["glue"], Text = "Tusks with their tips toward the chest. Head into the collar." },
            new() { Number = 4, Title = "Drum on the belly", Parts = ["body", "drum-shell"], Hardware = ["glue"], Text = "On the pad, so that the lower hoop is just clear of the sand." },
            new() { Number = 5, Title = "Finish", Parts = ["fez", "winding-key"], Text = "Tassel over the right eye. Key in the back." },
            new() { Number = 6, Title = "Motor for the limpet", Parts = ["limpet-cart"], Hardware = ["spring-motor", "glue"], ForPart = "limpet-cart", Text = "Glue the motor in its bay, winder through the side. Its output turns the rear axle; a drop of glue keeps the gear on." },
            new() { Number = 7, Title = "Wheels", Parts = ["limpet-cart", "cart-wheel"], Hardware = ["axle", "tyre", "tow-cord"], ForPart = "limpet-cart", Text = "Axles through, wheels on, 0.5 mm of play. Tie the cord to the hook." },
        ],
        Reports =
        [
            Report("body", "standard", 1, MexRigid, Worked, null, null, 99, "two-left-boots", new("PETG", 0.2, DeskFilament, "standing", "none"), "Prints without support, sockets click."),
            Report("body", "standard", 1, MexRigid, Worked, null, null, 83, "ferryman", new("PLA", 0.2, SmallFilament, "standing", "none"), "Good."),
            Report("body", "standard", 1, MexRigid, WorkedWithCare, "warped", "printing", 45, "Anselm", new("ABS", 0.2, DeskFilament, "standing", "brim"), "Flippers lifted in ABS, brim helped."),
            Report("left-arm", "standard", 1, MexRigid, Worked, null, null, 99, "two-left-boots", new("PETG", 0.2, DeskFilament, "as in the file", "from the plate"), "Good."),
            Report("left-arm", "standard", 1, MexRigid, Failed, "snapped", "assembly", 83, "ferryman", new("PLA", 0.2, SmallFilament, "as in the file", "from the plate"), "Ball came off its neck. Four walls next time."),
            Report("left-arm", "standard", 1, MexRigid, Worked, null, null, 79, "ferryman", new("PLA", 0.2, SmallFilament, "as in the file", "from the plate"), "With four walls it holds."),
            Report("tusk", "standard", 1, MexRigid, WorkedWithCare, "layers-parted", "cleaning", 68, "old-slipway", new("PLA", 0.16, DeskFilament, "standing", "none"), "Snap easily when printed standing. Lying with a flat sanded on is fine."),
            Report("drum-shell", "standard", 1, MexRigid, Worked, null, null, 66, "old-slipway", new("PLA", 0.2, DeskFilament, "lying on a hoop", "none"), "Cords are lovely."),
            Report("drum-skin", "standard", 1, MexRigid, WorkedWithCare, "warped", "printing", 66, "old-slipway", new("PLA", 0.2, DeskFilament, "lying", "none"), "Corners don't exist but the rim curled anyway. Glue stick."),
            Report("limpet-cart", "standard", 1, MexRigid, Worked, null, null, 54, "Kit P.", new("PETG", 0.2, DeskFilament, "standing", "none"), "Motor from a tin mouse fits exactly. It tows the drum and the cat's interest."),
            Report("limpet-cart", "standard", 1, MexRigid, WorkedWithCare, "too-tight", "assembly", 38, "two-left-boots", new("PETG", 0.2, DeskFilament, "standing", "none"), "Axle holes want the 1.6 drill."),
        ],
    };
}
