using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Holes;

/// <summary>A straight round hole. Lengths in mm, places in the mesh's coordinates.</summary>
public sealed record RoundHole
{
    /// <summary>The nominal diameter: of the circle that the corners of the wall lie on (a faceted cylinder's circumscribed circle).</summary>
    public required double DiameterMm { get; init; }

    /// <summary>The widest straight rod that passes: of the circle inscribed in the wall, less than <see cref="DiameterMm"/> by the facets and the roughness.</summary>
    public required double ClearMm { get; init; }

    /// <summary>Length of the straight round wall, from where half of it begins to where half of it ends; countersinks and steps to another diameter are not of it.</summary>
    public required double DepthMm { get; init; }

    /// <summary>Unit vector, into the hole from its mouth; of a hole that is open at both ends, either of the two, the same every time.</summary>
    public required Vec3 Axis { get; init; }

    /// <summary>Middle of the mouth, where <see cref="Axis"/> enters.</summary>
    public required Vec3 Mouth { get; init; }

    /// <summary>On the axis at half the depth.</summary>
    public required Vec3 Center { get; init; }

    /// <summary>Open at both ends: a rod of the hole's width leaves it again.</summary>
    public required bool Through { get; init; }

    /// <summary>
    /// The least matter around it, square to the axis, outward from the wall to the next surface; null when the wall goes all the way round nowhere. The
    /// edge of a mouth, where matter thins out to nothing on any slanted face, is left out: at each open end a diameter from where the wall goes all the
    /// way round, but never more than 45 % of its length, so that a short hole is measured at its middle. Of what is measured a fiftieth
    /// may be thinner: the rim of a detail that runs into the hole.
    /// </summary>
    public double? WallMm { get; init; }

    /// <summary>The least matter behind the floor of a blind hole, along the axis; null for a through hole.</summary>
    public double? FloorMm { get; init; }
}

/// <summary>A straight round peg with a free end: a pin, a plug, an axle's end. Lengths in mm, places in the mesh's coordinates.</summary>
public sealed record RoundPeg
{
    /// <summary>Of the circle that the corners lie on: the hole around it must be wider.</summary>
    public required double DiameterMm { get; init; }

    /// <summary>Length of the straight round wall; a chamfer or a rounded tip is not of it.</summary>
    public required double LengthMm { get; init; }

    /// <summary>Unit vector from the root to the free end.</summary>
    public required Vec3 Axis { get; init; }

    /// <summary>On the axis where the straight wall ends, at the free end.</summary>
    public required Vec3 Tip { get; init; }

    public required Vec3 Center { get; init; }

    /// <summary>Free at both ends: a loose pin.</summary>
    public required bool Loose { get; init; }
}
