using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>
/// The girl who leans into the wind, coat-tails flying, behind an umbrella. Modelled facing −y and then turned 45° about z, so that the coat's
/// long body lies askew to all three axes of its file. Shapes in the figure's coordinates.
/// </summary>
internal static class NellGaleShapes
{
    private const double Heading = 45;
    private static readonly Vec3 NeckLocal = new(0, -19, 85);
    private static readonly Vec3 NeckAxis = new Vec3(0, -0.55, 1).Normalized();
    private static readonly Vec3 KeyLocal = new(0, -0.4, 74);
    private static readonly Vec3 KeyOut = new Vec3(0, 0.88, 0.47).Normalized();
    private static readonly Vec3 ShaftAxis = new Vec3(0.2, -0.34, 1).Normalized();
    private static readonly Vec3 LeftFist = new(16, -37, 71);
    private static readonly Vec3 RightFist = new(-17, -31, 97);

    public static Vec3 KeyPlace { get; } = Turn(KeyLocal);
    public static Vec3 KeyDirection { get; } = Turn(KeyOut);
    public static Vec3 Grip { get; } = Turn(LeftFist);

    /// <summary>Middle of the coat: origin of its file.</summary>
    public static Vec3 CoatMiddle { get; } = Turn(new(0, 6, 60));
    public static Vec3 HeadMiddle { get; } = Turn(new(0, -24, 96));
    public static Vec3 CanopyTop { get; } = Turn(Shaft(47.5));

    private static Vec3 Turn(Vec3 p) => Rotation.About(Vec3.UnitZ, double.DegreesToRadians(Heading)).Apply(p);

    private static Shape Placed(Shape s) => s.Turned(Vec3.UnitZ, Heading);

    /// <summary>A point of the umbrella's shaft, <paramref name="along"/> mm from the middle of the fist.</summary>
    private static Vec3 Shaft(double along) => LeftFist + (ShaftAxis * along);

    public static Shape Coat() => Placed(CoatLocal());

    private static Shape CoatLocal()
    {
        var trunk = Limb(new(0, 4, 49), 12.4, new(0, -14, 78), 10).Melt(4, Limb(new(-8.4, -15.6, 79), 6, new(8.4, -15.6, 79), 6));
        // Coat-tails: three wide folds that stream back and end in points.
        var tails = Spline.Rope(5, (new(0, 6, 46), 11), (new(0, 22, 39), 8), (new(-1, 40, 32), 4.6), (new(-4, 56, 32), 2))
            .Melt(9, Spline.Rope(5, (new(7, 5, 45), 9), (new(12, 20, 35), 6), (new(14, 36, 27), 3.6), (new(19, 50, 26), 1.8)))
            .Melt(9, Spline.Rope(5, (new(-7, 5, 45), 9), (new(-12, 19, 34), 6), (new(-15, 33, 26), 3.6), (new(-18, 47, 22), 1.8)));
        var hem = Limb(new(-9, -2, 38), 5.5, new(9, -2, 38), 5.5);
        var collar = Hoop(NeckLocal - (NeckAxis * 1), NeckAxis, 6.4, 2);
        var coat = trunk.Melt(6, tails, hem).Melt(1.4, collar);
        var belt = Hoop(new(0, -1.4, 57.4), new(0, -0.53, 0.85), 12.2, 1.3);
        coat = coat.Melt(0.8, belt).And(Block(Vec3.Zero, 6, 3, 5, 0.6).Turned(Vec3.UnitX, -32).Moved(0, -12.6, 51.2));
        var buttons = new Vec3[] { new(4, -23.6, 74), new(4, -19.2, 67.4), new(-4, -23.6, 74), new(-4, -19.2, 67.4) }.Select(b => (Shape)new Ball(b, 1.4));
        coat = coat.And([.. buttons]).And(new Bar(KeyLocal - (KeyOut * 7), KeyLocal - (KeyOut * 0.4), 4.6).Grown(0.4));
        return coat
            .Minus(new HalfSpace(Vec3.UnitZ, new(0, 0, 34.7)).Within(new Ball(new(0, -4, 30), 18)))
            .Minus(BootLocal(left: true).And(BootLocal(left: false)).Grown(0.3).Within(new HalfSpace(Vec3.UnitZ, new(0, 0, 37))))
            .Minus(new HalfSpace(-NeckAxis, NeckLocal).Within(new Bar(NeckLocal - NeckAxis, NeckLocal + (NeckAxis * 8), 9)))
            .Minus(Bore(NeckLocal - (NeckAxis * 5.4), NeckLocal + (NeckAxis * 5), 5.2), KeyHole(KeyLocal, KeyOut))
            .Minus(new HalfSpace(-KeyOut, KeyLocal).Within(new Bar(KeyLocal - KeyOut, KeyLocal + (KeyOut * 12), 5.6)))
            .Minus(Bore(new(-30, 0, 42), new(30, 0, 42), PinHoleMm))
            .Minus(Block(new(6, -1, 35), 7, 30, 20).And(new Bar(new(2.5, 0, 45.5), new(9.5, 0, 45.5), 5.4)).Paired())
            .Minus(Bore(new(7, -16, 79), new(24, -16, 79), 3.7).Paired())
            .Minus(new HalfSpace(-Vec3.UnitX, new(14.6, 0, 79)).Within(new Bar(new(12, -16, 79), new(30, -16, 79), 7)).Paired());
    }

