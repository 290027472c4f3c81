using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The strong crab: a broad shell in a striped bathing suit, claws held high, a waxed moustache. Shapes in the figure's coordinates.</summary>
internal static class BosunGripShapes
{
    public static readonly Vec3 LeftShoulder = new(33.5, -2, 66);
    public static readonly Vec3 HipPin = new(0, 1, 40);
    public static readonly Vec3 KeyPlace = new(0, 21.4, 62);
    public static readonly Vec3 EyeFoot = new(8.5, -10, 76.4);
    public static readonly Vec3 MoustachePlace = new(0, -17.2, 64);
    public static readonly Vec3 Barbell = new(0, 36, 11);
    private static readonly Vec3 Outward = new Vec3(1, -0.1, 0.45).Normalized();
    private static readonly Vec3 EyeAxis = new Vec3(0, -0.25, 1).Normalized();

    /// <summary>The shell. With <paramref name="sockets"/> the shoulders take pop-in balls, without they take plug-in sleeves.</summary>
    public static Shape Carapace(bool sockets)
    {
        var shell = Egg(new(0, 2, 64), 33, 19, 18).Melt(5, Egg(new(0, 0.5, 48), 22, 15.5, 13));
        var rim = Spline.Rope(5, (new(15, -14.6, 74), 1.2), (new(25, -10.5, 71.6), 2.2), (new(32, -2, 66.5), 2), (new(29, 9, 64), 1.7));
        var spike = Limb(new(24.5, -6, 76), 2.6, new(29, -8, 81.4), 0.9).And(Limb(new(17, -4, 79.4), 2.6, new(19.6, -5, 84.6), 0.9));
        var body = shell.Melt(2, rim.Paired()).Melt(1.5, spike.Paired());

        // The bathing suit: stripes raised 0.4 mm, a neckline, two buttons.
        body = body.Embossed(new Union(Enumerable.Range(0, 4).Select(i => Block(new(0, 0, 38 + (5.4 * i)), 90, 90, 2.7))), 0.4);

        var strap = Limb(new(7, -16.6, 55.4), 1.7, new(13.5, -15.4, 68), 1.7);
        body = body.Melt(0.5, strap.Paired()).And(Ball(new(7.6, -17.6, 56.4), 1.5), Ball(new(-7.6, -17.6, 56.4), 1.5));
        var mouth = Spline.Rope(4, (new(-7, -15.6, 59), 0.9), (new(0, -17, 56.4), 1.4), (new(7, -15.6, 59), 0.9));
        body = body.And(mouth, new Bar(new(0, 12, 62), new(0, 21, 62), 5.4).Grown(0.4));

        // Seats: hips, eyes, moustache, key, shoulders.
        var slot = Block(new(11, 1, 36.6), 8, 34, 14).And(new Bar(new(7, 1, 43.6), new(15, 1, 43.6), 5.2));
        body = body.Melt(2, Limb(LeftShoulder - (Outward * 8), 7.5, LeftShoulder - (Outward * 2.4), 6.4).Paired());
        var face = LeftShoulder + (Outward * (sockets ? MouthDepth : 0));
        body = body.Minus(new HalfSpace(-Outward, face).Within(new Bar(face - (Outward * 2), face + (Outward * 9), 9)).Paired());
        body = sockets
            ? body.Minus(Socket(LeftShoulder, Outward).Paired())
            : body.Minus(SleeveHole(face, -Outward).Paired());
        return body
            .Minus(slot.Paired())
            .Minus(Bore(HipPin - (Vec3.UnitX * 40), HipPin + (Vec3.UnitX * 40), PinHoleMm))
            .Minus(new HalfSpace(-EyeAxis, EyeFoot).Within(new Bar(EyeFoot - EyeAxis, EyeFoot + (EyeAxis * 7), 3.6)).Paired())
            .Minus(Bore(EyeFoot - (EyeAxis * 5.4), EyeFoot + (EyeAxis * 5), 3.2).Paired())
            .Minus(Bore(MoustachePlace + new Vec3(0, -6, 0), MoustachePlace + new Vec3(0, 6.4, 0), 2.7))
            .Minus(KeyHole(KeyPlace, Back));
    }

    /// <summary>A claw: the left one is the crusher and half as big again.</summary>
    public static Shape Claw(bool left, bool ball)
    {
        var s = left ? 1.0 : 0.8;
        var root = LeftShoulder + (Outward * (ball ? MouthDepth + 1.2 : 0.1));
        var elbow = new Vec3(47, -5, 79);
        var wrist = new Vec3(44.5, -9, 90);
        var palm = wrist + new Vec3(-2.5 * s, -1.5, 9 * s);
        var up = new Vec3(-0.34, -0.1, 1).Normalized();
        var across = new Vec3(1, 0, 0.34).Normalized();

        var arm = Limb(root + (Outward * 2.6), 4.3, elbow, 5).Melt(2, Limb(elbow, 5, wrist, 4.4));
        arm = arm.Melt(1, Limb(elbow + new Vec3(3, 0, -2), 1.8, elbow + new Vec3(7.4, 0, -2.4), 0.9), Hoop(wrist - new Vec3(-0.4, -0.7, 2), new(-0.2, -0.4, 1), 4.4, 1.1));
        var finger = Spline.Rope(5, (palm + (across * -5.4 * s) + (up * 4 * s), 5.2 * s), (palm + (across * -7.4 * s) + (up * 11 * s), 4.2 * s), (palm + (across * -4 * s) + (up * 18 * s), 2.7 * s), (palm + (across * 0.6 * s) + (up * 21.5 * s), 1.2 * s));
        var thumb = Spline.Rope(5, (palm + (across * 5.2 * s) + (up * 3 * s), 4.4 * s), (palm + (across * 8 * s) + (up * 9 * s), 3.4 * s), (palm + (across * 6.6 * s) + (up * 15.4 * s), 2.2 * s), (palm + (across * 3.4 * s) + (up * 18.6 * s), 1 * s));
        var teeth = Enumerable.Range(0, 3).Select(i => (Shape)Ball(palm + (across * (-3.2 + (0.5 * i)) * s) + (up * (9 + (3.2 * i)) * s), 1.3 * s));
        var claw = Egg(Vec3.Zero, 9.2 * s, 6.2 * s, 10 * s).Along(up, palm).Melt(2.5, finger, thumb).And([.. teeth]);
        var bumps = new[] { new Vec3(-3, -5.4, 2), new Vec3(2.6, -5.6, -1), new Vec3(-0.4, -5.9, 5.6) }.Select(v => (Shape)Ball(palm + (v * s), 1.2 * s));
        arm = arm.Melt(2, claw.And([.. bumps]));
        arm = ball
            ? arm.Melt(1, Limb(root, 3, root + (Outward * 3), 4.2)).Minus(new HalfSpace(Outward, root).Within(new Ball(root, 8))).And(BallStud(root + Outward, LeftShoulder))
            : arm.Melt(1, new Bar(root - Outward, root + (Outward * 2.4), 5).Grown(0.3)).Minus(new HalfSpace(Outward, root).Within(new Ball(root, 8))).And(Sleeve(root, -Outward));
        return left ? arm : arm.Reflected();
    }

