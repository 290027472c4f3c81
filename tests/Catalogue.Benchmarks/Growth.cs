using System.Diagnostics;
using System.Globalization;
using Catalogue.Benchmarks.Comparison;
using Catalogue.Benchmarks.Details;
using Catalogue.Benchmarks.Fit;
using Catalogue.Benchmarks.Formats;
using Catalogue.Benchmarks.Health;
using Catalogue.Benchmarks.Holes;
using Catalogue.Benchmarks.Inspections;
using Catalogue.Benchmarks.Limbs;
using Catalogue.Benchmarks.Liquids;
using Catalogue.Benchmarks.Overhangs;
using Catalogue.Benchmarks.Repair;
using Catalogue.Benchmarks.Spatial;
using Catalogue.Benchmarks.Thickness;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Benchmarks;

/// <summary>One line of the growth table: what is done to the figure of a given size.</summary>
/// <param name="Prepare">Not timed; returns what is. Files it needs go to the temporary folder.</param>
/// <param name="Largest">Sizes beyond it are left out of this line.</param>
/// <param name="Smallest">So are sizes below it.</param>
internal sealed record GrowthLine(string Name, Func<TriangleMesh, Action> Prepare, int Largest = int.MaxValue, int Smallest = 0);

/// <summary>
/// How cost grows from a thousand to five million triangles, every room's lines in one table:
/// <c>dotnet run -c Release --project tests/Catalogue.Benchmarks -- growth [numbers of triangles] [words that a line's name must contain]</c>.
/// Least time of several runs, and the growth of the process's peak memory during one of them where the system tells it.
/// </summary>
internal static class Growth
{
    private static readonly int[] Sizes = [1_000, 10_000, 100_000, 1_000_000, 5_000_000];

    /// <summary>Add a room's lines here.</summary>
    private static IEnumerable<GrowthLine> Lines =>
    [
        .. FormatsGrowth.Lines, .. HealthGrowth.Lines, .. SpatialGrowth.Lines, .. FitGrowth.Lines, .. ComparisonGrowth.Lines, .. OverhangGrowth.Lines,
        .. ThicknessGrowth.Lines, .. HolesGrowth.Lines, .. LimbsGrowth.Lines, .. LiquidGrowth.Lines, .. DetailGrowth.Lines, .. RepairGrowth.Lines, .. InspectionsGrowth.Lines,
    ];

    public static void Run(ReadOnlySpan<string> words)
    {
        var wanted = words.ToArray().Where(w => !int.TryParse(w, CultureInfo.InvariantCulture, out _)).ToList();
        var sizes = words.ToArray().Select(w => int.TryParse(w, CultureInfo.InvariantCulture, out var n) ? n : 0).Where(n => n > 0).ToArray();
        var lines = Lines.Where(l => wanted.All(w => l.Name.Contains(w, StringComparison.OrdinalIgnoreCase))).ToList();
        var columns = new List<string[]>();
        foreach (var size in sizes is [] ? Sizes : sizes)
        {
            var mesh = Samples.Figure(size);
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{mesh.TriangleCount:N0} triangles …"));
            columns.Add([Count(mesh.TriangleCount), .. lines.Select(l => size > l.Largest || size < l.Smallest ? "–" : Measured(l, mesh))]);
        }

        string[] names = ["triangles", .. lines.Select(l => l.Name)];
        var nameWidth = names.Max(n => n.Length);
        var widths = columns.Select(c => c.Max(t => t.Length)).ToList();
        for (var row = 0; row < names.Length; row++)
        {
            Console.WriteLine($"| {names[row].PadRight(nameWidth)} | {string.Join(" | ", columns.Select((c, i) => c[row].PadLeft(widths[i])))} |");
            if (row == 0) Console.WriteLine($"|-{new string('-', nameWidth)}-|-{string.Join(":|-", widths.Select(w => new string('-', w)))}:|");
        }
    }

    private static string Measured(GrowthLine line, TriangleMesh mesh)
    {
        var action = line.Prepare(mesh);
        action();
        GC.Collect();
        GC.WaitForPendingFinalizers();
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        var before = PeakMemory.Restart();
        action();
        var grown = PeakMemory.Read() - before;

        var best = double.PositiveInfinity;
        var all = Stopwatch.StartNew();
        for (var run = 0; run < 3 || (run < 200 && all.Elapsed.TotalSeconds < 1.5); run++)
        {
            var start = Stopwatch.GetTimestamp();
            action();
            best = Math.Min(best, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        var time = best < 10 ? best.ToString("0.00", CultureInfo.InvariantCulture) : best.ToString("N0", CultureInfo.InvariantCulture);
        return grown is { } bytes ? string.Create(CultureInfo.InvariantCulture, $"{time} ms {bytes / 1e6:N0} MB") : $"{time} ms";
    }

    private static string Count(int n) => n < 1_000_000
        ? string.Create(CultureInfo.InvariantCulture, $"{n / 1e3:0.#} k")
        : string.Create(CultureInfo.InvariantCulture, $"{n / 1e6:0.##} M");
}
