using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>A block about its centre, its edges rounded by <c>round</c> (which is part of the size): exact.</summary>
internal sealed class Block(Vec3 center, Vec3 size, double round = 0)
    : Shape(new(center - (size * 0.5), center + (size * 0.5)))
{
    private readonly Vec3 _core = (size * 0.5) - new Vec3(round, round, round);

    public override double Distance(Vec3 p)
    {
        var x = Math.Abs(p.X - center.X) - _core.X;
        var y = Math.Abs(p.Y - center.Y) - _core.Y;
        var z = Math.Abs(p.Z - center.Z) - _core.Z;
        var inside = Math.Min(0, Math.Max(x, Math.Max(y, z)));
        var (ox, oy, oz) = (Math.Max(0, x), Math.Max(0, y), Math.Max(0, z));
        return inside + Math.Sqrt((ox * ox) + (oy * oy) + (oz * oz)) - round;
    }
}
