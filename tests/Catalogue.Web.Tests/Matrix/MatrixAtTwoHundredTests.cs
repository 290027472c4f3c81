using System.IO.Compression;
using System.Text;
using Catalogue.Data.Queries;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;

namespace Catalogue.Web.Tests.Matrix;

/// <summary>The matrix of a range of two hundred figures: rows written past the uploads, meshes really inspected.</summary>
public sealed class MatrixAtTwoHundredTests(SqliteCatalogue catalogue) : IClassFixture<SqliteCatalogue>
{
    private const int Figures = 200;
    private const int Meshes = 12;

    // Every page of the site is sent compressed; a phone in a workshop gets this one in a second at 1.2 Mbit/s.
    private const int MostBytes = 150_000;

    [Fact]
    public async Task Two_hundred_figures_with_their_reasons_are_one_light_page()
    {
        await PublishAsync();
        using var visitor = catalogue.Visitor();
        var html = await visitor.GetStringAsync("/matrix");
        Assert.Equal(Figures, html.Split("<tr>").Count(r => r.Contains("scope=\"row\"", StringComparison.Ordinal) && r.Contains("class=\"cell\"", StringComparison.Ordinal)));
        foreach (var word in new[] { "verdict-suits", "verdict-care", "verdict-unsuited" }) Assert.Contains(word, html, StringComparison.Ordinal);
        using var packed = new MemoryStream();
        await using (var gzip = new GZipStream(packed, CompressionLevel.Optimal, leaveOpen: true)) await gzip.WriteAsync(Encoding.UTF8.GetBytes(html));
        TestContext.Current.TestOutputHelper?.WriteLine($"{Encoding.UTF8.GetByteCount(html)} bytes, {packed.Length} compressed");
        Assert.InRange(packed.Length, 1, MostBytes);

        // As it is really sent.
        using var request = new HttpRequestMessage(HttpMethod.Get, "/matrix");
        request.Headers.AcceptEncoding.Add(new("gzip"));
        using var sent = await visitor.SendAsync(request);
        Assert.Contains("gzip", sent.Content.Headers.ContentEncoding);
        Assert.InRange((await sent.Content.ReadAsByteArrayAsync()).Length, 1, MostBytes);
        var csv = (await visitor.GetStringAsync("/api/matrix.csv")).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(Figures + 1, csv.Length);
    }

    /// <summary>Eight parts each; plates of all thicknesses, rods and blocks, some longer than the promised volume. Resin, filament, or both.</summary>
    private Task<int> PublishAsync() => catalogue.WithDbAsync(async db =>
    {
        var now = DateTime.UtcNow;
        var inspections = new List<MeshInspection>();
        for (var i = 0; i < Meshes; i++)
        {
            var mesh = (i % 4) switch
            {
                0 => Solids.Box(18 + i, 14, 9 + i),
                1 => Solids.Box(16 + i, 20, 0.6 + (i * 0.04)),
                2 => Solids.Cylinder(1 + (i * 0.2), 30 + i, 24),
                _ => Solids.Box(20, 20, 60 + (i * 10)),
            };
            using var stl = new MemoryStream(Api.Stl(mesh));
            var result = MeshInspector.Inspect(stl, stl.Length, new() { ForRange = true, Unit = LengthUnit.Millimetre }, cancellation: TestContext.Current.CancellationToken);
            var inspection = new MeshInspection(i.ToString("x64", System.Globalization.CultureInfo.InvariantCulture), LengthUnit.Millimetre, now);
            inspection.Start(now);
            inspection.Finish(result.Facts, InspectionJson.Write(result.Report), MeshInspector.CheckVersion, now);
            inspections.Add(inspection);
        }

        db.Inspections.AddRange(inspections);
        string[] parts = ["Torso", "Head", "Left arm", "Right arm", "Left leg", "Right leg", "Cloak", "Lantern"];
        var (figures, revisions) = (new List<Figure>(), new List<Revision>());
        for (var f = 0; f < Figures; f++)
        {
            var figure = new Figure($"figure-{f:000}", new() { Title = $"The {f + 1}th player of the company", HeightMm = 90 + (f % 60), Licence = "CC-BY-4.0" }, now);
            for (var p = 0; p < parts.Length; p++)
            {
                var part = figure.AddPart(Slug.From(parts[p]), parts[p], 1, p == 7 ? PartRole.Optional : PartRole.Required, now);
                string[] processes = f % 7 == 0 ? ["VPP-rigid", "VPP-tough"] : f % 11 == 0 ? ["MEX-rigid"] : ["MEX-rigid", "MEX-flexible", "VPP-rigid", "VPP-tough", "VPP-flexible", "PBF-rigid"];
                var inspection = inspections[f % 3 == 0 ? (p * 4) % Meshes : ((f * 5) + (p * 7)) % Meshes];
                revisions.Add(part.AddVariant("standard", "Standard", processes, now).Upload(inspection.Sha256, 684, "part.stl", LengthUnit.Millimetre, "First shape.", inspection, now));
            }

            figures.Add(figure);
        }

        db.Figures.AddRange(figures);
        await db.SaveChangesAsync();
        foreach (var figure in figures) figure.Publish("First edition", now);
        await db.SaveChangesAsync();
        await RevisionVerdicts.JudgeAsync(db, revisions, now, TestContext.Current.CancellationToken);
        return await db.SaveChangesAsync();
    });
}
