using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>A half-line from <see cref="Origin"/> along the unit vector <see cref="Direction"/>; distances along it are in mm.</summary>
public readonly record struct Ray
{
    /// <param name="origin">Where it starts, mm.</param>
    /// <param name="direction">Any finite vector but zero; it is brought to length 1.</param>
    /// <exception cref="ArgumentException">The direction is zero or not finite.</exception>
    public Ray(Vec3 origin, Vec3 direction)
    {
        var length = direction.Length;
        if (!(length > 0) || !double.IsFinite(length)) throw new ArgumentException("A ray needs a finite direction that is not zero.", nameof(direction));
        Origin = origin;
        Direction = direction / length;
    }

    public Vec3 Origin { get; }
    public Vec3 Direction { get; }

    public Vec3 At(double distance) => Origin + (Direction * distance);
}

/// <summary>Where a ray meets a triangle.</summary>
/// <param name="Triangle">Number of the triangle in the mesh.</param>
/// <param name="Distance">From the ray's origin, mm.</param>
/// <param name="FromFront">True when the ray comes from the side the triangle faces (it enters a solid), false when it leaves.</param>
public readonly record struct RayHit(int Triangle, double Distance, bool FromFront);
