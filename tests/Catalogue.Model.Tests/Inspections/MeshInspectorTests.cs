using System.Text.Json;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Xunit;

namespace Catalogue.Model.Tests.Inspections;

public sealed class MeshInspectorTests
{
    // Closed forms of a box.
    [Fact]
    public void A_box_is_read_measured_and_judged()
    {
        var report = Inspect(Solids.Box(20, 30, 40)).Report;
        Assert.Equal("stl-binary", report.Format);
        Assert.Equal((12, 8, 1, true, 2), (report.Mesh!.Triangles, report.Mesh.Vertices, report.Mesh.Shells, report.Mesh.Closed, report.Mesh.EulerCharacteristic));
        Assert.Equal(24_000, report.VolumeMm3!.Value, 6);
        Assert.Equal(5_200, report.AreaMm2!.Value, 6);
        Assert.Equal([10.0, 15, 20], report.Centroid!);
        Assert.All(report.Processes!, p => Assert.Equal("suits", p.Verdict));
        Assert.Null(report.Fit);
    }

    // A 170 mm stick is longer than each side of 64 × 114 × 152 and shorter than the diagonal √(64² + 114² + 152²) = 200.5.
    [Fact]
    public void A_stick_longer_than_every_side_fits_when_turned_and_says_so()
    {
        var report = Inspect(Solids.Box(5, 5, 170), "64x114x152").Report;
        Assert.True(report.Fit!.Fits);
        Assert.Contains(report.Processes![0].Findings, f => f is { Code: "fit.turn" or "fit.tight", Severity: "note" });
    }

    [Fact]
    public void A_part_too_large_in_every_orientation_is_unsuited_by_so_many_millimetres()
    {
        // The longest side of a cube cannot become shorter than itself in the smallest room: 70 into 64 × 114 × 152.
        var report = Inspect(Solids.Box(70, 70, 70), "64x114x152").Report;
        Assert.False(report.Fit!.Fits);
        Assert.Equal(-6, report.Fit.SpareMm, 0.05);
        var finding = Assert.Single(report.Processes![0].Findings, f => f.Code == "fit.too-large");
        Assert.Equal("stop", finding.Severity);
        Assert.Equal("unsuited", report.Processes[0].Verdict);
    }

    // A brick is its own smallest box, however it lies in its file.
    [Fact]
    public void The_smallest_box_is_told_with_the_rotation_that_stands_it_up()
    {
        var box = Inspect(Solids.Box(20, 30, 40).Transformed(Rotation.About(new(1, 2, 3), 0.7))).Report.SmallestBox!;
        Assert.Equal(24_000, box.VolumeMm3, 1);
        Assert.Equal([20.0, 30, 40], box.Size.Select(s => Math.Round(s, 3)));
        Assert.Equal(9, box.Rotation.Length);
    }

    // 16 CFR 1501.4: a bore of 31.75 mm takes a ball of 31.7 mm and not one of 32 mm.
    [Theory, InlineData(31.7, true), InlineData(32, false)]
    public void A_part_that_the_small_parts_cylinder_takes_in_is_noted_and_still_suits(double diameter, bool small)
    {
        var report = Inspect(Solids.Icosphere(diameter / 2, 4)).Report;
        Assert.Equal(small, report.SmallPart);
        Assert.All(report.Processes!, p => Assert.Equal("suits", p.Verdict));
        Assert.Equal(small, report.Processes![0].Findings.Any(f => f is { Code: "small-part", Severity: "note", Source.English: "16 CFR 1501.4" }));
    }

    [Fact]
    public void Boxes_that_run_through_each_other_are_found_with_a_place()
    {
        var crossed = Solids.Together(Solids.Box(20, 20, 20), Solids.Box(20, 20, 20).Transformed(Rotation.Identity, new(10, 10, 10)));
        var result = Inspect(crossed);
        Assert.True(result.Report.Mesh!.SelfIntersections > 0);
        var finding = Assert.Single(result.Report.Processes![0].Findings, f => f.Code == "mesh.self-intersections");
        Assert.Equal("care", finding.Severity);
        Assert.NotNull(finding.At);
        Assert.Equal(0, Inspect(Solids.Icosphere(10, 3)).Report.Mesh!.SelfIntersections);
    }

