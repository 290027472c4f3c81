using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The jellyfish who dances: a bell for a bonnet, a tutu, trailing ribbons on a wave. Shapes in the figure's coordinates.</summary>
internal static class LadyPlumeShapes
{
    public static readonly Vec3 StandTop = new(0, 2, 44);
    public static readonly Vec3 Waist = new(0, 0, 50);
    public static readonly Vec3 BellSeat = new(0, 0.5, 92.4);
    public static readonly Vec3 RibbonRoot = new(0, -6, 42.4);
    public static readonly Vec3 TentacleRoot = new(0, -24.1, 92.2);
    public static readonly Vec3 LeftShoulder = new(7.6, 0, 68);
    public static readonly Vec3 KeyPlace = new(0, 7.6, 62.6);

    /// <summary>A bell of 1.6 mm with a scalloped rim, open below.</summary>
    public static Shape Bell()
    {
        var outer = Egg(new(0, 0.5, 89), 28, 28, 29.2);
        var wall = outer.Minus(Egg(new(0, 0.5, 89), 26.4, 26.4, 27.4));
        var scallop = new Ball(new(28, 0, 88.8), 6.4).Around(12).Turned(Vec3.UnitZ, 15).Moved(0, 0.5, 0);
        wall = wall.Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, 90.8))).Minus(scallop);
        var rib = Spline.Rope(6, (new(9, 0, 116.6), 1), (new(18.2, 0, 110.8), 1.2), (new(24.6, 0, 102.4), 1.2), (new(27.6, 0, 92.6), 1.1)).Around(12).Moved(0, 0.5, 0);
        var top = Limb(new(0, 0.5, 117.4), 2, new(0, 0.5, 118.8), 1.2);
        var seat = new Bar(BellSeat + (Vec3.UnitZ * 0.1), new(0, 0.5, 117), 4.2);
        var lugs = new Ball(new(0, -24.6, 93.2), 2.7);
        var six = Enumerable.Range(0, 6).Select(i => lugs.Turned(Vec3.UnitZ, 30 + (60 * i), new(0, 0.5, 0)));
        var holes = Enumerable.Range(0, 6).Select(i => Bore(new(0, -24.1, 88), new(0, -24.1, 94), 1.8).Turned(Vec3.UnitZ, 30 + (60 * i), new(0, 0.5, 0)));
        return wall.And(rib, top, seat).And([.. six])
            .Minus([.. holes]).Minus(Bore(BellSeat - Vec3.UnitZ, BellSeat + (Vec3.UnitZ * 4.4), 4.2));
    }

    /// <summary>Head and body of the dancer in one, with a face that has heard applause.</summary>
    public static Shape Dancer()
    {
        var c = new Vec3(0, 0, 83);
        var body = new Lathe(Outline.SmoothProfile(6, (0, 50), (6, 50.1), (5, 54), (4.6, 57.5), (6.4, 63.5), (6.8, 68), (5, 71), (2.6, 73), (2.5, 76), (0, 76.5))).Stretched(1.08, 0.86, 1);
        body = body.Within(new HalfSpace(-Vec3.UnitZ, Waist)).Melt(2, Limb(new(-6.4, 0, 68), 3, new(6.4, 0, 68), 3));
        var head = Egg(c, 8.8, 9, 9.6).Melt(1.5, Limb(new(0, 0, 70), 2.7, new(0, 0, 77), 2.9));
        var nose = Ball(c + new Vec3(0, -9.1, -0.8), 1.1);
        var eye = new Ball(c + new Vec3(3.5, -7.6, 1), 1.9);
        var lash = Spline.Rope(3, (c + new Vec3(1.6, -9, 0.3), 0.5), (c + new Vec3(3.6, -9.2, -0.5), 0.6), (c + new Vec3(5.6, -8, 0.4), 0.5));
        var lips = Spline.Rope(3, (c + new Vec3(-2.4, -8.2, -4), 0.5), (c + new Vec3(0, -8.7, -5), 0.9), (c + new Vec3(2.4, -8.2, -4), 0.5));
        var cheek = Ball(c + new Vec3(4.9, -6.6, -2.6), 1.7);
        var hair = Egg(c + new Vec3(0, 1.4, 1.4), 9.4, 9.2, 9.8).Minus(Egg(c + new Vec3(0, -8, -1.6), 8.4, 8.4, 8.4));
        var curl = Hoop(c + new Vec3(7.6, -4.4, 3), new(1, -0.4, 0.1), 2, 1).And(Hoop(c + new Vec3(8.6, -1.4, -1.4), new(1, -0.2, 0.1), 1.8, 0.9));
        var pearls = Enumerable.Range(0, 9).Select(i => (Shape)new Ball(new(4.9 * Math.Sin((i - 4) * 0.36), -0.4 - (4.4 * Math.Cos((i - 4) * 0.36)), 71.4 - (0.9 * Math.Cos((i - 4) * 0.36))), 0.95));
        var shape = body.Melt(1, head).Melt(0.5, nose, cheek.Paired()).And(eye.Paired(), lash.Paired(), lips, hair, curl.Paired())
            .And([.. pearls]).And(new Bar(new(0, 2, 62.6), new(0, 7.2, 62.6), 4).Grown(0.4));
        return shape
            .Minus(new HalfSpace(-Vec3.UnitZ, BellSeat).Within(new Bar(BellSeat - Vec3.UnitZ, BellSeat + (Vec3.UnitZ * 6), 9)))
            .And(Plug(BellSeat, Vec3.UnitZ, 4, 3.6), Plug(Waist, -Vec3.UnitZ, 5, 4))
            .Minus(Bore(LeftShoulder - (Vec3.UnitX * 3.8), LeftShoulder + (Vec3.UnitX * 6), 2.7).Paired())
            .Minus(new HalfSpace(-Vec3.UnitX, LeftShoulder).Within(new Bar(LeftShoulder - Vec3.UnitX, LeftShoulder + (Vec3.UnitX * 5), 5)).Paired())
            .Minus(KeyHole(KeyPlace, Back).Within(new HalfSpace(-Vec3.UnitY, new(0, KeyPlace.Y - 6.5, 0))));
    }

    /// <summary>A ruffle of eleven waves; below it the seat of the ribbons, through it the stand's rod.</summary>
    public static Shape Tutu()
    {
        var ruffle = new Frill(21, 1.7, 2.3, 11, 0).Moved(0, 0, 46.2).Melt(1, new Frill(15.6, 1.7, 1.9, 11, 1.6).Moved(0, 0, 49));
        var hub = new Bar(new(0, 0, 43), new(0, 0, 49.4), 8.2).Grown(0.5);
        var ribbons = Enumerable.Range(0, 4).Select(i => Bore(RibbonRoot - (Vec3.UnitZ * 6), RibbonRoot + (Vec3.UnitZ * 3.4), 2.8).Turned(Vec3.UnitZ, 45 + (90 * i)));
        return ruffle.Melt(1.2, hub)
            .Minus(new HalfSpace(-Vec3.UnitZ, Waist - (Vec3.UnitZ * 0.1)).Within(new Bar(Waist - Vec3.UnitZ, Waist + (Vec3.UnitZ * 6), 8)))
            .Minus(Bore(Waist - (Vec3.UnitZ * 4.4), Waist + (Vec3.UnitZ * 4), 5.2), Bore(new(0, 2, 40), new(0, 2, 45.4), PinHoleMm)).Minus([.. ribbons]);
    }

    /// <summary>An arm of 2.6 mm, bent like the second half of a flourish; the right one is its mirror image.</summary>
    public static Shape Arm(bool left)
    {
        var arm = Spline.Rope(
            5,
            (LeftShoulder + (Vec3.UnitX * 1.6), 2), (new(15, -3, 65.4), 1.6), (new(23, -7, 68), 1.4), (new(28.6, -9, 74.6), 1.3), (new(30.4, -10.4, 78.2), 1.25), (new(33.4, -11.6, 79.6), 0.85));
        var thumb = Limb(new(30.4, -10.4, 78.2), 1, new(31, -12.6, 80.4), 0.65);
        var bangle = Hoop(new(28, -8.8, 73.6), new(0.5, -0.2, 0.75), 1.6, 0.6);
        var whole = arm.Melt(0.8, thumb).And(bangle).Minus(new HalfSpace(Vec3.UnitX, LeftShoulder + (Vec3.UnitX * 0.1)).Within(new Ball(LeftShoulder, 7))).And(Plug(LeftShoulder + (Vec3.UnitX * 0.1), -Vec3.UnitX, 2.5, 3.4));
        return left ? whole : whole.Reflected();
    }

    /// <summary>A trailing ribbon, frilled on both sides; four of the same file.</summary>
    public static Shape Ribbon()
    {
        (Vec3, double)[] course = [(new(0, -6, 40.3), 1.9), (new(1.5, -8.6, 36), 2), (new(-2, -11, 31), 2.1), (new(2.2, -11, 26), 1.9), (new(-1.6, -12.4, 22), 1.5), (new(0.6, -15, 19.6), 0.9)];
        var frill = Enumerable.Range(0, 34).Select(i =>
        {
            var (at, r) = Spline.On(course, 0.25 + (i * 0.136));
            var side = i % 2 == 0 ? 1 : -1;
            return (Shape)Limb(at, r * 0.8, at + new Vec3(side * 2.7, 1.1 * Math.Sin(i * 1.3), 0.4), 0.8);
        });
        return Spline.Rope(6, course).Melt(0.8, new Union(frill)).And(Plug(RibbonRoot - (Vec3.UnitZ * 0.3), Vec3.UnitZ, 2.6, 3));
    }

    /// <summary>A tentacle of 1.5 mm, six of the same file; in rigid resin it is a twig.</summary>
    public static Shape Tentacle()
    {
        var top = new Vec3(0, -24.1, 90.3);
        return Spline.Rope(
            6,
            (top, 0.85), (new(0.5, -25.6, 76), 0.8), (new(-1.6, -24, 64), 0.78), (new(1.4, -25.8, 51), 0.75), (new(-1.2, -24.4, 38), 0.75), (new(0.8, -26, 27), 0.72), (new(-1.6, -27.8, 22), 0.75))
            .And(Ball(new(-1.6, -27.8, 22), 1.3), Ball(new(1.4, -25.8, 51), 1.25), Plug(top + (Vec3.UnitZ * 0.2), Vec3.UnitZ, 1.6, 2.4), Ball(top - (Vec3.UnitZ * 0.9), 1.2));
    }

    /// <summary>A curling wave with a hole for the rod that carries her.</summary>
    public static Shape Wave()
    {
        var wave = Egg(new(0, 2, 0), 25, 22, 6)
            .Melt(4, Spline.Rope(5, (new(-16, 4, 3), 6), (new(-6, 6, 8), 6.4), (new(4, 5, 13.4), 5), (new(12, 3, 15.6), 3.4), (new(17, 1, 12.6), 2.2), (new(16, 0, 9.4), 1.4)))
            .Melt(3, Spline.Rope(5, (new(-12, -10, 2), 4.6), (new(-2, -11, 5.6), 4), (new(6, -11.4, 7.6), 2.6), (new(10, -11.6, 5.8), 1.6)));
        var foam = new Vec3[] { new(17.4, 1.4, 7.4), new(20.4, -2, 4), new(12, -14, 4), new(14.6, -10, 2.6), new(22, 2, 3) }.Select((v, i) => (Shape)new Ball(v, 2.4 - (0.3 * i)));
        return wave.Melt(1, new Union(foam)).And(new Bar(new(0, 2, 3), new(0, 2, 19), 3.6).Grown(0.4))
            .Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero))
            .Minus(Bore(new(0, 2, 7.6), new(0, 2, 24), PinHoleMm));
    }
}
