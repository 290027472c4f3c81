using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Repair;

/// <summary>What a repair does to a mesh.</summary>
public enum RepairKind
{
    /// <summary>Pairs of open edges that lie side by side become one edge; some vertices move by the width of the crack.</summary>
    StitchedCracks,

    /// <summary>Triangles without area are dropped, or, where that would open the surface, their neighbours drawn so that none is needed.</summary>
    DroppedDegenerateTriangles,

    /// <summary>Copies of triangles, and pairs that cover each other back to back, are dropped.</summary>
    DroppedDuplicateTriangles,

    /// <summary>Triangles that disagreed with their neighbours about which side is out are turned around.</summary>
    TurnedTriangles,

    /// <summary>Small flat holes are closed with triangles between the vertices of their rims.</summary>
    FilledHoles,

    /// <summary>Closed shells that faced inward are turned around.</summary>
    TurnedShells,
}

/// <summary>One kind of change a repair makes.</summary>
/// <param name="Count">Edges stitched, triangles dropped or turned, holes filled, shells turned.</param>
/// <param name="Places">Where the first of them are, at most <see cref="Health.MeshHealth.MostPlaces"/>, in mm.</param>
public sealed record RepairChange(RepairKind Kind, int Count, IReadOnlyList<Vec3> Places);

/// <summary>A mesh after one kind of change; <see cref="Count"/> 0 when there was nothing to do.</summary>
internal readonly record struct RepairStep(TriangleMesh Mesh, int Count, IReadOnlyList<Vec3> Places)
{
    public static RepairStep None(TriangleMesh mesh) => new(mesh, 0, []);
}

/// <summary>The first places of a kind of change.</summary>
internal sealed class FirstPlaces
{
    private readonly List<Vec3> _places = [];

    public IReadOnlyList<Vec3> All => _places;

    public int Count { get; private set; }

    public void Add(Vec3 place)
    {
        if (Count++ < Health.MeshHealth.MostPlaces) _places.Add(place);
    }
}
