using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The usher: a sea snail in a waistcoat whose right arm slides back into his shell. Shapes in the figure's coordinates.</summary>
internal static class MisterPeriwinkleShapes
{
    /// <summary>Thickness of the sliding arm where it has to bend, mm.</summary>
    public const double ArmThickness = 2.4;

    /// <summary>Radius of the seat the arm bends over, to the middle of its thickness, mm.</summary>
    public const double SeatRadius = 38;

    public static readonly Vec3 Neck = new(0, -11, 76);
    public static readonly Vec3 Crown = new(0, -13.4, 97.4);
    public static readonly Vec3 ShellSeat = new(0, 3, 46);
    public static readonly Vec3 ShellCenter = new(0, 27, 51);
    public static readonly Vec3 KeyPlace = new(-2, 46.8, 51);
    public static readonly Vec3 ShoulderPeg = new(14.2, -11, 62);
    public static readonly Vec3 SlideCenter = new(-14.5, 12, 22);
    private static readonly Vec3 SeatOut = new Vec3(0, 1, 0.12).Normalized();

    private static Shape Foot()
    {
        (Vec3, double)[] spine = [(new(0, 52, 3.4), 3), (new(0, 36, 7), 7), (new(0, 16, 10.6), 11.4), (new(0, -6, 15), 14.4), (new(0, -14, 32), 13.4), (new(0, -11, 52), 11.6), (new(0, -10, 66), 10), (new(0, -11, 75), 7)];
        var sole = new Extrusion(Outline.Smooth(6, (0, 57), (8, 42), (15, 18), (19, -6), (15, -22), (0, -29), (-15, -22), (-19, -6), (-15, 18), (-8, 42)), 0, 5);
        var frill = sole.Grown(-1.4).Grown(1.4);
        return Spline.Rope(5, spine).Melt(7, frill);
    }

    /// <summary>Foot and body in one, with waistcoat, bow tie and a channel for the sliding arm under the right shoulder.</summary>
    public static Shape Body()
    {
        var body = Foot();
        var waistcoat = Block(new(0, -14, 52), 60, 60, 32, 4).Minus(Limb(new(0, -30, 76), 6, new(0, -32, 52), 1.2));
        body = body.Embossed(waistcoat, 0.7);
        var button = new[] { 58.0, 51, 44, 37 }.Select(z => (Shape)Ball(new(0, z > 50 ? -22.2 - ((58 - z) * 0.16) : -24.4 - ((50 - z) * 0.26), z), 1.5));
        var bow = Limb(new(0, -20, 69.4), 1.6, new(5.4, -19.6, 71), 2.4).And(Limb(new(0, -20, 69.4), 1.6, new(5.4, -19.6, 67.8), 2.2));
        var sleeve = Limb(new(-12, -11, 62), 6.4, new(-14.5, -17, 55), 6.2);
        var puff = Limb(new(8, -11, 62), 6.6, new(12, -11, 62), 6.2);
        body = body.And([.. button]).And(bow.Paired()).Melt(2, sleeve, puff);
        return body
            .Within(new HalfSpace(-Vec3.UnitZ, Vec3.Zero).Within(new HalfSpace(Vec3.UnitZ, Neck)))
            .Minus(Bore(Neck - (Vec3.UnitZ * 5.4), Neck + (Vec3.UnitZ * 4), 6.2))
            .Minus(Bore(ShoulderPeg - (Vec3.UnitX * 6.4), ShoulderPeg + (Vec3.UnitX * 8), 3.7))
            .Minus(new HalfSpace(-Vec3.UnitX, ShoulderPeg).Within(new Bar(ShoulderPeg - Vec3.UnitX, ShoulderPeg + (Vec3.UnitX * 10), 8)))
            .Minus(Shell(solid: true).Grown(0.15), Channel(), RetractingArm().Grown(0.3))
            .Minus(Bore(ShellSeat - (SeatOut * 6.4), ShellSeat + (SeatOut * 20), 6.2));
    }

    /// <summary>A coil that grows by a fixed factor each turn, drawn as a chain of limbs in the y–z plane, pulled out sideways at the heart.</summary>
    public static Shape Shell() => Shell(solid: false);

