using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Measures;

namespace Catalogue.Model.Inspections;

/// <summary>The build items of a file that holds several, each reported by itself.</summary>
/// <remarks>
/// Every check takes some tenths of a second however small the item is, so only the first <see cref="MostChecked"/> get them all; the next, up to <see cref="MostListed"/>, are told with
/// their soundness, size and volume, which cost next to nothing. Nothing is left out of the judgement of the file as a whole.
/// </remarks>
internal static class ItemReports
{
    public const int MostChecked = 12;
    public const int MostListed = 1000;

    public static IReadOnlyList<InspectionReport> Of(MeshFile file, InspectionRequest request, InspectionStage? stage, CancellationToken cancellation)
    {
        var items = file.Items.Take(MostListed).ToList();
        var reports = new List<InspectionReport>(items.Count);
        for (var i = 0; i < items.Count; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            reports.Add(i < MostChecked ? Checked(file, items[i], request, Share(stage, i, Math.Min(items.Count, MostChecked)), cancellation) : Listed(items[i], cancellation));
        }

        return reports;
    }

    /// <summary>What a reader has to know about items that were not checked each by itself; empty when all were.</summary>
    public static IEnumerable<Sentence> LeftOut(int count)
    {
        if (count <= MostChecked) yield break;
        yield return (count > MostListed
            ? S($"Of {count:N0} things only the first {MostChecked} were checked each by itself and only the first {MostListed:N0} are listed; of the others there are soundness, size and volume.")
            : $"Of {count:N0} things only the first {MostChecked} were checked each by itself; of the others there are soundness, size and volume.")
            + S($"The check of all of them together is whole. For every check of one of them, save it as a file of its own.");
    }

    internal static IReadOnlyList<Sentence> WarningsOf(MeshFile file) => [.. file.Warnings.Select(Sentence.FromReader)];

    private static InspectionReport Checked(MeshFile file, MeshItem item, InspectionRequest request, InspectionStage? stage, CancellationToken cancellation)
    {
        var measured = MeshChecks.Run(item.Mesh, request with { ForRange = false }, true, new InspectionClock(stage), cancellation);
        return MeshInspector.ReportOf(measured, measured.Facts(file.UnitStated, WarningsOf(file)), request) with { Name = item.Name };
    }

    private static InspectionReport Listed(MeshItem item, CancellationToken cancellation)
    {
        var (health, measures, size) = (MeshHealth.Of(item.Mesh, cancellation), MeshMeasures.Of(item.Mesh, cancellation), item.Mesh.Bounds.Size);
        return new()
        {
            Name = item.Name,
            Mesh = MeshReport.Of(health),
            Size = new(size.X, size.Y, size.Z),
            VolumeMm3 = measures.VolumeMm3,
            AreaMm2 = measures.AreaMm2,
            Centroid = [measures.Centroid.X, measures.Centroid.Y, measures.Centroid.Z],
        };
    }

    private static InspectionStage? Share(InspectionStage? stage, int item, int of) =>
        stage is null ? null : (percent, name) => stage(((100 * item) + percent) / of, name);
}
