using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The diver: round helmet with a moustache behind the glass, lead boots, a whip aerial. Shapes in the figure's coordinates.</summary>
internal static class FathomJoeShapes
{
    public static readonly Vec3 HelmetCenter = new(0, -1, 90);
    public static readonly Vec3 AerialFoot = new(7, 2, 101);
    public static readonly Vec3 HipPin = new(0, 0, 42);
    public static readonly Vec3 ShoulderPin = new(0, 0, 66);
    public static readonly Vec3 LeftFist = new(27, -17, 47);
    public static readonly Vec3 RightFist = new(-29, -16, 67);
    public static readonly Vec3 KeyPlace = new(0, 21, 60);
    private static readonly Vec3 MugPeg = new(1, 0.15, 0);
    private static readonly Vec3 TrumpetGrip = new(-0.2, -0.45, 1);

    public static Shape Suit()
    {
        var body = Egg(new(0, 0, 57), 19, 14.5, 19)
            .Melt(6, Egg(new(0, 0.5, 45), 17.5, 13, 9), Limb(new(-13, 0, 66), 8, new(13, 0, 66), 8));
        // Folds of heavy canvas round the waist and a belt over them.
        body = body.Melt(2.5, Hoop(new(0, 0, 51.5), Vec3.UnitZ, 16.2, 1.6).Stretched(1, 0.77, 1), Hoop(new(0, 0, 40.5), Vec3.UnitZ, 13, 1.8).Stretched(1, 0.72, 1));
        body = body.Raised(new Extrusion(Outline.Of((-40, -40), (40, -40), (40, 40), (-40, 40)), 44.5, 48.5), 0.9);
        body = body.And(Block(new(0, -14.4, 46.5), 8.5, 3.4, 6.4, 0.8).Minus(Block(new(0, -16, 46.5), 5.6, 2.2, 3.4, 0.3)));

        // Corselet: a copper dish on the shoulders with eight wing nuts, and the ring the helmet sits on.
        var corselet = new Lathe(Outline.Profile((0, 66), (17.2, 66.2), (17.8, 67.4), (15.6, 72), (12.4, 75.4), (12.4, 78), (0, 78)).Grown(0.4));
        var nut = Ball(new(14.9, 0, 71.9), 1.5).And(Limb(new(15.6, -1.5, 73.1), 0.6, new(15.6, 1.5, 73.1), 0.6));
        body = body.And(corselet, nut.Around(8).Turned(Vec3.UnitZ, 22.5));

        // A lead heart on the chest, and the air box on the back that the key winds.
        var heart = Outline.Smooth(6, (0, -6.5), (5, -1.2), (6.2, 2.6), (3.6, 5), (0, 3.2), (-3.6, 5), (-6.2, 2.6), (-5, -1.2));
        body = body.And(new Extrusion(heart, -3, 2.4).Turned(Vec3.UnitX, 90).Moved(0, -14.4, 57.5));
        body = body.And(Block(new(0, 15, 60), 18, 11, 17, 2.5), Limb(new(-5.5, 19, 68), 2.6, new(-5.5, 13, 75), 2.2));
        body = body.Raised(Block(new(0, 20, 60), 13, 4, 12, 0.1), 0.5);

        // Slots for the legs' tongues, one rod through both; blind pin holes at the shoulders; the helmet's seat; the key's hole.
        var slot = Block(new(9, 0, 38.2), 7, 30, 17).And(new Bar(new(5.5, 0, 46.7), new(12.5, 0, 46.7), 6.6));
        return body
            .Minus(slot.Paired())
            .Minus(Bore(HipPin - (Vec3.UnitX * 30), HipPin + (Vec3.UnitX * 30), PinHoleMm))
            .Minus(Bore(new(11, 0, 66), new(30, 0, 66), PinHoleMm).Paired())
            .Minus(new HalfSpace(-Vec3.UnitX, new(19.6, 0, 66)).Within(new Bar(new(18, 0, 66), new(40, 0, 66), 8.6)).Paired())
            .Minus(Bore(new(0, 0, 74), new(0, 0, 80), 8.15))
            .Minus(KeyHole(KeyPlace, Back));
    }

