using System.Text.Json.Serialization;
using Catalogue.Geometry.Details;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Repair;

namespace Catalogue.Model.Inspections;

/// <summary>What verdicts are drawn from: the measurements of one mesh, without any limit.</summary>
public sealed record MeshFacts
{
    public required int Triangles { get; init; }
    public required int Shells { get; init; }
    public required bool Closed { get; init; }
    public required bool Manifold { get; init; }
    public required bool Oriented { get; init; }
    public required int OpenEdges { get; init; }
    public required int NonManifoldEdges { get; init; }
    public required int DegenerateTriangles { get; init; }
    public required int DuplicateTriangles { get; init; }
    public required int InsideOutShells { get; init; }
    public required int Voids { get; init; }

    /// <summary>Pairs of triangles that meet where they should not.</summary>
    public int SelfIntersections { get; init; }

    /// <summary>A place where the surface runs through itself.</summary>
    public Vec3? CrossingAt { get; init; }

    public required Vec3 Size { get; init; }
    public required double VolumeMm3 { get; init; }
    public required double AreaMm2 { get; init; }

    /// <summary>A place on the first open or non-manifold edge, for the finding to point at.</summary>
    public Vec3? TroubleAt { get; init; }

    /// <summary>Goes entirely into the small-parts cylinder of 16 CFR 1501.4, or cannot be said not to.</summary>
    public bool SmallPart { get; init; }

    /// <summary>Thin walls and limbs; null where it is not clear what is inside.</summary>
    public WallMeasures? Walls { get; init; }

    /// <summary>Gaps between its own walls; null where it is not clear what is inside.</summary>
    public GapMeasures? Gaps { get; init; }

    /// <summary>What hangs over in the file's own pose; null where it is not clear what is inside.</summary>
    public OverhangMeasures? Overhangs { get; init; }

    /// <summary>Round holes and pegs; null where it is not clear what is inside.</summary>
    public PinHoles? Holes { get; init; }

    /// <summary>What may snap off; null where it is not clear what is inside.</summary>
    public LimbMeasures? Limbs { get; init; }

    /// <summary>What a gentle repair could change; null for a sound mesh, where nothing can be mended, and for a file of several things.</summary>
    public RepairSummary? Repair { get; init; }

    /// <summary>Where it keeps liquid: cavities, and pools and suction in the file's own pose; null where it is not clear what is inside.</summary>
    public TrappedLiquid? Liquid { get; init; }

    /// <summary>Fine relief by height and width; null where it is not clear what is inside.</summary>
    public DetailMeasures? Details { get; init; }

    public required bool UnitStated { get; init; }
    public IReadOnlyList<Sentence> Warnings { get; init; } = [];

    /// <summary>As <c>FitProfile.ToBytes</c> writes it; empty when it was not asked for.</summary>
    [JsonIgnore]
    public byte[] FitProfile { get; init; } = [];

    [JsonIgnore]
    public byte[] Hull { get; init; } = [];
}