    public static Shape Leg(bool left)
    {
        var main = Limb(new(11.5, 1, 34), 6.2, new(20, -3, 24), 5.2).Melt(2, Limb(new(20, -3, 24), 5.2, new(17, -4, 11), 4.2));
        var boot = Egg(new(17.5, -7.4, 5), 6.4, 9, 5.6).Melt(2, Limb(new(17, -4, 7), 4.6, new(17, -4, 11), 4.6)).Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero));
        var cuff = Hoop(new(17, -4, 12.4), Vec3.UnitZ, 4.5, 1.4);
        var knee = Ball(new(22.6, -4.4, 25.6), 2.4);
        var side = Spline.Rope(4, (new(15, 4, 33), 3.4), (new(27, 9, 31), 2.7), (new(32, 11, 22), 2.3), (new(29, 11, 12), 1.5))
            .And(Spline.Rope(4, (new(15, 0, 34), 3.2), (new(29, 0, 36), 2.5), (new(37, 0, 29), 2.1), (new(35.6, -1, 19.6), 1.4)));
        var tongue = Block(new(11, 1, 36), 7.4, 9.6, 12).And(new Bar(new(7.3, 1, 42), new(14.7, 1, 42), 4.8));
        var leg = main.Melt(1.5, boot, knee, side).And(cuff);
        leg = leg.Minus(new HalfSpace(-Vec3.UnitZ, new(0, 0, 35.2)).Within(Block(new(11, 0, 44), 60, 60, 40)))
            .And(tongue)
            .Minus(Bore(HipPin - (Vec3.UnitX * 40), HipPin + (Vec3.UnitX * 40), PinHoleMm))
            .Minus(Carapace(sockets: false).Grown(0.25).Within(Block(new(16, 0, 46), 50, 60, 24)));
        return left ? leg : leg.Reflected();
    }

    /// <summary>An eye on a stalk of 3.2 mm; the same file serves both.</summary>
    public static Shape EyeStalk()
    {
        var top = EyeFoot + (EyeAxis * 11);
        return Plug(EyeFoot + (EyeAxis * 0.1), -EyeAxis, 3, 5)
            .And(Limb(EyeFoot + (EyeAxis * 1.9), 1.7, top, 1.6).And(new Bar(EyeFoot + (EyeAxis * 0.1), EyeFoot + (EyeAxis * 1.3), 2.7)))
            .Melt(0.8, Ball(top + (EyeAxis * 3), 4.6))
            .And(Eye(top + (EyeAxis * 3), 4.6, new(0, -1, 0.1)))
            .And(new Ball(top + (EyeAxis * 3), 5.1).Within(new HalfSpace(new(0, -0.5, -1), top + (EyeAxis * 5.4))));
    }

    public static Shape Moustache()
    {
        var at = MoustachePlace;
        var half = Spline.Rope(5, (at + new Vec3(0, -1.4, 0), 2.2), (at + new Vec3(4, -1.8, -0.9), 2.5), (at + new Vec3(9, -1.2, -1.4), 2), (at + new Vec3(13, -0.9, 1), 1.3), (at + new Vec3(13.4, -1.2, 4.4), 1.1), (at + new Vec3(11.4, -1.2, 5.4), 0.9));
        return half.Paired().And(Ball(at + new Vec3(0, -2.4, 1.6), 2.6))
            .Minus(Carapace(sockets: false).Grown(0.1).Within(Block(at + new Vec3(0, 4, 0), 40, 12, 20)))
            .And(Plug(at + new Vec3(0, 0.4, 0), Vec3.UnitY, 2.5, 4.5));
    }

    /// <summary>Two cannonballs on a bar: heavy for its size, and it rolls.</summary>
    public static Shape BarbellShape()
    {
        var ball = Ball(Barbell + new Vec3(27, 0, 0), 11).Engraved(new Bar(Barbell + new Vec3(26.6, 0, 0), Barbell + new Vec3(27.4, 0, 0), 14), 0.8);
        return Bore(Barbell - (Vec3.UnitX * 30), Barbell + (Vec3.UnitX * 30), 5).And(ball.Paired(), Hoop(Barbell + new Vec3(16, 0, 0), Vec3.UnitX, 2.8, 0.9).Paired());
    }
}