    public static Shape Helmet()
    {
        var c = HelmetCenter;
        var shell = Ball(c, 13.6).Melt(2, new Lathe(Outline.Profile((0, 78), (12.6, 78), (12.6, 81.5), (10.5, 83), (0, 83)).Grown(0.3)).Moved(0, -0.3, 0));
        var glass = new Bar(c + new Vec3(0, -6, -0.5), c + new Vec3(0, -11.6, -0.5), 7.2);
        var rim = Hoop(c + new Vec3(0, -11.9, -0.5), Vec3.UnitY, 7.6, 1.7);
        var stud = Ball(c + new Vec3(7.6, -13.3, -0.5), 0.75);
        var studs = Enumerable.Range(0, 8).Select(i => stud.Turned(Vec3.UnitY, 45 * i, c + new Vec3(0, 0, -0.5)));
        var side = Hoop(c + new Vec3(12.4, 1, 1), Vec3.UnitX, 4, 1.2)
            .And(Limb(c + new Vec3(13.2, 1, -3), 0.7, c + new Vec3(13.2, 1, 5), 0.7), Limb(c + new Vec3(13.2, -3, 1), 0.7, c + new Vec3(13.2, 5, 1), 0.7));
        var top = Hoop(c + new Vec3(0, -5.6, 12.6), new(0, -0.5, 1), 3.4, 1);
        var helmet = shell.Minus(new Bar(c + new Vec3(0, -9.2, -0.5), c + new Vec3(0, -20, -0.5), 6.6)).And(rim, side.Paired(), top).And([.. studs]);
        helmet = helmet.And(Face(c).Within(glass.Grown(3)));

        // The rim stands on the corselet; a boss for the aerial, the peg that sits in the corselet.
        return helmet
            .Minus(new HalfSpace(Vec3.UnitZ, new(0, 0, 78.5)))
            .Melt(1, Limb(AerialFoot - new Vec3(2, 1, 5), 2.6, AerialFoot - new Vec3(0, 0, 1.5), 2.3))
            .Minus(new HalfSpace(-Vec3.UnitZ, AerialFoot).Within(new Bar(AerialFoot - Vec3.UnitZ, AerialFoot + (Vec3.UnitZ * 4), 4)))
            .Minus(Bore(AerialFoot - (Vec3.UnitZ * 4.4), AerialFoot + (Vec3.UnitZ * 4), 2.7))
            .And(Plug(new(0, 0, 78.5), -Vec3.UnitZ, 8, 3.8));
    }

    private static Shape Face(Vec3 c)
    {
        var skin = Egg(c + new Vec3(0, -7.4, -0.5), 6.6, 2.6, 6.6);
        var nose = Egg(c + new Vec3(0, -10.6, -0.6), 1.5, 1.6, 1.7);
        var eye = Ball(c + new Vec3(2.5, -9.6, 1.9), 1.05);
        var brow = Limb(c + new Vec3(1.3, -9.8, 3.7), 0.5, c + new Vec3(3.9, -9, 3.3), 0.45);
        var moustache = Limb(c + new Vec3(0.4, -10.6, -2.3), 1.1, c + new Vec3(3, -10.4, -3), 1.1).Melt(0.4, Limb(c + new Vec3(3, -10.4, -3), 1, c + new Vec3(4.9, -9.6, -1.5), 0.5));
        return skin.And(nose, eye.Paired(), brow.Paired(), moustache.Paired());
    }

    /// <summary>The aerial for filament: the same foot with a hole for a piece of 1 mm steel wire, not into the plug: its wall would be 0.7 mm.</summary>
    public static Shape AerialForWire() =>
        Plug(AerialFoot, -Vec3.UnitZ, 2.5, 4)
            .And(new Lathe(Outline.Profile((0, 0.05), (2.3, 0.05), (2.3, 1.4), (1.5, 4), (0, 4))).Moved(AerialFoot))
            .Minus(Bore(AerialFoot, AerialFoot + (Vec3.UnitZ * 6), 1.1));

    /// <summary>A whip of 1.0 mm with a bead at its end; the thinnest thing in the range.</summary>
    public static Shape Aerial() =>
        Plug(AerialFoot, -Vec3.UnitZ, 2.5, 4)
            .And(new Lathe(Outline.Profile((0, 0.05), (2.3, 0.05), (2.3, 1), (1.1, 2.4), (0, 2.4))).Moved(AerialFoot))
            .And(new Bar(AerialFoot, new(AerialFoot.X, AerialFoot.Y, 119), 0.5))
            .And(Ball(new(AerialFoot.X, AerialFoot.Y, 119), 1));

    public static Shape Arm(bool left)
    {
        // Modelled on +x, reflected for the right; only the pose of the forearm differs.
        var fist = left ? LeftFist : RightFist with { X = -RightFist.X };
        var elbow = left ? new Vec3(27.5, -3, 50) : new Vec3(29.5, -2, 54);
        var grip = left ? TrumpetGrip with { X = -TrumpetGrip.X } : MugPeg;
        var wrist = elbow + ((fist - elbow) * 0.68);
        var cuff = (fist - elbow).Normalized();
        var arm = Limb(new(24.8, 0, 65), 6.4, elbow, 5.6)
            .Melt(1.5, Limb(elbow, 5.6, wrist, 4.6))
            .Melt(1.2, Hoop(new Vec3(25.9, -1, 58.5), new(0.25, -0.15, -1), 5.2, 1.2), Hoop(elbow + (cuff * 4), cuff, 4.6, 1.2))
            .And(new Bar(wrist - (cuff * 1.2), wrist + (cuff * 1.2), 5.2).Grown(0.3))
            .Melt(0.8, Limb(wrist, 3.6, fist, 3.2), Fist(fist, grip, elbow - fist, 4.3));
        arm = arm.And(new Bar(new(19.75, 0, 66), new(25, 0, 66), 6.2));
        arm = arm.Minus(Bore(new(18, 0, 66), new(28.2, 0, 66), PinHoleMm))
            .Minus(new HalfSpace(Vec3.UnitX, new(19.75, 0, 66)))
            .Minus(Bore(fist - (grip.Normalized() * (left ? 8 : 1)), fist + (grip.Normalized() * 8), 3.2));
        return (left ? arm : arm.Reflected()).Minus((left ? Trumpet() : Mug()).Grown(0.12));
    }

