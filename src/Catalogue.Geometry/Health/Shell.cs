using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Health;

/// <summary>What a shell encloses.</summary>
public enum ShellKind
{
    /// <summary>Material: an outermost shell, or an island inside a void.</summary>
    Solid,

    /// <summary>A hole inside material, facing inward as it should.</summary>
    Void,

    /// <summary>Material inside material: harmless twice-filled space, or a void drawn the wrong way round.</summary>
    SolidInSolid,

    /// <summary>Closed but facing the wrong way: nothing outside it explains its negative volume.</summary>
    InsideOut,

    /// <summary>Closed without a usable inside: its triangles disagree about which side is out, or it encloses nothing.</summary>
    Unclear,

    /// <summary>Has open edges and encloses nothing.</summary>
    Open,
}

/// <summary>A connected piece of surface: triangles joined over shared edges, however many meet there.</summary>
/// <param name="Triangles">Without those that have a repeated corner.</param>
/// <param name="Vertices">A vertex at which two shells touch counts for both.</param>
/// <param name="EulerCharacteristic">V − E + F; 2 for a ball, 0 for a ring, one less for every hole cut in the surface.</param>
/// <param name="Closed">Every edge has an even number of triangles.</param>
/// <param name="Oriented">Neighbours agree about which side is out.</param>
/// <param name="VolumeMm3">Signed; negative when it faces inward. Without meaning when open.</param>
/// <param name="Parent">The closed shell directly around it; −1 for none.</param>
/// <param name="Depth">Closed shells around it.</param>
/// <param name="At">One of its vertices, the highest.</param>
public readonly record struct Shell(
    ShellKind Kind, int Triangles, int Vertices, int EulerCharacteristic, bool Closed, bool Oriented,
    double VolumeMm3, double AreaMm2, BoundingBox Bounds, int Parent, int Depth, Vec3 At);