    private static Shape Shell(bool solid)
    {
        var chain = new List<Shape>();
        Vec3? last = null;
        var lastRadius = 0.0;
        const int steps = 44;
        for (var i = 0; i <= steps; i++)
        {
            var t = (double)i / steps;
            var turn = (2.35 * 2 * Math.PI * t) + 2.6;
            var grow = Math.Exp(1.85 * (t - 1));
            var tube = 17 * grow;
            var reach = 18 * grow;
            var (s, c) = Math.SinCos(turn);
            var at = ShellCenter + new Vec3((1 - t) * -6, reach * c, reach * s);
            if (last is { } from) chain.Add(Limb(from, lastRadius, at, tube));
            (last, lastRadius) = (at, tube);
        }

        Shape shell = new Union(chain);
        if (solid) return shell;
        var plate = new Bar(KeyPlace - new Vec3(0, 6, 0), KeyPlace - new Vec3(0, 0.4, 0), 4.6).Grown(0.4);
        return shell.And(plate)
            .And(Plug(ShellSeat + (SeatOut * 6), -SeatOut, 6, 12).Minus(new HalfSpace(-SeatOut, ShellSeat + (SeatOut * 12))))
            .Minus(KeyHole(KeyPlace, Back), Channel());
    }

    /// <summary>The slot the arm slides in: a piece of a ring about an x axis, 0.5 mm wider all round than the arm.</summary>
    private static Shape Channel() => Band(ArmThickness + 1, 6.4, 40, 140);

    private static Shape Band(double thick, double wide, double fromDegrees, double toDegrees)
    {
        var points = new List<(double, double)>();
        const int n = 24;
        for (var i = 0; i <= n; i++) points.Add(At(SeatRadius + (thick / 2), i));
        for (var i = n; i >= 0; i--) points.Add(At(SeatRadius - (thick / 2), i));
        // Outline x → y, outline y → z, thickness along x.
        return new Extrusion(Outline.Of([.. points]), -wide / 2, wide / 2)
            .Turned(Vec3.UnitX, 90).Turned(Vec3.UnitZ, 90).Moved(SlideCenter);

        (double, double) At(double r, int i)
        {
            var (s, c) = Math.SinCos(double.DegreesToRadians(fromDegrees + ((toDegrees - fromDegrees) * i / n)));
            return (r * c, r * s);
        }
    }

    /// <summary>A strip of 2.4 mm bent to the seat, with a gloved hand at its end that keeps it from vanishing altogether.</summary>
    public static Shape RetractingArm()
    {
        var strip = Band(ArmThickness, 5.4, 62, 158);
        var (s, c) = Math.SinCos(double.DegreesToRadians(158));
        var end = SlideCenter + new Vec3(0, SeatRadius * c, SeatRadius * s);
        var along = new Vec3(0, -s, c);
        var wrist = end + (along * 2.5);
        var hand = wrist + (along * 5.5) + new Vec3(0, -1, 0.6);
        var glove = Egg(Vec3.Zero, 3.6, 2.8, 4.6).Along(along, hand);
        for (var i = 0; i < 4; i++)
        {
            var root = hand + (along * 3) + new Vec3(-2.7 + (1.8 * i), 0, 0);
            glove = glove.Melt(0.6, Limb(root, 1.15, root + (along * 3.6) + new Vec3((i - 1.5) * 0.5, -1.8, 1.2), 1));
        }

        glove = glove.Melt(0.6, Limb(hand + new Vec3(3, 0, 0), 1.2, hand + new Vec3(5.2, -2.4, 2.2), 1));
        var cuff = Limb(end - (along * 0.5), 3.8, wrist, 3.4).And(Hoop(wrist, along, 3.2, 1.1));
        var button = Ball(wrist + new Vec3(-3.7, 0, 0), 0.9);
        return strip.Melt(1, cuff).Melt(0.6, glove).And(button);
    }

