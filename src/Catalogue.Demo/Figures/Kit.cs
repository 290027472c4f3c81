using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Figures;

/// <summary>What all puppets of the troupe share: joint dimensions, the winding key, fists.</summary>
internal static class Kit
{
    /// <summary>Metal rod for hinge pins, mm.</summary>
    public const double RodMm = 1.5;

    /// <summary>Printed hole for that rod: 0.2 mm over, reamed by hand.</summary>
    public const double PinHoleMm = 1.7;

    public const double BallMm = 7.0;
    public const double SocketMm = 7.2;

    /// <summary>3.2 % smaller than the ball: filament gives that much, cured rigid resin does not.</summary>
    public const double MouthMm = 6.78;

    public const double SleeveMm = 5.8;
    public const double SleeveHoleMm = 6.0;
    public const double SleeveLengthMm = 6.0;

    public const double KeyShaftMm = 3.0;
    public const double KeyHoleMm = 3.2;
    public const double KeyHoleDepthMm = 6.5;

    public static readonly Vec3 Back = new(0, 1, 0);
    public static readonly Vec3 Front = new(0, -1, 0);

    public static Shape Limb(Vec3 a, double ra, Vec3 b, double rb) => new Limb(a, ra, b, rb);

    public static Shape Ball(Vec3 center, double radius) => new Ball(center, radius);

    public static Shape Egg(Vec3 center, double x, double y, double z) => new Ellipsoid(center, new(x, y, z));

    /// <summary>A round hole or bar of a diameter.</summary>
    public static Shape Bore(Vec3 a, Vec3 b, double diameter) => new Bar(a, b, diameter / 2);

    public static Shape Block(Vec3 center, double x, double y, double z, double round = 0) => new Block(center, new(x, y, z), round);

    /// <summary>A ring about <paramref name="axis"/>.</summary>
    public static Shape Hoop(Vec3 center, Vec3 axis, double major, double minor) => new Ring(major, minor).Along(axis, center);

    /// <summary>The ball of a pop-in joint on its neck, from <paramref name="root"/> inside the part to the ball's centre.</summary>
    public static Shape BallStud(Vec3 root, Vec3 ball) => new Limb(root, 2.4, ball, 2.2).And(new Ball(ball, BallMm / 2));

    /// <summary>The socket for it: a ball-shaped hollow around <paramref name="ball"/> and the mouth towards <paramref name="outward"/>.</summary>
    /// <remarks>The flat face that the mouth opens in lies <see cref="MouthDepth"/> outward of the ball's centre.</remarks>
    public static Shape Socket(Vec3 ball, Vec3 outward)
    {
        var u = outward.Normalized();
        return new Ball(ball, SocketMm / 2).And(new HalfSpace(-u, ball + (u * MouthDepth)).Within(new Bar(ball, ball + (u * 20), 12)));
    }

    /// <summary>Distance from the ball's centre to the plane of the mouth: where the socket's ball has narrowed to <see cref="MouthMm"/>.</summary>
    public static double MouthDepth { get; } = Math.Sqrt((SocketMm * SocketMm / 4) - (MouthMm * MouthMm / 4));

    /// <summary>The sleeve of a plug-in joint: from <paramref name="shoulder"/> along <paramref name="into"/>, with a lead-in chamfer.</summary>
    public static Shape Sleeve(Vec3 shoulder, Vec3 into) => Plug(shoulder, into, SleeveMm, SleeveLengthMm);

    public static Shape SleeveHole(Vec3 mouth, Vec3 into) =>
        new Bar(mouth - (into.Normalized() * 4), mouth + (into.Normalized() * (SleeveLengthMm + 0.4)), SleeveHoleMm / 2);

    /// <summary>A round peg with a chamfered end, rooted 2 mm behind <paramref name="shoulder"/>.</summary>
    public static Shape Plug(Vec3 shoulder, Vec3 into, double diameter, double length)
    {
        var r = diameter / 2;
        var c = Math.Min(0.5, r / 3);
        return new Lathe(Outline.Profile((0, -2), (r, -2), (r, length - c), (r - c, length), (0, length))).Along(into, shoulder);
    }

    /// <summary>An eyeball with a pupil that stands out a little, so that paint finds its edge.</summary>
    public static Shape Eye(Vec3 center, double radius, Vec3 look)
    {
        var u = look.Normalized();
        return new Ball(center, radius).And(new Ball(center, radius + 0.3).Within(new Bar(center, center + (u * (radius + 2)), radius * 0.5)));
    }

    /// <summary>The key every puppet is wound with: square collar, two loops. It points along +z from its shoulder at the origin.</summary>
    public static Shape KeyShape()
    {
        var loop = Hoop(new(4.6, 0, 9), Vec3.UnitY, 3.4, 1.25);
        return Plug(new(0, 0, 0), -Vec3.UnitZ, KeyShaftMm, 6)
            .And(new Bar(new(0, 0, -0.01), new(0, 0, 1.4), 2.8), Limb(new(0, 0, 1), 1.5, new(0, 0, 8), 1.5))
            .Melt(0.8, loop.Paired());
    }

    public static Shape KeyHole(Vec3 mouth, Vec3 outward) =>
        new Bar(mouth + (outward.Normalized() * 6), mouth - (outward.Normalized() * KeyHoleDepthMm), KeyHoleMm / 2);

    /// <summary>A closed hand around an axis: palm, four fingers as ridges, a thumb; the grip hole is the caller's to cut.</summary>
    /// <param name="at">Middle of the fist.</param>
    /// <param name="grip">The direction of whatever is held.</param>
    /// <param name="arm">From the hand back to the elbow.</param>
    /// <param name="size">Half width of the fist, mm.</param>
    public static Shape Fist(Vec3 at, Vec3 grip, Vec3 arm, double size)
    {
        var g = grip.Normalized();
        var away = (-arm).Normalized();
        var side = Vec3.Cross(g, away).Normalized();
        away = Vec3.Cross(side, g).Normalized();
        var fist = Ball(at, size * 0.98);
        for (var i = 0; i < 4; i++)
        {
            var level = at + (g * (size * 0.48 * (i - 1.5)));
            fist = fist.Melt(0.5, Limb(level + (away * size * 0.72) - (side * size * 0.2), size * 0.33, level + (away * size * 0.35) + (side * size * 0.8), size * 0.31));
        }

        return fist.Melt(0.6, Limb(at - (side * size * 0.6) + (g * size * 0.2), size * 0.36, at - (side * size * 0.25) + (away * size * 0.9) + (g * size * 0.75), size * 0.3));
    }
}