    // By hand: a block of 5 × 5 × 5 on the plate and another over it 7 mm up: 25 mm² hang over, 25 · 7 − 25 · 5 mm³ of columns stand on the lower one.
    [Fact]
    public void What_hangs_over_is_reported_with_its_convention_and_supports()
    {
        var report = Inspect(Solids.Together(Solids.Box(5, 5, 5), Solids.Box(5, 5, 5).Transformed(Rotation.Identity, new(0, 0, 7)))).Report;
        var overhang = report.Overhang!;
        Assert.Equal((45.0, 25.0, 25.0, 12.0), (overhang.LimitDegrees, overhang.AreaMm2, overhang.RestingMm2, overhang.HeightMm));
        Assert.Equal(50, overhang.SupportVolumeMm3, 1);
        Assert.Equal(50, overhang.ContactMm2, 0.5);
        Assert.Equal(new double[] { 1, 0, 0, 0, 1, 0, 0, 0, 1 }, overhang.Rotation);
        Assert.Equal((1, 7.0), (overhang.IslandCount, overhang.Islands[0].HeightMm));
        Assert.Contains(report.Processes!.Single(p => p.Process == "MEX-rigid").Findings, f => f is { Code: "overhang.area", Severity: "note" });
        Assert.Contains("\"overhang\":{\"areaMm2\":25", InspectionJson.Write(report), StringComparison.Ordinal);
    }

    // By hand: a slab 20 × 20 × 5 on a post 10 × 10 × 20, turned on its head, hangs over nowhere.
    [Fact]
    public void Orientations_are_advised_when_a_volume_is_given_and_only_those_that_fit()
    {
        var mushroom = Solids.Together(Solids.Box(10, 10, 20.001), Solids.Box(20, 20, 5).Transformed(Rotation.Identity, new(-5, -5, 20)));
        Assert.Null(Inspect(mushroom).Report.Orientations);
        var advice = Inspect(mushroom, "30x30x30").Report.Orientations!;
        Assert.Equal(300, advice.AsTheFileLies!.ContactMm2, 3.0);
        Assert.Contains("contact", advice.Advised[0].BestIn);
        Assert.Equal(0, advice.Advised[0].ContactMm2, 1.0);
        Assert.All(advice.Advised, o => Assert.True(o.Size.All(s => s <= 30) && o.SpareMm >= 0 && o.Rotation.Length == 9));
        Assert.Empty(Inspect(mushroom, "15x15x15").Report.Orientations!.Advised);
    }

    // By hand: a box of 20 mm with a box of 10 mm missing inside keeps 1000 mm³; the film seals 100 mm² of it over 10 mm of layers.
    [Fact]
    public void What_a_part_keeps_inside_is_reported_with_where_to_open_it()
    {
        var hollow = Solids.Together(Solids.Box(20, 20, 20), Solids.Inverted(Solids.Box(10, 10, 10).Transformed(Rotation.Identity, new(5, 5, 6))));
        var report = Inspect(hollow).Report;
        var liquid = report.Liquid!;
        var hidden = Assert.Single(liquid.SealedVoids);
        Assert.Equal((1000.0, 4.0), (hidden.VolumeMm3, Math.Round(hidden.Drain!.WallMm, 3)));
        Assert.Equal(20, hidden.Drain.At[2], 0.001);
        Assert.Equal(6, hidden.Vent!.WallMm, 1.1);
        Assert.Equal(0, liquid.PooledMm3);
        Assert.Equal(100, liquid.SuctionMm2, 4.0);
        Assert.Equal(10, liquid.SuctionLastsMm, 0.1);
        Assert.Equal(["suits", "care", "care"], new[] { "MEX-rigid", "VPP-rigid", "PBF-rigid" }.Select(p => report.Processes!.Single(r => r.Process == p).Verdict));
        Assert.Contains("\"liquid\":{\"sealedVoids\":[{\"volumeMm3\":1000,", InspectionJson.Write(report), StringComparison.Ordinal);
    }

    [Fact]
    public void A_mesh_without_an_inside_gets_no_answer_about_overhangs_and_liquid()
    {
        var box = Solids.Box(10, 10, 10);
        Assert.Null(Inspect(new TriangleMesh(box.Positions.ToArray(), box.Indices[3..].ToArray())).Report.Overhang);
        Assert.Null(Inspect(Solids.Inverted(box)).Report.Overhang);
        Assert.Null(Inspect(Solids.Inverted(box)).Report.Liquid);
        Assert.Null(Inspect(Solids.Inverted(box)).Report.Detail);
    }

    // A bar of 2 × 2 × 60 mm: its middle holds it, each half is a limb; 2⁴ / 12 about the diagonal.
    [Fact]
    public void Limbs_are_told_of_with_the_sections_they_would_break_at()
    {
        var report = Inspect(Solids.Box(2, 2, 60)).Report;
        var limb = report.Limbs![0];
        Assert.Equal(16 / 12.0, limb.Pushed.SecondMomentMm4, 0.03);
        Assert.InRange(limb.Pushed.LeverMm, 24, 31);
        Assert.Contains(report.Processes!.Single(p => p.Process == "VPP-rigid").Findings, f => f.Code == "limb.fragile");
        Assert.DoesNotContain(report.Processes!.Single(p => p.Process == "VPP-flexible").Findings, f => f.Code == "limb.fragile");
        Assert.Empty(Inspect(Solids.Box(20, 20, 20)).Report.Limbs!);
    }