    /// <summary>The left arm, bent, with a tray of tickets.</summary>
    public static Shape LeftArm()
    {
        var elbow = new Vec3(22, -13, 51);
        var hand = new Vec3(18.5, -29, 53);
        var arm = Limb(ShoulderPeg + (Vec3.UnitX * 3.4), 4.8, elbow, 4).Melt(1.4, Limb(elbow, 4, hand - new Vec3(0.8, -4, 0.4), 3.4))
            .And(Hoop(hand - new Vec3(0.8, -4.6, 0.5), new(-0.2, -1, 0.1), 3.4, 1.1));
        var palm = Egg(hand, 3.8, 4.4, 2.4);
        var tray = Block(new(14, -34, 56.6), 22, 15, 2.2, 0.6)
            .And(Block(new(14, -34, 58), 22, 15, 4.4, 0.6).Minus(Block(new(14, -34, 59.5), 19.4, 12.4, 6)));
        var tickets = Enumerable.Range(0, 3).Select(i => Block(Vec3.Zero, 6.5, 9, 1.8, 0.2).Turned(Vec3.UnitZ, (i - 1) * 16).Moved(8.6 + (5.4 * i), -34, 58.2));
        return arm.Melt(1, palm).And(tray, Limb(hand, 2.4, new(17, -33, 56), 2.4)).And([.. tickets])
            .Minus(new HalfSpace(Vec3.UnitX, ShoulderPeg + (Vec3.UnitX * 0.1)).Within(new Ball(ShoulderPeg, 9)))
            .And(Plug(ShoulderPeg + (Vec3.UnitX * 0.1), -Vec3.UnitX, 3.5, 6));
    }

    public static Shape Head()
    {
        var c = new Vec3(0, -13.4, 87);
        var skull = Egg(c, 11, 10.4, 10.6).Melt(3, Egg(c + new Vec3(0, -4, -5), 8.6, 7.4, 5.4)).Melt(2, Limb(Neck, 6, Neck + new Vec3(0, -1, 5), 6));
        var stalk = Spline.Rope(4, (c + new Vec3(5.4, -2, 7), 2.7), (c + new Vec3(7.6, -3, 14), 2.2), (c + new Vec3(8.8, -4.4, 22), 2));
        var ball = c + new Vec3(9, -4.6, 27.4);
        var smile = Spline.Rope(4, (c + new Vec3(-6, -9.4, -3.6), 0.7), (c + new Vec3(0, -11.6, -6), 1), (c + new Vec3(6, -9.4, -3.6), 0.7));
        var cheek = Ball(c + new Vec3(6.4, -8.2, -2.4), 2.1);
        var nose = Egg(c + new Vec3(0, -10.8, -0.6), 2, 1.8, 1.7);
        var brow = new Ball(ball, 5.5).Within(new HalfSpace(new(0.15, -0.5, -1), ball + new Vec3(0, 0, 1.8)));
        return skull.Melt(1, cheek.Paired(), nose).Melt(1.5, stalk.Paired()).Melt(0.8, Ball(ball, 4.9).Paired())
            .And(Eye(ball, 4.9, new(-0.15, -1, -0.05)).Paired(), brow.Paired(), smile)
            .Minus(new HalfSpace(Vec3.UnitZ, Neck + new Vec3(0, 0, 0.1)))
            .And(Plug(Neck + new Vec3(0, 0, 0.1), -Vec3.UnitZ, 6, 5))
            .Minus(new HalfSpace(-Vec3.UnitZ, Crown).Within(new Bar(Crown - Vec3.UnitZ, Crown + (Vec3.UnitZ * 1.6), 5.2)))
            .Minus(Bore(Crown - (Vec3.UnitZ * 3.4), Crown + (Vec3.UnitZ * 3), 3.2));
    }

    /// <summary>A bell-boy's pillbox, worn between the eyes.</summary>
    public static Shape Cap()
    {
        var z = Crown.Z + 0.1;
        var cap = new Lathe(Outline.Profile((0, z), (4.3, z), (4.9, z + 5), (4.2, z + 5.8), (0, z + 6)));
        var band = Hoop(new(0, 0, z + 0.9), Vec3.UnitZ, 4.35, 0.6);
        var knob = Ball(new(0, 0, z + 6.3), 1);
        var braid = Limb(new(4.6, 0, z + 2), 0.4, new(4.9, 0, z + 4.4), 0.4).Around(10);
        return cap.And(band, knob, braid).Moved(Crown.X, Crown.Y, 0).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, z))).And(Plug(new(Crown.X, Crown.Y, z), -Vec3.UnitZ, 3, 3));
    }
}