    public static Shape Head() => Placed(HeadLocal());

    private static Shape HeadLocal()
    {
        var c = NeckLocal + (NeckAxis * 11) + new Vec3(0, -2, 0);
        var skull = Egg(c, 8.8, 9, 9.4).Melt(2, Limb(NeckLocal + (NeckAxis * 0.1), 3.6, NeckLocal + (NeckAxis * 5), 3.6));
        var nose = Ball(c + new Vec3(0, -9.1, -1), 1.5);
        var eye = Eye(c + new Vec3(3.3, -7.6, 1.4), 1.7, new(-0.1, -1, -0.1));
        var brow = Spline.Rope(3, (c + new Vec3(1.6, -8.6, 4.4), 0.5), (c + new Vec3(3.6, -8, 5), 0.65), (c + new Vec3(5.6, -6.6, 4), 0.45));
        var grin = Spline.Rope(4, (c + new Vec3(-3.4, -7.7, -3.6), 0.55), (c + new Vec3(0, -8.2, -5.4), 0.8), (c + new Vec3(3.4, -7.7, -3.6), 0.55));
        var cheek = Ball(c + new Vec3(4.9, -6, -2.2), 2);
        // The sou'wester: crown, a brim that is short in front and long behind, ear flap tie under the chin; hair streams out to one side.
        var up = new Vec3(0, 0.25, 1).Normalized();
        var crown = new Ball(Vec3.Zero, 10).Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero)).Melt(1, new Lathe(Outline.Profile((0, 0), (14.6, -3.6), (15, -2.7), (9.6, 2.4), (0, 2.4))));
        var hat = crown.Stretched(1, 1.08, 1).Along(up, c + (up * 2.6) + new Vec3(0, 1.2, 0)).Minus(Egg(c, 8.6, 8.8, 9.2));
        var seam = Hoop(c + (up * 7.4) + new Vec3(0, 1.2, 0), up, 9, 0.6);
        var hair = Spline.Rope(5, (c + new Vec3(7, 3, -2), 3.2), (c + new Vec3(11, 9, -4), 3), (c + new Vec3(12, 17, -1), 2.2), (c + new Vec3(16, 23, -3), 1.1))
            .And(Spline.Rope(5, (c + new Vec3(-7, 3, -2), 3.2), (c + new Vec3(-10, 9, -5), 3), (c + new Vec3(-13, 16, -4), 2.2), (c + new Vec3(-14, 23, -7), 1.1)));
        return skull.Melt(0.6, nose, cheek.Paired()).And(eye.Paired(), brow.Paired(), grin, hat, seam, hair)
            .Minus(new HalfSpace(NeckAxis, NeckLocal + (NeckAxis * 0.1)).Within(new Bar(NeckLocal - (NeckAxis * 8), NeckLocal + (NeckAxis * 0.2), 7)))
            .And(Plug(NeckLocal + (NeckAxis * 0.1), -NeckAxis, 5, 5));
    }

    /// <summary>The left arm holds the umbrella at arm's length, the right one holds on to the hat.</summary>
    public static Shape Arm(bool left) => Placed(ArmLocal(left));

    private static Shape ArmLocal(bool left)
    {
        var hand = left ? LeftFist : RightFist with { X = -RightFist.X };
        var elbow = left ? new Vec3(22, -26, 69) : new Vec3(23, -20, 84);
        var shoulder = new Vec3(17.6, -16, 79);
        var cuff = (hand - elbow).Normalized();
        var wrist = hand - (cuff * 5);
        var grip = left ? ShaftAxis : new Vec3(0.2, -1, 0.4);
        var arm = Limb(shoulder, 5.2, elbow, 4.6).Melt(1.2, Limb(elbow, 4.6, wrist, 4.2))
            .And(Hoop(wrist - (cuff * 0.6), cuff, 4.1, 1.2))
            .Melt(0.6, Kit.Fist(hand, grip, elbow - hand, 3.7))
            .Minus(new HalfSpace(Vec3.UnitX, new(14.7, 0, 79)).Within(new Ball(new(14.7, -16, 79), 9)))
            .And(Plug(new(14.7, -16, 79), -Vec3.UnitX, 3.5, 5));
        return left ? arm.Minus(Bore(Shaft(-9), Shaft(9), PinHoleMm + 0.1)) : arm.Reflected().Minus(HeadLocal().Grown(0.15));
    }

    /// <summary>Wading boots in stride: the left one forward, the right one pushing off.</summary>
    public static Shape Boot(bool left) => Placed(BootLocal(left));

    private static Shape BootLocal(bool left)
    {
        var (ankle, knee) = left ? (new Vec3(7, -12, 15), new Vec3(6.4, -8, 29)) : (new Vec3(7, 16, 17), new Vec3(6.4, 8.6, 29.4));
        var leg = Limb(knee, 4.6, ankle, 4.8).And(Limb(new(6, 0, 37), 3.1, knee, 4));
        var foot = Egg(Vec3.Zero, 5.2, 9, 5).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, -3.2)));
        var sole = new Extrusion(Outline.Smooth(6, (-4.6, 6.4), (0, 8), (4.6, 6.4), (5, -3), (3.4, -8.4), (0, -9.6), (-3.4, -8.4), (-5, -3)), -4.9, -2.25);
        var shoe = foot.And(sole).Turned(Vec3.UnitX, left ? 0 : 24).Moved(left ? new Vec3(7, -15.5, 11) : new Vec3(7, 12.6, 11.6));
        var top = Hoop(knee + ((ankle - knee) * 0.12), (ankle - knee).Normalized(), 4.5, 1.4);
        var tongue = Block(new(6, 0, 39.2), 6.2, 8.6, 8.4).And(new Bar(new(2.9, 0, 43.4), new(9.1, 0, 43.4), 4.3)).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 36.6)));
        var boot = leg.Melt(2, shoe).And(top, tongue)
            .Minus(Bore(new(-9, 0, 42), new(25, 0, 42), PinHoleMm));
        var sit = left ? new Vec3(7, -16, 6.2) : new Vec3(7, 7.6, 6.2);
        boot = boot.Minus(new HalfSpace(Vec3.UnitZ, sit)).And(Plug(sit, -Vec3.UnitZ, 3, 3.6));
        return left ? boot : boot.Reflected();
    }

    /// <summary>A dome of 1.3 mm cloth with eight points: a bowl that holds whatever it is printed in.</summary>
    public static Shape Canopy() => Placed(CanopyLocal());

    private static Shape CanopyLocal()
    {
        const double r = 30;
        var centre = Shaft(47.5) - (ShaftAxis * r);
        var dome = new Ball(Vec3.Zero, r).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, r * 0.57)));
        var scallop = new Ball(new(r * 0.95, 0, r * 0.36), 8.6).Around(8);
        var shell = dome.Minus(scallop.Turned(Vec3.UnitZ, 22.5)).Minus(new Ball(Vec3.Zero, r - 1.3));
        var rib = Spline.Rope(5, (new(0, 0, r - 0.9), 0.8), (new(r * 0.42, 0, (r * 0.9075) - 0.9), 0.8), (new((r - 0.7) * 0.81, 0, (r - 0.7) * 0.5864), 0.75)).Around(8);
        var hub = new Bar(new(0, 0, r - 5), new(0, 0, r), 2.6).And(Limb(new(0, 0, r), 2, new(0, 0, r + 4), 1));
        return shell.And(rib, hub).Minus(Bore(new(0, 0, r - 7), new(0, 0, r + 1.4), PinHoleMm)).Along(ShaftAxis, centre);
    }

    /// <summary>The crook below the fist: a hook on a short stem bored for the shaft.</summary>
    public static Shape Crook() => Placed(CrookLocal());

    private static Shape CrookLocal()
    {
        var hook = Spline.Rope(5, (new(0, 0, -5), 1.9), (new(0, 0, -13), 1.9), (new(0, -3, -17.4), 1.9), (new(0, -7.4, -17), 1.9), (new(0, -9, -12.6), 1.7));
        return hook.And(Hoop(new(0, 0, -6), Vec3.UnitZ, 1.9, 0.7)).Minus(Bore(new(0, 0, -12), new(0, 0, 0), PinHoleMm))
            .Minus(new HalfSpace(-Vec3.UnitZ, new(0, 0, -5.2))).Along(ShaftAxis, LeftFist);
    }

    public static Shape Cobbles() => Placed(CobblesLocal());

    private static Shape CobblesLocal()
    {
        var random = new Random(7);
        var stones = new List<Shape>();
        for (var row = 0; row < 6; row++)
        {
            for (var col = 0; col < 4; col++)
            {
                var x = -19.5 + (col * 12) + (row % 2 * 6) - 1;
                var y = -27 + (row * 10.4);
                if ((x * x / 620) + ((y + 1) * (y + 1) / 1050) > 1) continue;
                stones.Add(Block(Vec3.Zero, 11 + random.NextDouble(), 9.6, 9, 2.4).Turned(Vec3.UnitZ, (random.NextDouble() * 10) - 5).Moved(x, y, 2.6 + (0.7 * random.NextDouble())));
            }
        }

        var slab = Egg(new(0, -1, 1), 29, 37, 3.6);
        return slab.Melt(1.2, [.. stones]).Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero).Within(new HalfSpace(Vec3.UnitZ, new(0, 0, 6.1))))
            .Minus(Bore(new(7, -16, 2.2), new(7, -16, 9), 3.2), Bore(new(-7, 7.6, 2.2), new(-7, 7.6, 9), 3.2))
            .Minus(new HalfSpace(-Vec3.UnitZ, new(0, 0, 6)).Within(Block(new(0, 0, 8), 100, 100, 6)));
    }
}
