using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Figures.Kit;

namespace Catalogue.Demo.Figures;

/// <summary>The octopus with the concertina: a skirt of tentacles, a bulb of a head, a straw boater. Shapes in the figure's coordinates.</summary>
internal static class OctaviaSqueezeShapes
{
    public static readonly Vec3 Waist = new(0, 0, 39.7);
    public static readonly Vec3 Neck = new(0, 1, 61);
    public static readonly Vec3 Crown = new(4.2, -1.6, 109.4);
    public static readonly Vec3 Concertina = new(0, -27, 53);
    public static readonly Vec3 KeyPlace = new(0, 14.2, 51);
    private static readonly Vec3 HatAxis = new Vec3(0.22, -0.3, 1).Normalized();
    private static readonly Vec3 MantleCenter = new(0, 5, 87);

    /// <summary>Six tentacles on the sand in one piece, about 145 mm across: no small printer takes it.</summary>
    public static Shape Skirt()
    {
        (Vec3, double)[] course =
        [
            (new(6, 0, 33), 10.5), (new(20, 0, 25), 9), (new(36, 2, 12), 7.2), (new(52, 8, 6), 5.8), (new(65, 7, 5), 4.6),
            (new(69, -3, 5.4), 3.7), (new(62, -9, 6.5), 2.8), (new(57, -4, 8.4), 2), (new(60, -1, 9.6), 1.5),
        ];
        var arm = Spline.Rope(4, course).And(Suckers(course, new(0.1, -1, -0.15), 1.6, 2.3, 3.1));
        var skirt = arm.Around(6).Turned(Vec3.UnitZ, 30)
            .Melt(6, Egg(new(0, 0, 31), 16, 15, 9));
        // A scalloped hem between body and tentacles, and the seat of the bodice.
        skirt = skirt.Melt(1.5, Limb(new(12.5, 0, 36), 3.2, new(16.5, 0, 30), 2.6).Around(12));
        return skirt
            .Minus(new HalfSpace(-Vec3.UnitZ, Waist).Within(new Bar(Waist - Vec3.UnitZ, Waist + (Vec3.UnitZ * 20), 15)))
            .Minus(Bore(Waist - (Vec3.UnitZ * 6.4), Waist + (Vec3.UnitZ * 5), 9.2))
            .Minus(new HalfSpace(Vec3.UnitZ, new(0, 0, 0.4)));
    }

    /// <summary>A row of sucker rings along a rope, on the side that <paramref name="toward"/> points to.</summary>
    private static Shape Suckers((Vec3, double)[] course, Vec3 toward, params double[] places)
    {
        var u = toward.Normalized();
        return new Union(places.Select(t =>
        {
            var (at, radius) = Spline.On(course, t);
            return Hoop(at + (u * radius * 0.97), u, radius * 0.3, radius * 0.13);
        }));
    }

    public static Shape Bodice()
    {
        var body = new Lathe(Outline.SmoothProfile(6, (0, 40), (11.5, 40.1), (12.6, 43), (11.6, 48), (13, 55), (11, 60), (6, 61.5), (0, 61.6)))
            .Stretched(1.05, 0.95, 1)
            .Within(new HalfSpace(Vec3.UnitZ, Neck).And(new Ball(new(0, 0, 50), 4)));
        var shoulder = new Bar(new(-15.4, -1, 54), new(15.4, -1, 54), 5).Grown(0.4);
        var lapel = Limb(new(1.5, -10.6, 56.5), 1.5, new(5.6, -10.8, 51), 1.1).And(Limb(new(5.6, -10.8, 51), 1.1, new(2.2, -11.4, 45), 1));
        var bow = Limb(new(0, -11.3, 58), 1.3, new(4.6, -11.3, 59.4), 2).And(Limb(new(0, -11.3, 58), 1.3, new(4.6, -11.1, 56.8), 1.8));
        var button = Ball(new(0, -12, 52), 1).And(Ball(new(0, -11.6, 47.5), 1));
        var backPlate = new Bar(new(0, 8, 51), new(0, 13.8, 51), 4.6).Grown(0.4);
        return body.Melt(2, shoulder)
            .And(lapel.Paired(), bow.Paired(), button, backPlate)
            .And(Plug(Waist, -Vec3.UnitZ, 9, 6))
            .Minus(Bore(Neck - (Vec3.UnitZ * 5.4), Neck + (Vec3.UnitZ * 5), 8.2))
            .Minus(new HalfSpace(-Vec3.UnitZ, Neck).Within(new Bar(Neck - Vec3.UnitZ, Neck + (Vec3.UnitZ * 9), 14)))
            .Minus(Bore(new(6.5, -1, 54), new(30, -1, 54), PinHoleMm).Paired())
            .Minus(KeyHole(KeyPlace, Back));
    }

