using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>Copies at equal angles about z. Asks the two sectors next to the point, so the distance stays a true lower bound.</summary>
internal sealed class PolarRepeat(Shape inner, int count) : Shape(BoxOf(inner.Bounds), inner.Growth)
{
    private readonly double _sector = 2 * Math.PI / count;

    public override double Distance(Vec3 p)
    {
        var turns = Math.Atan2(p.Y, p.X) / _sector;
        var nearest = Math.Round(turns);
        var other = turns >= nearest ? nearest + 1 : nearest - 1;
        return Math.Min(At(p, nearest), At(p, other));
    }

    private double At(Vec3 p, double copy)
    {
        var (s, c) = Math.SinCos(copy * _sector);
        return inner.Distance(new((p.X * c) + (p.Y * s), (p.Y * c) - (p.X * s), p.Z));
    }

    private static BoundingBox BoxOf(BoundingBox b)
    {
        var x = Math.Max(Math.Abs(b.Min.X), Math.Abs(b.Max.X));
        var y = Math.Max(Math.Abs(b.Min.Y), Math.Abs(b.Max.Y));
        var r = Math.Sqrt((x * x) + (y * y));
        return new(new(-r, -r, b.Min.Z), new(r, r, b.Max.Z));
    }

    public override Shape Near(Vec3 center, double reach) => new Union(Enumerable.Range(0, count)
        .Select(i => Placed.Of(inner, Rotation.About(Vec3.UnitZ, i * _sector), Vec3.Zero))).Near(center, reach);
}
