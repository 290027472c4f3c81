using System.Buffers.Binary;
using Catalogue.Data.Judging;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Benchmarks.Ranges;

/// <summary>
/// A part that was really made, inspected and judged, to be had in any size: a range of a hundred thousand parts has a few dozen of them, each in thousands of sizes.
/// </summary>
/// <remarks>
/// Hull and fit profile are scaled exactly, so that every size has a profile and a hull of its own that belong together. Measurements and findings stay those of the size
/// that was inspected, so that judging again from the stored measurements gives what is stored.
/// </remarks>
internal sealed class SampleShape
{
    private readonly byte[] _profile;
    private readonly byte[] _hull;

    private SampleShape(MeshFacts facts, IReadOnlyList<Process> processes)
    {
        Facts = facts;
        (_profile, _hull) = (facts.FitProfile, facts.Hull);
        Judgements = processes.ToDictionary(p => p.Code, p => RevisionJudge.Judge(facts, p));
        var inspection = new MeshInspection(new('0', 64), null, DateTime.UnixEpoch);
        inspection.Finish(facts, "{}", MeshInspector.CheckVersion, DateTime.UnixEpoch);
        FactsJson = inspection.FactsJson;
        CheckFacts = [.. InspectionFacts.Of(inspection.Id, CheckedFacts.Of(facts)).Select(f => (f.Check, f.Packed))];
    }

    public MeshFacts Facts { get; }
    public string FactsJson { get; }
    public IReadOnlyList<(string Check, byte[] Packed)> CheckFacts { get; }
    public IReadOnlyDictionary<string, Judgement> Judgements { get; }

    /// <summary>Limbs, trunks, discs and rings with thick and thin walls: the same for the same seed.</summary>
    public static IReadOnlyList<SampleShape> Make(int count, int seed, IReadOnlyList<Process> processes)
    {
        var random = new Random(seed);
        var shapes = new List<SampleShape>(count);
        for (var i = 0; i < count; i++)
        {
            using var file = new MemoryStream();
            StlWriter.Write(Mesh(i, random), file);
            file.Position = 0;
            shapes.Add(new(MeshInspector.Inspect(file, file.Length, new InspectionRequest { ForRange = true, Sha256 = "" }).Facts, processes));
        }

        return shapes;
    }

    /// <summary>The fit profile of the shape in another size: its lengths and slacks are in the header's scale.</summary>
    public byte[] Profile(double scale)
    {
        var bytes = (byte[])_profile.Clone();
        for (var at = 8; at < 32; at += 8) BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(at), scale * BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(at)));
        return bytes;
    }

    public byte[] Hull(double scale)
    {
        var bytes = (byte[])_hull.Clone();
        var vertices = BinaryPrimitives.ReadInt32LittleEndian(bytes.AsSpan(16));
        for (var i = 0; i < 3 * vertices; i++)
        {
            var at = bytes.AsSpan(24 + (4 * i));
            BinaryPrimitives.WriteSingleLittleEndian(at, (float)(scale * BinaryPrimitives.ReadSingleLittleEndian(at)));
        }

        return bytes;
    }

    private static TriangleMesh Mesh(int kind, Random random)
    {
        double Between(double least, double most) => least + ((most - least) * random.NextDouble());
        var turn = Rotation.About(new(random.NextDouble(), random.NextDouble(), 0.1), Between(0, 3));
        return (kind % 5) switch
        {
            0 => Solids.Box(Between(20, 90), Between(15, 60), Between(0.8, 40)).Transformed(turn),
            1 => Limb(Between(40, 110), Between(2, 9), Between(0, 25)).Transformed(turn),
            2 => Solids.Cylinder(Between(8, 35), Between(1.5, 90), 28).Transformed(turn),
            3 => Solids.Torus(Between(18, 45), Between(1.2, 9), 30, 12).Transformed(turn),
            _ => Trunk(Between(25, 70), Between(15, 45), Between(12, 40)).Transformed(turn),
        };
    }

    /// <summary>A bent round bar that gets thinner.</summary>
    private static TriangleMesh Limb(double length, double radius, double bend)
    {
        var sphere = Solids.Icosphere(1, 3);
        return Moved(sphere, p => new(length / 2 * p.Z, (radius * p.X * (1.2 - (0.4 * p.Z))) + (bend * p.Z * p.Z), radius * p.Y));
    }

    private static TriangleMesh Trunk(double height, double width, double depth) =>
        Moved(Solids.Icosphere(1, 3), p => new(width / 2 * p.X * (1 + (0.2 * p.Z)), depth / 2 * p.Y, height / 2 * p.Z));

    private static TriangleMesh Moved(TriangleMesh mesh, Func<Vec3, Vec3> map)
    {
        var positions = mesh.Positions.ToArray();
        for (var i = 0; i + 2 < positions.Length; i += 3)
        {
            var p = map(new(positions[i], positions[i + 1], positions[i + 2]));
            (positions[i], positions[i + 1], positions[i + 2]) = ((float)p.X, (float)p.Y, (float)p.Z);
        }

        return new(positions, mesh.Indices.ToArray());
    }
}