    /// <summary>The head: 2.6 mm of wall around a hollow. <paramref name="drained"/> opens it twice, 4 mm each, beside the neck.</summary>
    public static Shape Mantle(bool drained)
    {
        var c = MantleCenter;
        var bulb = Egg(c, 20.5, 22, 23)
            .Melt(9, Egg(new(0, -6, 71), 17, 13, 9.5), Egg(new(0, 10, 97), 17, 17, 16));
        var outer = bulb.Minus(new HalfSpace(Vec3.UnitZ, Neck + new Vec3(0, 0, 0.1)));
        var hollow = bulb.Grown(-2.6).Within(new HalfSpace(-Vec3.UnitZ, Neck + new Vec3(0, 0, 4.2)))
            .Minus(new Bar(Crown - (HatAxis * 5), Crown, 4.5));

        var brow = Spline.Rope(4, (new(3.6, -15.9, 86.2), 1.5), (new(8.4, -14.6, 88), 1.9), (new(13.6, -10.8, 86), 1.4));
        var eye = Eye(new(8.6, -13.6, 77.5), 5.2, new(-0.1, -1, -0.1));
        var lid = new Ball(new(8.6, -13.6, 77.5), 5.9).Within(new HalfSpace(new(0.1, -0.35, -1), new(8.6, -13.6, 80.2)));
        var smile = Spline.Rope(4, (new(-8.5, -17.2, 69), 1), (new(-4, -19.1, 66.8), 1.2), (new(0, -19.6, 66.3), 1.25), (new(4, -19.1, 66.8), 1.2), (new(8.5, -17.2, 69.4), 1));
        var cheek = Ball(new(11, -14, 69.6), 2.6);
        var siphon = Limb(new(15, -2, 70), 4.4, new(20.5, -6, 69), 3.2).Minus(new HalfSpace(new(-5.5, 4, 1), new(20.5, -6, 69)), Limb(new(18, -4, 69.5), 1.6, new(25, -9.3, 68), 2.1));
        var spots = new (double X, double Y, double Z, double R)[] { (11, 3, 107, 3.4), (-9, 12, 108.5, 4.2), (-16, 0, 98, 3), (17.5, 6, 95, 3.6), (-4, 24, 99, 4), (9, 23, 90, 3.2), (-17, 14, 88, 3) }
            .Select(s => (Shape)new Ball(new(s.X, s.Y, s.Z), s.R));
        var head = outer.Melt(1.2, brow.Paired(), cheek.Paired(), siphon)
            .And(eye.Paired(), lid.Paired(), smile)
            .Embossed(new Union(spots), 0.6);
        head = head.Minus(hollow).And(Plug(Neck + new Vec3(0, 0, 0.1), -Vec3.UnitZ, 8, 5));
        head = head.Minus(new HalfSpace(-HatAxis, Crown).Within(new Bar(Crown - HatAxis, Crown + (HatAxis * 6), 15.5)));
        head = head.Minus(Bore(Crown - (HatAxis * 2), Crown + (HatAxis * 4), 4.2).Within(new HalfSpace(-HatAxis, Crown - (HatAxis * 1.6))));
        if (!drained) return head;
        // Countersunk inside, so that nothing is left standing around them.
        var drain = Bore(new(7, -3, 58), new(7, -3, 70), 4).And(Limb(new(7, -3, 63.9), 1.4, new(7, -3, 67.9), 4));
        return head.Minus(drain.Paired());
    }

    public static Shape Boater()
    {
        var profile = Outline.Profile((0, 0), (14.5, 0), (14.5, 1.4), (8.6, 1.6), (8.4, 7.4), (7.6, 8.2), (0, 8.2));
        var straw = Enumerable.Range(0, 3).Select(i => Hoop(new(0, 0, 8.3), Vec3.UnitZ, 2.4 + (2.2 * i), 0.45));
        var band = new Bar(new(0, 0, 1), new(0, 0, 4.6), 9.3);
        var ribbon = Limb(new(9.4, 0, 3), 0.9, new(11.5, 3.5, 1.8), 0.8).And(Limb(new(9.4, 0, 3), 0.9, new(11.5, -3.5, 1.8), 0.8), Ball(new(9.6, 0, 3.1), 1.3));
        return new Lathe(profile).And([.. straw]).And(band, ribbon).And(Plug(new(0, 0, -0.2), -Vec3.UnitZ, 4, 1.7)).Turned(Vec3.UnitZ, 60)
            .Along(HatAxis, Crown + (HatAxis * 0.35));
    }

