using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Limbs;

/// <summary>A piece of a part that stands out from the rest and is held at one place only: an arm, an aerial, a head on its neck.</summary>
public sealed record Limb
{
    /// <summary>The farthest place of it, in the mesh's coordinates.</summary>
    public required Vec3 Tip { get; init; }

    /// <summary>Where a push at the tip bends it most: the greatest lever for its section modulus.</summary>
    public required LimbSection Pushed { get; init; }

    /// <summary>Where its own mass bends it most when it is stopped: see <see cref="LimbSection.DropScore"/>.</summary>
    public required LimbSection Dropped { get; init; }
}

/// <summary>A plane section across a limb and what is beyond it. mm, mm², …; places in the mesh's coordinates.</summary>
public sealed record LimbSection
{
    /// <summary>The section's centroid.</summary>
    public required Vec3 At { get; init; }

    /// <summary>Unit normal of the section, towards the tip.</summary>
    public required Vec3 Axis { get; init; }

    public required double AreaMm2 { get; init; }

    /// <summary>Second moment of area about the axis through the centroid that the section is weakest about.</summary>
    public required double SecondMomentMm4 { get; init; }

    /// <summary>From that axis to the farthest point of the section.</summary>
    public required double FibreMm { get; init; }

    /// <summary>Across that axis, from edge to edge: what would have to be thicker.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>From the centroid to the tip, straight.</summary>
    public required double LeverMm { get; init; }

    /// <summary>Volume beyond the section.</summary>
    public required double BeyondMm3 { get; init; }

    /// <summary>From the section's centroid to the centroid of what is beyond, straight.</summary>
    public required double BeyondLeverMm { get; init; }

    /// <summary>Section modulus I / c, mm³: bending stress is moment / modulus.</summary>
    public double ModulusMm3 => SecondMomentMm4 / FibreMm;

    /// <summary>Bending stress per newton at the tip, 1/mm².</summary>
    public double PushScore => LeverMm / ModulusMm3;

    /// <summary>
    /// c · √(V / (I · d)): the bending stress when the energy of the mass beyond goes into bending a uniform cantilever of this section and of the length to
    /// its centroid, √(6 E ρ g h) · this.
    /// </summary>
    public double DropScore => FibreMm * Math.Sqrt(BeyondMm3 / (SecondMomentMm4 * Math.Max(BeyondLeverMm, FibreMm)));
}
