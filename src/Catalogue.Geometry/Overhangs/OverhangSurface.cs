using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Overhangs;

/// <summary>What the measures of all orientations of one mesh share: the tree and which triangles meet at each edge.</summary>
internal sealed class OverhangSurface(TriangleTree tree, CancellationToken cancel)
{
    private const int MostRays = 40_000;

    public TriangleTree Tree { get; } = tree;
    public TriangleMesh Mesh { get; } = tree.Mesh;
    public EdgeAdjacency Edges { get; } = EdgeAdjacency.Of(tree.Mesh, cancel);

    /// <summary>Triangles such that neighbours in the list lie near each other: samples spread evenly along it.</summary>
    public int[] Order { get; } = tree.TrianglesInOrder();

    /// <summary>Areas and supports only, on fewer rays; no bridges, no islands.</summary>
    public OverhangMeasures Supports(Rotation rotation, int rays, CancellationToken stop)
    {
        var pose = new OverhangPose(this, rotation, stop);
        return With(rotation, pose, SupportColumns.Under(pose, rays, stop));
    }

    public OverhangMeasures Measure(Rotation rotation, IProgress<double>? progress, CancellationToken stop)
    {
        var pose = new OverhangPose(this, rotation, stop);
        progress?.Report(0.3);
        var bridges = BridgeSearch.Find(pose, stop);
        progress?.Report(0.5);
        var columns = SupportColumns.Under(pose, MostRays, stop);
        progress?.Report(0.7);
        columns.Fill(bridges);
        var islands = IslandSearch.Find(pose, stop);
        return With(rotation, pose, columns) with
        {
            Bridges = [.. bridges.Regions.Take(OverhangMeasures.MostPlaces).Select(r => new Bridge(Rounded(r.Span), Rounded(r.Held), Rounded(r.Volume), r.At))],
            BridgeCount = bridges.Regions.Count,
            Islands = islands.Listed,
            IslandCount = islands.Count,
        };
    }

    private static OverhangMeasures With(Rotation rotation, OverhangPose pose, SupportColumns columns) => new()
    {
        Rotation = rotation,
        HeightMm = Rounded(pose.Height),
        RestingMm2 = Rounded(pose.RestingMm2),
        AreaMm2 = columns.Area,
        SupportVolumeMm3 = columns.Volume,
        OnPartMm2 = columns.OnPart,
        Bridges = [],
        BridgeCount = 0,
        Islands = [],
        IslandCount = 0,
    };

    internal static double Rounded(double value) => Math.Round(value, 3);
}