    public static Shape Arm(bool left)
    {
        var end = Concertina + new Vec3(20.6, 2, 1);
        (Vec3, double)[] course =
        [
            (new(19.6, -1, 53.6), 5.2), (new(26.5, -2, 50.5), 5), (new(31.5, -9, 46), 4.6), (new(31.5, -19, 45.5), 4.2), (new(27.4, -26, 49.5), 3.7),
            (end + new Vec3(3, -1, 0.5), 3.3), (end + new Vec3(2.6, 3.4, 6), 2.8), (end + new Vec3(4.2, 2.6, 10.6), 2.1), (end + new Vec3(7.2, 0.8, 10.4), 1.5),
        ];
        var arm = Spline.Rope(4, course).And(Suckers(course, new(-0.3, 0.2, -1), 1.5, 2.3));
        var boss = new Bar(new(16.1, -1, 54), new(20.5, -1, 54), 5.2);
        arm = arm.Melt(1, boss)
            .Minus(Bore(new(14, -1, 54), new(24, -1, 54), PinHoleMm), new HalfSpace(Vec3.UnitX, new(16.1, 0, 54)));

        // Beside the plate, not into its pocket: what reached in there would be a skin of a tenth of a millimetre.
        arm = arm.Minus(EndPlate().Grown(0.1), EndPlateBlock().Grown(0.1))
            .And(Plug(end + new Vec3(0.6, 0, 0), -Vec3.UnitX, 3, 3.6).Minus(new HalfSpace(-Vec3.UnitX, end + new Vec3(2, 0, 0))));
        return left ? arm : arm.Reflected();
    }

    /// <summary>One hexagonal end of the concertina, on +x; the other is the same file turned round.</summary>
    public static Shape EndPlate()
    {
        var hex = Hexagon();
        var plate = new Extrusion(hex.Grown(0.8), 0, 4.6).Minus(new Extrusion(hex.Grown(-2), 3.9, 6));
        var keys = Enumerable.Range(0, 7).Select(i => (Shape)Limb(new(-4.6 + (i % 4 * 3.1), -4.4 + (i / 4 * 3), 3), 0.85, new(-4.6 + (i % 4 * 3.1), -4.4 + (i / 4 * 3), 5), 0.85));
        return plate.And([.. keys])
            .Minus(Bore(new(0, 2, -1), new(0, 2, 6), 3.2), Bore(new(0, 0, -1), new(0, 0, 2.2), 8.2))
            .Turned(Vec3.UnitZ, 90).Along(Vec3.UnitX, Concertina + new Vec3(15.6, 0, 0));
    }

    private static Outline Hexagon() =>
        Outline.Of([.. Enumerable.Range(0, 6).Select(i => (11.6 * Math.Cos(i * Math.PI / 3), 11.6 * Math.Sin(i * Math.PI / 3)))]);

    /// <summary>The end without its pocket, keys and bores.</summary>
    private static Shape EndPlateBlock() =>
        new Extrusion(Hexagon().Grown(0.8), 0, 4.6).Turned(Vec3.UnitZ, 90).Along(Vec3.UnitX, Concertina + new Vec3(15.6, 0, 0));

    /// <summary>The folds between the ends. Solid for display, or a thin open tube that really squeezes in flexible material.</summary>
    public static Shape Bellows(bool squeezable)
    {
        const int folds = 7;
        const double step = 31.0 / folds;
        var outer = new List<(double, double)> { (0, -15.5) };
        for (var i = 0; i < folds; i++)
        {
            outer.Add((9.2, -15.5 + (i * step)));
            outer.Add((11.6, -15.5 + ((i + 0.5) * step)));
        }

        outer.AddRange([(9.2, 15.5), (0, 15.5)]);
        Shape folded = new Lathe(Outline.Profile([.. outer]));
        if (squeezable)
        {
            // Folds inside as outside, 1.3 mm nearer to the axis, and open through both ends.
            var inner = outer.Select(p => (Math.Max(0, p.Item1 - 1.3), p.Item2)).ToList();
            inner[0] = (0, -17);
            inner[^1] = (0, 17);
            inner.Insert(1, (inner[1].Item1, -17));
            inner.Insert(inner.Count - 1, (inner[^2].Item1, 17));
            folded = folded.Within(new HalfSpace(Vec3.UnitZ, new(0, 0, 15.5)).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, -15.5)))).Minus(new Lathe(Outline.Profile([.. inner])));
        }
        else
        {
            folded = folded.Within(new HalfSpace(Vec3.UnitZ, new(0, 0, 15.5)).Within(new HalfSpace(-Vec3.UnitZ, new(0, 0, -15.5))))
                .And(Plug(new(0, 0, 15.5), Vec3.UnitZ, 8, 1.9), Plug(new(0, 0, -15.5), -Vec3.UnitZ, 8, 1.9));
        }

        return folded.Along(Vec3.UnitX, Concertina);
    }
}