    public static Shape Leg(bool left, double hole)
    {
        var leg = Limb(new(9, 0.5, 33), 7.2, new(9.5, 0.5, 20), 6.4)
            .Melt(1.5, Hoop(new(9.2, 0.5, 27.5), Vec3.UnitZ, 6, 1.3), Hoop(new(9.4, 0.5, 21.5), Vec3.UnitZ, 5.6, 1.3))
            .Minus(new HalfSpace(-Vec3.UnitZ, new(9, 0, 35.4)));
        var boot = Egg(new(10, -5.5, 6.5), 7.6, 10.5, 7).Melt(3, Limb(new(9.5, 0.5, 8), 6.8, new(9.5, 0.5, 17), 6.2));
        boot = boot.Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 3.2)));
        var sole = new Extrusion(Outline.Smooth(6, (2.2, 5), (9.8, 7.6), (17, 5), (17.4, -6), (14.6, -14.4), (10, -16.4), (5.2, -14.4), (2.4, -6)), 0, 3.8);
        var strap = new Bar(new(9.5, 0.5, 13.4), new(9.5, 0.5, 15.8), 7.2).Grown(0.3);
        var lace = Limb(new(7, -7.2, 11.3), 0.7, new(12.2, -7.2, 11.3), 0.7).And(Limb(new(7.2, -9.6, 10.6), 0.7, new(12.2, -9.6, 10.6), 0.7));
        var tongue = Block(new(9, 0, 38), 6.4, 12.4, 12).And(new Bar(new(5.8, 0, 44), new(12.2, 0, 44), 6.2)).Within(new HalfSpace(-Vec3.UnitX, new(0, 0, 0)));
        leg = leg.And(boot, sole, strap, lace, tongue).Minus(Bore(new(-5, 0, 42), new(25, 0, 42), hole));
        return left ? leg : leg.Reflected();
    }

    /// <summary>An open cup that catches liquid when it prints mouth up (and hangs mouth down in resin).</summary>
    public static Shape Mug()
    {
        var c = RightFist + new Vec3(9.6, 1.4, 0);
        var mug = new Lathe(Outline.Profile((0, -6), (4.6, -6), (5.2, 7), (4.2, 7), (3.6, -4.8), (0, -4.8))).Moved(c);
        var band = Hoop(c + new Vec3(0, 0, 5.6), Vec3.UnitZ, 5.15, 0.55).And(Hoop(c + new Vec3(0, 0, -4.4), Vec3.UnitZ, 4.75, 0.55));
        return mug.And(band.Minus(new Bar(c + new Vec3(0, 0, -4), c + new Vec3(0, 0, 9), 4.1)), Plug(c - (MugPeg.Normalized() * 5.3), -MugPeg, 3, 5).Minus(new Bar(c - (Vec3.UnitZ * 4), c + (Vec3.UnitZ * 9), 4)));
    }

    /// <summary>A speaking trumpet: a bore of 4 mm, 21 mm deep, closed at the mouthpiece.</summary>
    public static Shape Trumpet()
    {
        var g = TrumpetGrip.Normalized();
        var horn = new Lathe(Outline.Profile((0, -12), (2.9, -12), (3.1, -9.5), (3.1, 6), (4.2, 10), (7, 13.6), (6.2, 14.2), (3.2, 10.6), (2, 6.5), (2, -8), (0, -8)));
        var rim = Hoop(new(0, 0, 13.6), Vec3.UnitZ, 6.6, 0.7).And(Hoop(new(0, 0, -11.3), Vec3.UnitZ, 2.9, 0.7));
        var at = LeftFist + (g * 13.5);
        return horn.And(rim).Along(new(0, -1, 0.25), at).And(Limb(at - (g * 5.5), 1.8, at - (g * 2), 2.2).Minus(Limb(at - (new Vec3(0, -1, 0.25).Normalized() * 6), 2.2, at + (new Vec3(0, -1, 0.25).Normalized() * 6), 2.2)))
            .And(Plug(at - (g * 6), -g, 3, 7));
    }
}
