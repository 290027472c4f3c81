using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The walrus with the big drum, made for filament only: thick limbs, pop-in shoulders. Shapes in the figure's coordinates.</summary>
internal static class BigDrumOlafShapes
{
    public static readonly Vec3 Neck = new(0, 1, 67);
    public static readonly Vec3 Crown = new(0, 0.5, 98.4);
    public static readonly Vec3 LeftShoulder = new(22.4, -3, 55);
    public static readonly Vec3 DrumCenter = new(0, -39.6, 31);
    public static readonly Vec3 TuskSeat = new(5.6, -18.4, 74.6);
    public static readonly Vec3 KeyPlace = new(0, 31.2, 40);
    public static readonly Vec3 CartMiddle = new(0, 84, 0);
    private static readonly Vec3 Outward = new Vec3(1, -0.25, 0.12).Normalized();
    private static readonly Vec3 TuskAxis = new Vec3(0, -0.16, -1).Normalized();

    public static Shape Body()
    {
        var body = Egg(new(0, 4, 33), 27, 25, 32)
            .Melt(8, Limb(new(-12, -1, 56), 11, new(12, -1, 56), 11))
            .Melt(5, Egg(new(0, 6, 5), 21, 21, 7));
        var flipper = Egg(Vec3.Zero, 8.6, 13, 4.6).Turned(Vec3.UnitZ, 24).Moved(19, -17, 4.4);
        var toes = Enumerable.Range(0, 4).Select(i => (Shape)Limb(new(18 + (1.6 * i), -20, 5), 2.2, new(20.4 + (2.6 * i), -28.4 + (1.1 * i), 3.4), 1.8));
        var tail = Egg(new(0, 32, 5), 9, 11, 4.6).Melt(3, Limb(new(-5, 38, 4.4), 3.4, new(-9, 46, 3.6), 2.2), Limb(new(5, 38, 4.4), 3.4, new(9, 46, 3.6), 2.2));
        body = body.Melt(4, flipper.Melt(1.5, [.. toes]).Paired(), tail);
        // A braided bandsman's coat: open in front, two rows of frogging, epaulettes.
        var coat = Block(new(0, 4, 46), 80, 80, 44, 4).Minus(Limb(new(0, -32, 62), 4, new(0, -34, 20), 13));
        body = body.Embossed(coat, 0.8);
        var epaulette = Egg(new(15, 0, 63.4), 7, 6, 2.8).And(Hoop(new Vec3(15, 0, 63.8), new(0.35, 0, 1), 5, 0.8));
        body = body.And(epaulette.Paired()).And(new Bar(new(0, 24, 40), new(0, 30.8, 40), 5).Grown(0.4));
        body = body.Melt(2, Limb(LeftShoulder - (Outward * 9), 7, LeftShoulder - (Outward * 2), 6.2).Paired());
        var face = LeftShoulder + (Outward * MouthDepth);
        // The drum is glued to a pad on the belly.
        var pad = new Bar(new(0, -16, 31), new(0, -27, 31), 8).Grown(0.4);
        return body.And(pad)
            .Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero).Within(new HalfSpace(Vec3.UnitZ, Neck)))
            .Minus(new HalfSpace(-Outward, face).Within(new Bar(face - (Outward * 2), face + (Outward * 9), 7.4)).Paired())
            .Minus(Socket(LeftShoulder, Outward).Paired())
            .Minus(Bore(Neck - (Vec3.UnitZ * 7.4), Neck + (Vec3.UnitZ * 4), 10.3), KeyHole(KeyPlace, Back));
    }

    public static Shape Head()
    {
        var c = new Vec3(0, 0, 83);
        var skull = Egg(c, 17, 16.4, 16.4).Melt(4, new Bar(Neck + (Vec3.UnitZ * 0.1), Neck + (Vec3.UnitZ * 6), 11));
        var jowl = Egg(c + new Vec3(6.2, -14.4, -5.4), 7.6, 6.2, 6.4);
        // Where a tusk sits there are no bristles: what its seat left of them would be too thin to print.
        var bristles = Enumerable.Range(0, 9)
            .Select(i => (From: c + new Vec3(3.8 + (2.6 * (i % 3)), -18.6 + (0.7 * (i % 3)), -3 - (2.7 * (i / 3))), To: c + new Vec3(4 + (2.9 * (i % 3)), -21.2 + (0.9 * (i % 3)), -3.2 - (2.9 * (i / 3)))))
            .Where(b => Vec3.Cross(b.To - TuskSeat, TuskAxis).Length > 4.6)
            .Select(b => (Shape)Limb(b.From, 1, b.To, 0.9));
        var nose = Egg(c + new Vec3(0, -18, 1.4), 4.2, 3.4, 3);
        var eye = Eye(c + new Vec3(6.6, -13.4, 5.6), 2.7, new(0.05, -1, 0));
        var lid = new Ball(c + new Vec3(6.6, -13.4, 5.6), 3.2).Within(new HalfSpace(new(-0.1, -0.4, -1), c + new Vec3(6.6, -13.4, 6.8)));
        var brow = Spline.Rope(4, (c + new Vec3(3.2, -14, 11.4), 1.2), (c + new Vec3(7.2, -12.4, 12.2), 1.6), (c + new Vec3(11.6, -9.6, 9.4), 1.1));
        var mouth = Limb(c + new Vec3(-3.4, -15, -11.4), 2.6, c + new Vec3(3.4, -15, -11.4), 2.6);
        return skull.Melt(2.5, jowl.Paired(), mouth).Melt(1, nose).And(eye.Paired(), lid.Paired()).Melt(0.6, brow.Paired()).And([.. bristles.Select(b => b.Paired())])
            .Minus(new HalfSpace(Vec3.UnitZ, Neck + new Vec3(0, 0, 0.1)))
            .And(Plug(Neck + new Vec3(0, 0, 0.1), -Vec3.UnitZ, 10, 7))
            .Minus(Bore(TuskSeat + (TuskAxis * -5), TuskSeat + (TuskAxis * 3), 4.2).Paired())
            .Minus(new HalfSpace(-TuskAxis, TuskSeat).Within(new Bar(TuskSeat - (TuskAxis * 0.5), TuskSeat + (TuskAxis * 8), 3.3)).Paired())
            .Minus(new HalfSpace(-Vec3.UnitZ, Crown).Within(new Bar(Crown - (Vec3.UnitZ * 2), Crown + (Vec3.UnitZ * 5), 12)))
            .Minus(Bore(Crown - (Vec3.UnitZ * 4.4), Crown + (Vec3.UnitZ * 3), 6.2));
    }

    /// <summary>A tusk, 5.4 mm at the root; the same file for both sides.</summary>
    public static Shape Tusk()
    {
        var root = TuskSeat + (TuskAxis * 0.1);
        return Spline.Rope(5, (root + (TuskAxis * 2), 2.7), (root + (TuskAxis * 10), 2.5), (root + (TuskAxis * 17) + new Vec3(0, 0.6, 0), 2), (root + (TuskAxis * 22) + new Vec3(0, 2, 0), 1.3))
            .Minus(new HalfSpace(TuskAxis, root)).And(new Bar(root, root + (TuskAxis * 1.6), 2.9)).And(Plug(root, -TuskAxis, 4, 4.6));
    }

    public static Shape DrumShell()
    {
        var hoop = new Bar(new(0, 0, 8), new(0, 0, 10.8), 24.6).And(new Bar(new(0, 0, -10.8), new(0, 0, -8), 24.6));
        var tube = new Bar(new(0, 0, -10.8), new(0, 0, 10.8), 23).And(hoop).Minus(new Bar(new(0, 0, -12), new(0, 0, 12), 20.6));
        // Rope tensioners: a zigzag of cords between the hoops. A ring inside keeps the skins 0.2 mm below the rim.
        var cord = Limb(new(23.2, -5.6, 8.2), 0.9, new(23.6, 0, -8.2), 0.9).And(Limb(new(23.2, 5.6, 8.2), 0.9, new(23.6, 0, -8.2), 0.9), Ball(new(23.8, 0, -5.4), 1.6));
        var ring = new Bar(new(0, 0, -9), new(0, 0, 9), 21).Minus(new Bar(new(0, 0, -12), new(0, 0, 12), 19));
        return tube.And(cord.Around(13), ring).Turned(Vec3.UnitX, 90).Moved(DrumCenter);
    }

    /// <summary>A skin of 1.6 mm with the troupe's half tide on it: a wave under a rising sun. Two of the same file.</summary>
    public static Shape DrumSkin()
    {
        var disc = new Bar(new(0, 0, 9.1), new(0, 0, 10.6), 20.4);
        var sun = Hoop(new(0, 1, 10.5), Vec3.UnitZ, 6, 0.9).And(Limb(new(9, 0, 0), 0.9, new(13.4, 0, 0), 0.9).Around(12).Moved(0, 1, 10.4)).Within(new HalfSpace(-Vec3.UnitY, new(0, -1, 0)));
        var wave = Spline.Rope(4, (new(-15, -4, 10.4), 1.1), (new(-10, -2.6, 10.4), 1.1), (new(-5, -5.4, 10.4), 1.1), (new(0, -2.6, 10.4), 1.1), (new(5, -5.4, 10.4), 1.1), (new(10, -2.6, 10.4), 1.1), (new(15, -4, 10.4), 1.1));
        return disc.And(sun, wave, wave.Moved(0, -5, 0).Within(new Bar(new(0, 0, 8), new(0, 0, 13), 17)))
            .Turned(Vec3.UnitX, 90).Moved(DrumCenter);
    }

    public static Shape Arm(bool left)
    {
        var root = LeftShoulder + (Outward * (MouthDepth + 1.2));
        var elbow = left ? new Vec3(35, -14, 49) : new Vec3(36, -9, 57);
        var hand = left ? new Vec3(31, -31, 49) : new Vec3(30, -24, 68);
        var head = left ? new Vec3(13, -44.6, 61.5) : new Vec3(17, -38, 82);
        var arm = Limb(root + (Outward * 3), 5.2, elbow, 5.4).Melt(2, Limb(elbow, 5.4, hand, 4.6));
        var fingers = Enumerable.Range(0, 3).Select(i => (Shape)Limb(hand + new Vec3(-1, -1, -3 + (3 * i)), 2.4, hand + new Vec3(-5, -4.4, -2.4 + (2.4 * i)), 2));
        var cuff = (hand - elbow).Normalized();
        var stickAxis = (head - hand).Normalized();
        var mallet = Limb(hand - (stickAxis * 7), 2.6, head, 2.5).And(Ball(head, 6.4), Hoop(head, stickAxis, 6.1, 0.9));
        arm = arm.Melt(1.2, [.. fingers]).And(Hoop(elbow + (cuff * 5), cuff, 5.1, 1.5), mallet);
        arm = arm.Melt(1, Limb(root, 3, root + (Outward * 3), 4.6)).Minus(new HalfSpace(Outward, root).Within(new Ball(root, 8))).And(BallStud(root + Outward, LeftShoulder));
        return left ? arm : arm.Reflected();
    }

    public static Shape Fez()
    {
        var z = Crown.Z + 0.1;
        var hat = new Lathe(Outline.Profile((0, z), (11, z), (8.4, z + 17), (0, z + 17)));
        var tassel = Spline.Rope(4, (new(0, 0, z + 17.4), 1.3), (new(6, -4, z + 17.4), 1.2), (new(9.6, -6, z + 13), 1.2), (new(10.4, -6.6, z + 9), 1.2)).And(Limb(new(10.4, -6.6, z + 9), 1.8, new(11.2, -7.2, z + 3.4), 2.6), Ball(new(10.4, -6.6, z + 9.4), 2.1));
        var band = new Lathe(Outline.Profile((0, z), (11.8, z), (11.3, z + 3.2), (0, z + 3.2)));
        return hat.And(band, Limb(new(0, 0, z + 17), 2, new(0, 0, z + 20.2), 1.2)).And(tassel).Moved(Crown.X, Crown.Y, 0).And(Plug(new(Crown.X, Crown.Y, z), -Vec3.UnitZ, 6, 4));
    }

    /// <summary>The wind-up limpet that tows the drum home: a shell on a tray with room for a small spring motor.</summary>
    public static Shape Cart()
    {
        var shell = new Lathe(Outline.Profile((0, 7), (21, 7), (19, 11), (8, 29), (3, 32), (0, 32.4)).Grown(0.6)).Stretched(1, 1.25, 1);
        var ridge = Limb(new(20.6, 0, 8), 1.8, new(5, 0, 31), 1).Around(12).Stretched(1, 1.25, 1);
        var tray = Block(new(0, 0, 8), 30, 46, 5, 1.4);
        var motor = Block(new(0, 0, 12), 19, 26, 17);
        var winder = new Bar(new(8, 0, 14), new(24, 0, 14), 2.2);
        var hook = Spline.Rope(4, (new(0, -24, 8), 2.2), (new(0, -31, 8.4), 2), (new(0, -34, 11.6), 1.9), (new(0, -31.4, 14), 1.7));
        var axle = Bore(new(-30, 15, 7.6), new(30, 15, 7.6), PinHoleMm).And(Bore(new(-30, -15, 7.6), new(30, -15, 7.6), PinHoleMm));
        return shell.And(ridge.Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 6.4))), tray, hook)
            .Minus(motor.Moved(0, 0, -1), winder, axle)
            .Minus(new HalfSpace(-Vec3.UnitX, new(15.6, 0, 0)).Within(new Bar(new(15, 15, 7.6), new(40, 15, 7.6), 8.4).And(new Bar(new(15, -15, 7.6), new(40, -15, 7.6), 8.4))).Paired())
            .Moved(CartMiddle);
    }

    /// <summary>A spoked wheel on the 1.5 mm axle; four of the same file.</summary>
    public static Shape CartWheel()
    {
        var rim = Hoop(Vec3.Zero, Vec3.UnitZ, 6, 1.6).And(new Bar(new(0, 0, -1.6), new(0, 0, 1.6), 2.6), Limb(new(0, 0, 0), 1.1, new(6, 0, 0), 1.1).Around(6));
        return rim.Minus(Bore(new(0, 0, -4), new(0, 0, 4), PinHoleMm)).Along(Vec3.UnitX, CartMiddle + new Vec3(17.6, 15, 7.6));
    }
}
