using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The lady in the lighthouse gown: a tapering tower with a door, a lantern for a hat. Shapes in the figure's coordinates.</summary>
internal static class DorotheaBeaconShapes
{
    public const double GownFoot = 9;
    public const double GownTop = 64;
    public static readonly Vec3 Neck = new(0, -0.5, 83);
    public static readonly Vec3 Crown = new(0, 0, 100.6);
    public static readonly Vec3 KeyPlace = new(0, 12.4, 69);
    public static readonly Vec3 FrontMiddle = new(0, -15, 34);
    private static readonly Vec3 LeftHand = new(20.5, -11, 52);
    private static readonly Vec3 RightHand = new(-24, -10, 87);

    public static Shape Rock()
    {
        var rock = Egg(new(0, 1, 2), 27, 24, 9)
            .Melt(3, Egg(new(-15, -10, 3), 11, 9, 7), Egg(new(16, -6, 2.5), 10, 12, 7.5), Egg(new(9, 14, 3), 13, 9, 8), Egg(new(-12, 13, 2), 12, 9, 6.5));
        Shape limpet = new Lathe(Outline.Profile((0, -1), (3.4, -1), (1, 2.4), (0, 2.6)).Grown(0.3));
        var ridges = Limb(new(3.4, 0, -0.6), 0.5, new(0.9, 0, 2.4), 0.4).Around(7);
        limpet = limpet.And(ridges);
        rock = rock.And(
            limpet.Along(new(-0.5, -0.75, 0.8), new(-15, -16.4, 6.6)),
            limpet.Along(new(0.6, -0.7, 0.7), new(18, -15, 6.4)),
            limpet.Along(new(0.2, -0.9, 0.6), new(1, -22.2, 4.4)),
            Spline.Rope(4, (new(-6, 21, 6), 1.2), (new(-2, 24.5, 5), 1.5), (new(3, 25, 3.6), 1.3), (new(7, 23, 3), 0.9)));
        return rock
            .Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero).Within(new HalfSpace(Vec3.UnitZ, new(0, 0, 14))))
            .Minus(new HalfSpace(-Vec3.UnitZ, new(0, 0, GownFoot - 0.1)).Within(new Bar(new(0, 0, 8), new(0, 0, 30), 22.4)))
            .And(new Bar(new(0, 0, 5), new(0, 0, 13.4), 14.6))
            .Minus(new Bar(new(0, 0, -1), new(0, 0, 20), 5));
    }

    private static double GownRadius(double z) => 11.6 + (9.8 * Math.Pow((GownTop - z) / (GownTop - GownFoot), 1.25));

    private static Outline GownProfile(double inset) => Outline.Profile(
        [(0, GownFoot), .. Enumerable.Range(0, 12).Select(i => (GownFoot + ((GownTop - GownFoot) * i / 11)))
            .Select(z => (GownRadius(z) - inset, z)), (0, GownTop)]);

    /// <summary>The tower: a shell of 3.2 mm with courses of stone raised 0.4 mm, too shallow for filament, and an opening for a front.</summary>
    public static Shape Gown()
    {
        Shape tower = new Lathe(GownProfile(0.4));
        tower = tower.Melt(1.2, Hoop(new(0, 0, GownFoot + 1.4), Vec3.UnitZ, GownRadius(GownFoot) - 0.6, 1.3), Hoop(new(0, 0, GownTop - 1.2), Vec3.UnitZ, GownRadius(GownTop) - 0.2, 1.2));
        tower = tower.Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, GownFoot)).Within(new HalfSpace(Vec3.UnitZ, new(0, 0, GownTop))));

        // Courses: in each band, stones at equal angles, every second band shifted by half a stone.
        var courses = new List<Shape>();
        for (var band = 0; band < 5; band++)
        {
            var z = 13.6 + (9.6 * band);
            var r = GownRadius(z + 3.4) + 3;
            const int stones = 8;
            var stone = Block(new(r - 3, 0, z + 3.4), 9, 2 * Math.PI * (r - 3) / stones * 0.76, 6.8, 1).Around(stones).Turned(Vec3.UnitZ, band % 2 * 22.5);
            courses.Add(stone);
        }

        tower = tower.Embossed(new Union(courses), 0.4);

        var cavity = new Lathe(GownProfile(3.6)).Within(new HalfSpace(Vec3.UnitZ, new(0, 0, GownTop - 4)))
            .And(new Bar(new(0, 0, 0), new(0, 0, 13.9), 14.8));
        var window = new Bar(new(0, 5, 56), new(0, 30, 56), 2.6).And(new Bar(new(0, 5, 42), new(0, 30, 42), 2.9));
        var frame = Hoop(new(0, 13.3, 56), Vec3.UnitY, 3, 0.9).And(Hoop(new(0, 15.4, 42), Vec3.UnitY, 3.3, 0.9));
        return tower.And(frame.Within(new HalfSpace(-Vec3.UnitY, new(0, 8, 0)))).Minus(cavity, window, Doorway(0.12))
            .Minus(Bore(new(0, 0, GownTop - 6), new(0, 0, GownTop + 5), 7.2));
    }

    /// <summary>The tapered opening of the front, a little larger by <paramref name="gap"/>.</summary>
    private static Shape Doorway(double gap)
    {
        var arch = Outline.Of([(-7, 20), (7, 20), (7, 42), .. Enumerable.Range(1, 9).Select(i => (7 * Math.Cos(Math.PI * i / 10), 42 + (7 * Math.Sin(Math.PI * i / 10)))), (-7, 42)]);
        return new Extrusion(arch.Grown(gap), 6, 40).Turned(Vec3.UnitX, 90);
    }

    /// <summary>The lit front: three panes right through, and a seat for a 5 mm lamp behind the middle one.</summary>
    public static Shape LitFront()
    {
        var panes = Block(new(0, -15, 26), 9, 30, 6, 0.6).And(Block(new(0, -15, 34.4), 9, 30, 6.6, 0.6));
        var fan = new Bar(new(0, -40, 41.2), new(0, 0, 41.2), 4.6).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 40)));
        var bars = Block(new(0, -15, 34), 1.3, 30, 26);
        var seat = new Bar(new(0, -12.4, 30.2), new(0, -6, 30.2), 4.3).And(Block(new(0, -11.6, 30.2), 12.6, 2.2, 3));
        return Door().Minus(panes.And(fan).Minus(bars))
            .And(seat.Within(new HalfSpace(Vec3.UnitY, new(0, -7.6, 0))))
            .Minus(Bore(new(0, -30, 30.2), new(0, 0, 30.2), 5.2));
    }

    /// <summary>The plain front: a plank door with hinges and an anchor, no light.</summary>
    public static Shape PlainFront()
    {
        var door = Door();
        var planks = Block(new(0, -20, 34), 1.1, 40, 60).And(Block(new(3.6, -20, 34), 1.1, 40, 60), Block(new(-3.6, -20, 34), 1.1, 40, 60));
        door = door.Embossed(planks.Within(new HalfSpace(Vec3.UnitY, new(0, -12, 0))), -0.5);
        var anchor = Limb(new(0, 0, -4.6), 0.75, new(0, 0, 4.4), 0.75)
            .And(Limb(new(-2.4, 0, 2.6), 0.65, new(2.4, 0, 2.6), 0.65), Hoop(new(0, 0, 5.5), Vec3.UnitY, 1.2, 0.6))
            .And(Spline.Rope(4, (new(-4, 0, -1.4), 0.6), (new(-2.9, 0, -3.8), 0.75), (new(0, 0, -4.9), 0.85), (new(2.9, 0, -3.8), 0.75), (new(4, 0, -1.4), 0.6)));
        var tilt = -Math.Atan2(GownRadius(28) - GownRadius(40), 12) * 180 / Math.PI;
        return door.And(anchor.Turned(Vec3.UnitX, tilt).Moved(0, -GownRadius(33) - 0.2, 33), Ball(new(4.9, -GownRadius(32) + 0.7, 31.6), 1.1));
    }

    private static Shape Door()
    {
        var wall = new Lathe(GownProfile(-0.5)).Minus(new Lathe(GownProfile(3.4)));
        return wall.Within(Doorway(0)).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 18)).Within(new HalfSpace(Vec3.UnitZ, new(0, 0, 52))));
    }

    public static Shape Bodice()
    {
        var waist = new Lathe(Outline.SmoothProfile(6, (0, 64.1), (11, 64.1), (10.4, 67), (9.2, 70), (10.6, 75), (9.6, 79.4), (5.2, 82), (4.4, 83), (0, 83.2))).Stretched(1.04, 0.9, 1);
        var puff = Egg(new(11, -0.5, 77.4), 5.6, 5.6, 5.4);
        var brooch = new Extrusion(Outline.Star(8, 2.5, 1.4), -3, 1.3).Turned(Vec3.UnitX, 90).Moved(0, -8.6, 76);
        var collar = Hoop(new(0, -0.4, 80.2), new(0, -0.2, 1), 6.6, 1.3);
        var plate = new Bar(new(0, 5, 69), new(0, 12, 69), 4.4).Grown(0.4);
        var lace = Hoop(new(0, 0, 65.4), Vec3.UnitZ, 11.2, 0.9).Stretched(1, 0.92, 1);
        return waist.Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 64.1)).Within(new HalfSpace(Vec3.UnitZ, Neck)))
            .Melt(1.6, puff.Paired(), collar).And(lace.Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 64.1))), brooch, plate)
            .And(Plug(new(0, 0, 64.1), -Vec3.UnitZ, 7, 5))
            .Minus(Bore(Neck - (Vec3.UnitZ * 5.4), Neck + (Vec3.UnitZ * 4), 5.2), KeyHole(KeyPlace, Back))
            .Minus(Bore(new(9, -0.5, 76), new(24, -0.5, 76), 3.7).Paired())
            .Minus(new HalfSpace(-Vec3.UnitX, new(15.4, 0, 76)).Within(new Bar(new(14, -0.5, 76), new(30, -0.5, 76), 7)).Paired());
    }

    /// <summary>One arm hangs with a fan, the other shades the eyes that have not seen a ship since Tuesday.</summary>
    public static Shape Arm(bool left)
    {
        var hand = left ? LeftHand : RightHand with { X = -RightHand.X };
        var elbow = left ? new Vec3(20.5, 0, 63) : new Vec3(27.5, -3, 74);
        var shoulder = new Vec3(18, -0.5, 76);
        var toHand = (hand - elbow).Normalized();
        var arm = new Bar(new(15.5, -0.5, 76), new(17.6, -0.5, 76), 3.9).Grown(0.3)
            .Melt(1, Limb(shoulder, 4, elbow, 3.2), Limb(elbow, 3.2, hand - (toHand * 3), 2.5))
            .And(Hoop(hand - (toHand * 4.4), toHand, 2.7, 0.9))
            .Minus(new HalfSpace(Vec3.UnitX, new(15.5, 0, 76)).Within(new Ball(new(15.5, -0.5, 76), 8)))
            .And(Plug(new(15.5, -0.5, 76), -Vec3.UnitX, 3.5, 5));
        if (left)
        {
            var fan = new Extrusion(Outline.Of([(0, 0), .. Enumerable.Range(0, 9).Select(i => (11.5 * Math.Sin((i - 4) * 0.16), -11.5 * Math.Cos((i - 4) * 0.16)))]), -0.7, 0.7);
            var ribs = Enumerable.Range(0, 5).Select(i => (Shape)Limb(new(0, 0, 0), 0.8, new(11.2 * Math.Sin((i - 2) * 0.29), -11.2 * Math.Cos((i - 2) * 0.29), 0), 0.9));
            var open = fan.And([.. ribs]).Turned(Vec3.UnitX, 90).Turned(Vec3.UnitZ, 60);
            return arm.And(open.Turned(Vec3.UnitY, 8).Moved(hand + new Vec3(0, -1, -1))).Melt(0.6, Fist(hand, new(0, -0.6, -1), elbow - hand, 2.9));
        }

        var palm = Limb(hand - toHand, 2.4, hand + (toHand * 1.4), 2.1);
        var u = new Vec3(-1, -0.15, 0.12).Normalized();
        for (var i = 0; i < 4; i++)
        {
            var root = hand + new Vec3(0, -1.9 + (1.25 * i), 1.2);
            palm = palm.Melt(0.5, Limb(root, 0.95, root + (u * (i is 0 or 3 ? 5.4 : 6.4)), 0.75));
        }

        return arm.Melt(0.8, palm.Melt(0.5, Limb(hand + new Vec3(0, 1, -1), 1, hand + new Vec3(-1.8, -0.5, -3.2), 0.8))).Reflected();
    }

    public static Shape Head()
    {
        var c = new Vec3(0, -0.5, 92);
        var skull = Egg(c, 9.4, 9.6, 10.4).Melt(2, Limb(Neck + new Vec3(0, 0, 0.1), 3.6, Neck + new Vec3(0, 0, 4), 3.6)).Melt(2, Egg(c + new Vec3(0, -3.4, -6.4), 5.4, 5, 4.4));
        skull = skull.Minus(new HalfSpace(Vec3.UnitZ, Neck + new Vec3(0, 0, 0.1)));
        var nose = Limb(c + new Vec3(0, -9, 0), 0.8, c + new Vec3(0, -10.6, -2.2), 1.25);
        var eye = Eye(c + new Vec3(3.7, -8, 1), 1.75, new(0.05, -1, 0));
        var lid = new Ball(c + new Vec3(3.7, -8, 1), 2.15).Within(new HalfSpace(new(0, -0.4, -1), c + new Vec3(3.7, -8, 1.9)));
        var brow = Spline.Rope(3, (c + new Vec3(1.7, -8.9, 5), 0.5), (c + new Vec3(3.9, -8.5, 5.7), 0.65), (c + new Vec3(6, -7, 4.4), 0.45));
        var lips = Spline.Rope(3, (c + new Vec3(-2.5, -8.1, -4.9), 0.45), (c + new Vec3(-0.9, -9, -5.4), 0.85), (c + new Vec3(0, -9.1, -5.7), 0.75), (c + new Vec3(0.9, -9, -5.4), 0.85), (c + new Vec3(2.5, -8.1, -4.9), 0.45));
        var cheek = Ball(c + new Vec3(5.2, -6.7, -3), 1.9);
        var earring = Ball(c + new Vec3(9.5, 0.4, -4), 1.3).And(Ball(c + new Vec3(9.5, 0.4, -1.8), 0.9));
        var curl = Enumerable.Range(0, 4).Select(i => (Shape)Ball(c + new Vec3(8.4 + (0.5 * (i % 2)), 1.6 + (1.3 * i), 3.4 - (2.2 * i)), 2.7 - (0.2 * i)));
        var bun = Egg(c + new Vec3(0, 8.6, 1), 6.4, 5.2, 6).And(Hoop(c + new Vec3(0, 9.4, 1), new(0, 1, 0.2), 4.2, 1.4));
        var hair = Egg(c + new Vec3(0, 1.4, 1.4), 10, 9.6, 10.2).Minus(Egg(c + new Vec3(0, -9, -2.4), 9.4, 9, 8.6));
        return skull.Melt(0.6, nose, cheek.Paired()).And(eye.Paired(), lid.Paired(), brow.Paired(), lips, hair)
            .Melt(0.8, new Union(curl).Paired(), bun).And(earring.Paired())
            .Minus(new HalfSpace(-Vec3.UnitZ, Crown).Within(new Bar(Crown - Vec3.UnitZ, Crown + (Vec3.UnitZ * 8), 12)))
            .Minus(Bore(Crown - (Vec3.UnitZ * 3.4), Crown + (Vec3.UnitZ * 5), 5.2))
            .And(Plug(Neck + new Vec3(0, 0, 0.1), -Vec3.UnitZ, 5, 5));
    }

    /// <summary>The lantern room: gallery with a rail, eight glazing bars around the lens, a dome with a ball on top.</summary>
    public static Shape LanternHat()
    {
        var z = Crown.Z + 0.3;
        var gallery = new Lathe(Outline.Profile((0, z), (9.4, z), (11.6, z + 1.6), (11.6, z + 2.6), (0, z + 2.6)).Grown(0.2));
        var rail = Hoop(new(0, 0, z + 5.6), Vec3.UnitZ, 10.9, 0.6).And(Limb(new(10.9, 0, z + 2), 0.6, new(10.9, 0, z + 5.6), 0.6).Around(12));
        var lens = new Lathe(Outline.Profile((0, z + 2), (4, z + 2), (4.9, z + 3.4), (4.2, z + 4.6), (5.4, z + 6), (4.2, z + 7.4), (4.9, z + 8.6), (4, z + 10.6), (0, z + 10.6)));
        var bars = Limb(new(7.6, 0, z + 2), 0.75, new(7.6, 0, z + 10.8), 0.75).Around(8);
        var dome = new Lathe(Outline.SmoothProfile(5, (0, z + 10.2), (8.6, z + 10.2), (9.2, z + 11), (8, z + 12.8), (4.6, z + 15), (1.6, z + 16.1), (0, z + 16.3)));
        var knob = Ball(new(0, 0, z + 17), 1.7).And(Limb(new(0, 0, z + 17), 0.9, new(0, 0, z + 18.5), 0.6));
        return gallery.And(rail, lens, bars, dome, knob, Hoop(new(0, 0, z + 10.7), Vec3.UnitZ, 8.6, 0.9))
            .And(Plug(new(0, 0, z), -Vec3.UnitZ, 5, 3));
    }
}
