using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>A guess at a cylinder: a point on the axis, the axis and two unit vectors across it, the distance of the facets from the axis.</summary>
internal readonly record struct CylinderFrame(Vec3 Center, Vec3 Axis, Vec3 U, Vec3 V, double Radius)
{
    public static CylinderFrame Of(Vec3 center, Vec3 axis, double radius)
    {
        var turned = Rotation.BringingToZ(axis);
        return new(center, turned.RowZ, turned.RowX, turned.RowY, radius);
    }

    public Vec3 At(double along) => Center + (Axis * along);

    public Vec3 Outward(double angle)
    {
        var (s, c) = Math.SinCos(angle);
        return (U * c) + (V * s);
    }

    /// <summary>How far along the axis and how far from it a point is.</summary>
    public (double Along, double Out) Coordinates(Vec3 p)
    {
        var d = p - Center;
        var along = Vec3.Dot(d, Axis);
        return (along, (d - (Axis * along)).Length);
    }
}

/// <summary>Where a ray from the axis met the wall.</summary>
/// <param name="Outward">Unit vector away from the matter of a hole's wall turned round: from the axis outward, square to the facet.</param>
internal readonly record struct WallHit(int Triangle, double Along, double Distance, Vec3 Point, Vec3 Outward);
