using System.Collections.Concurrent;
using System.Globalization;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Scaling;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Demo.Tests;

/// <summary>Judging a scaled part from stored measurements, against really inspecting the scaled mesh: on parts with holes, thin walls, limbs, relief and hollows.</summary>
public sealed class ScaledFactsTests
{
    private static readonly IReadOnlyList<Process> Processes = BuiltInProcesses.Create();

    private static readonly ConcurrentDictionary<(string, double), Lazy<(MeshFacts Real, MeshFacts Told)>> Compared = [];
    private static readonly ConcurrentDictionary<string, Lazy<MeshFacts>> Stored = [];

    /// <summary>The range's parts, at two scales that lie between the steps of the ladders.</summary>
    public static TheoryData<string, double> Cases()
    {
        var data = new TheoryData<string, double>();
        foreach (var path in RangeTests.Meshes.Select(row => row.Data).Where((_, i) => i % 6 == 0))
        {
            data.Add(path, 0.7);
            data.Add(path, 1.4);
        }

        return data;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Stored_measurements_tell_what_an_inspection_of_the_scaled_mesh_measures(string path, double scale)
    {
        var (real, told) = Compare(path, scale);
        Near(real.Size.X, told.Size.X, 0.001);
        Near(real.VolumeMm3, told.VolumeMm3, 0.001);
        Near(real.AreaMm2, told.AreaMm2, 0.001);
        Near(real.Walls!.Distribution?.MedianMm ?? 0, told.Walls!.Distribution?.MedianMm ?? 0, 0.03);

        // Surface within 0.1 mm of the plate rests, whatever the size of the part.
        Near(real.Overhangs!.AreaSteeperThan(45), told.Overhangs!.AreaSteeperThan(45), 0.04, 2);
        Near(real.Overhangs.SupportVolumeAt(45), told.Overhangs.SupportVolumeAt(45), 0.04, 5);
        Near(real.Liquid!.PooledMm3, told.Liquid!.PooledMm3, 0.15, 30);
        if (real.Holes!.Holes.Count == told.Holes!.Holes.Count)
            foreach (var (a, b) in real.Holes.Holes.Zip(told.Holes.Holes)) Near(a.DiameterMm, b.DiameterMm, 0.02);
    }

    // Not always the same: between two steps of a ladder the next one counts, which is on the careful side, and what is measured on samples moves a little with them, as it does when a part is turned.
    [Fact]
    public void The_verdicts_are_those_of_the_scaled_mesh_with_few_exceptions_of_one_grade()
    {
        var (same, all, exceptions) = (0, 0, new List<string>());
        Parallel.ForEach(Cases().Select(c => c.Data), c => Compare(c.Item1, c.Item2));
        foreach (var (path, scale) in Cases().Select(c => c.Data))
        {
            var (real, told) = Compare(path, scale);
            foreach (var process in Processes)
            {
                var (one, other) = (RevisionJudge.Judge(real, process), RevisionJudge.Judge(told, process));
                all++;
                if (one.Verdict == other.Verdict) same++;
                else exceptions.Add(string.Create(CultureInfo.InvariantCulture, $"{path} at {scale} on {process.Code}: inspected {Words(one)}, told {Words(other)}"));
                Assert.True((one.Verdict, other.Verdict) is not ((Verdict.Suits, Verdict.Unsuited) or (Verdict.Unsuited, Verdict.Suits)), exceptions.LastOrDefault());
            }
        }

        Assert.True(same >= 0.95 * all, $"{same} of {all} agree.\n{string.Join('\n', exceptions)}");
        TestContext.Current.SendDiagnosticMessage($"{same} of {all} verdicts agree.\n{string.Join('\n', exceptions)}");
    }

    private static (MeshFacts Real, MeshFacts Told) Compare(string path, double scale) => Compared.GetOrAdd((path, scale), key => new(() =>
    {
        var mesh = MadeMeshes.Of(key.Item1);
        var real = Inspect(Scaled(mesh, key.Item2));
        var stored = Stored.GetOrAdd(key.Item1, _ => new(() => Inspect(mesh)));
        return (real, stored.Value.Scaled(key.Item2, real.SmallPart));
    })).Value;

    private static string Words(Judgement judgement) => judgement.Verdict + ": " + string.Join(' ', judgement.Findings.Where(f => f.Severity > Severity.Note).Select(f => string.Create(CultureInfo.InvariantCulture, $"{f.Code} {f.Severity} {f.Measured}")));

    private static void Near(double real, double told, double share, double floor = 0.005) =>
        Assert.True(Math.Abs(real - told) <= Math.Max(floor, share * Math.Abs(real)), string.Create(CultureInfo.InvariantCulture, $"inspected {real}, told {told}"));

    private static TriangleMesh Scaled(TriangleMesh mesh, double scale) => new([.. mesh.Positions.ToArray().Select(p => (float)(p * scale))], mesh.Indices.ToArray());

    private static MeshFacts Inspect(TriangleMesh mesh)
    {
        using var file = new MemoryStream();
        StlWriter.Write(mesh, file);
        file.Position = 0;
        return MeshInspector.Inspect(file, file.Length, new InspectionRequest { Unit = LengthUnit.Millimetre }, cancellation: TestContext.Current.CancellationToken).Facts;
    }
}