    [Fact]
    public void Holes_are_told_of_only_where_it_is_clear_what_is_inside()
    {
        var axle = Solids.Cylinder(1.5, 20, 24);
        var report = Inspect(axle).Report;
        Assert.Empty(report.Holes!);
        var peg = Assert.Single(report.Pegs!);
        Assert.Equal((3, 20), (Math.Round(peg.DiameterMm, 2), Math.Round(peg.LengthMm, 1)));
        Assert.Null(Inspect(Solids.Inverted(axle)).Report.Holes);
    }

    [Fact]
    public void An_open_mesh_is_unsuited_everywhere_with_the_number_of_its_open_edges()
    {
        var box = Solids.Box(10, 10, 10);
        var open = new TriangleMesh(box.Positions.ToArray(), box.Indices[3..].ToArray());
        var report = Inspect(open).Report;
        Assert.Equal(3, report.Mesh!.BoundaryEdges);
        Assert.All(report.Processes!, p => Assert.Equal("unsuited", p.Verdict));
    }

    // A sheet of 0.3 mm and one of 3 mm, 0.4 mm apart.
    [Fact]
    public void Thin_walls_and_narrow_gaps_are_reported_and_judged()
    {
        var sheets = Solids.Together(Solids.Box(20, 20, 0.3), Solids.Box(20, 20, 3).Transformed(Rotation.Identity, new(0, 0, 0.7)));
        var report = Inspect(sheets).Report;
        var thickness = report.Thickness!;
        Assert.Equal((0.3, 0.3), (Math.Round(thickness.MinMm!.Value, 3), Math.Round(thickness.P01Mm!.Value, 3)));
        var thin = Assert.Single(thickness.ThinRegions);
        Assert.Equal((0.3, 800), (Math.Round(thin.MinMm, 3), Math.Round(thin.AreaMm2)));
        var gap = Assert.Single(report.Gaps!.NarrowRegions);
        Assert.Equal((0.4, 800), (Math.Round(gap.MinMm, 3), Math.Round(gap.AreaMm2)));
        var findings = report.Processes!.Single(p => p.Process == "VPP-rigid").Findings;
        Assert.Contains(findings, f => f is { Code: "wall.thin-free", Severity: "stop", Limit: 1 });
        Assert.Contains(findings, f => f is { Code: "gap.narrow", Severity: "care", Limit: 0.5 });
        Assert.Contains("\"thickness\":{\"samples\":", InspectionJson.Write(report), StringComparison.Ordinal);
        Assert.Contains("\"thinRegions\":[{\"minMm\":0.3", InspectionJson.Write(report), StringComparison.Ordinal);
    }

    [Fact]
    public void The_facts_survive_being_stored()
    {
        var result = Inspect(Solids.Box(10, 20, 30));
        var inspection = new MeshInspection(new string('a', 64), null, DateTime.UtcNow);
        inspection.Start(DateTime.UtcNow);
        inspection.Finish(result.Facts, InspectionJson.Write(result.Report), MeshInspector.CheckVersion, DateTime.UtcNow);
        var read = inspection.Facts;
        Assert.Equal(
            result.Facts with
            {
                Hull = read.Hull,
                FitProfile = read.FitProfile,
                Warnings = read.Warnings,
                Walls = read.Walls,
                Gaps = read.Gaps,
                Overhangs = read.Overhangs,
                Holes = read.Holes,
                Limbs = read.Limbs,
                Liquid = read.Liquid,
                Details = read.Details,
            },
            read);
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Walls), JsonSerializer.Serialize(read.Walls));
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Gaps), JsonSerializer.Serialize(read.Gaps));
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Overhangs), JsonSerializer.Serialize(read.Overhangs));
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Limbs), JsonSerializer.Serialize(read.Limbs));
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Holes), JsonSerializer.Serialize(read.Holes));
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Liquid), JsonSerializer.Serialize(read.Liquid));
        Assert.Equal(JsonSerializer.Serialize(result.Facts.Details), JsonSerializer.Serialize(read.Details));
        Assert.Equal(result.Facts.Warnings, read.Warnings);
        Assert.Equal(result.Facts.Hull, inspection.Hull);
        Assert.Equal(result.Report.VolumeMm3, InspectionJson.Read(inspection.ReportJson)!.VolumeMm3);
    }

    private static InspectionResult Inspect(TriangleMesh mesh, string? volume = null)
    {
        using var content = new MemoryStream();
        StlWriter.Write(mesh, content);
        content.Position = 0;
        return MeshInspector.Inspect(content, content.Length, new InspectionRequest
        {
            Unit = Geometry.Formats.LengthUnit.Millimetre,
            Processes = BuiltInProcesses.Create(),
            Volume = volume is null ? null : BuildVolume.Parse(volume),
        });
    }
}
