using System.Net;
using System.Net.Http.Json;

namespace Catalogue.Web.Tests.Printers;

/// <summary>Usual printers by size class: read by all, the host's to change.</summary>
public abstract class PresetTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task Visitors_begin_from_a_usual_size_and_its_query_is_understood_everywhere()
    {
        using var visitor = Catalogue.Visitor();
        var presets = await visitor.GetJsonAsync("/api/printers");
        var small = presets["items"]!.AsArray().Single(p => (string?)p!["name"] == "Small resin")!;
        Assert.Equal(("65x115x150", 2.0, "VPP-rigid"), ((string?)small["volume"], (double)small["marginMm"]!, (string?)small["process"]));
        Assert.Equal("180x280", (string?)presets["items"]!.AsArray().Single(p => (string?)p!["name"] == "Round plate")!["round"]);
        foreach (var preset in presets["items"]!.AsArray()) await visitor.GetJsonAsync($"/api/figures?{preset!["query"]}");
        using var browser = new Browser(Catalogue.Visitor());
        await browser.GoAsync("/printer?unit=inch");
        Assert.Contains("65 × 115 × 150 mm (2.56 × 4.53 × 5.91 in) – one figure at a time", browser.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.DoesNotContain("edit-printers", browser.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_host_adds_changes_orders_and_removes_sizes_on_a_page()
    {
        using var host = await Catalogue.SignedInAsync(host: true);
        await host.GoAsync("/printer");
        Assert.Contains("/edit-printers", host.Html, StringComparison.Ordinal);
        await host.GoAsync("/edit-printers");
        await host.SubmitAsync("/edit-printers", ("Form.Name", "Tall resin"), ("Form.Volume", "a lot"), ("Form.MarginMm", "2"));
        Assert.Contains("is not a build volume", host.Text, StringComparison.Ordinal);
        await host.SubmitAsync("/edit-printers", ("Form.Name", "Tall resin"), ("Form.Volume", "120x70x250"), ("Form.MarginMm", "1,5"));
        Assert.Contains("Tall resin", host.Text, StringComparison.Ordinal);
        using var visitor = Catalogue.Visitor();
        var id = (string?)(await PresetAsync(visitor, "Tall resin"))!["id"];
        await host.GoAsync($"/edit-printers?edit={id}");
        await host.SubmitAsync($"/edit-printers?edit={id}", ("Form.Name", "Tall resin"), ("Form.Volume", "130x80x250"), ("Form.MarginMm", "0"));
        Assert.Equal("130x80x250", (string?)(await PresetAsync(visitor, "Tall resin"))!["volume"]);
        var before = await NamesAsync(visitor);
        await host.SubmitAsync("/edit-printers?handler=Raise", ("id", id!));
        Assert.Equal(before.Count - 2, (await NamesAsync(visitor)).IndexOf("Tall resin"));
        await host.SubmitAsync("/edit-printers?handler=Remove", ("id", id!));
        Assert.Null(await PresetAsync(visitor, "Tall resin"));
    }

    [Fact]
    public async Task Over_the_api_only_the_host_changes_them_and_is_told_what_is_wrong()
    {
        using var host = Catalogue.Visitor();
        host.DefaultRequestHeaders.Authorization = new("Bearer", await Catalogue.TokenAsync("host", host: true));
        var made = await host.PostAsync("/api/printers", new { name = "Wide powder", volume = "300x300x200", marginMm = 3, process = "PBF-rigid" }, HttpStatusCode.Created);
        await host.SendAsync(HttpMethod.Put, $"/api/printers/{made["id"]}", new { name = "Wide powder", volume = "200x250", marginMm = 3 }, HttpStatusCode.OK);
        await host.SendAsync(HttpMethod.Delete, $"/api/printers/{made["id"]}", null, HttpStatusCode.NoContent);
        (object Words, string Code)[] wrong =
        [
            (new { name = "", volume = "300x300x200" }, "text-missing"), (new { name = "X", volume = "300" }, "volume-invalid"), (new { name = "X", volume = "30x30x30", marginMm = 15 }, "margin-invalid"),
            (new { name = "X", volume = "30x30x30", process = "XYZ-odd" }, "process-unknown"),
        ];
        foreach (var (words, code) in wrong)
        {
            using var refused = await host.PostAsync("/api/printers", JsonContent.Create(words));
            await refused.ExpectProblemAsync(HttpStatusCode.UnprocessableEntity, code);
        }

        using var gone = await host.DeleteAsync($"/api/printers/{made["id"]}");
        await gone.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found");
        using var designer = await Catalogue.DesignerAsync();
        using var forbidden = await designer.PostAsync("/api/printers", JsonContent.Create(new { name = "X", volume = "30x30x30" }));
        await forbidden.ExpectProblemAsync(HttpStatusCode.Forbidden, "not-allowed");
    }

    private static async Task<System.Text.Json.Nodes.JsonNode?> PresetAsync(HttpClient visitor, string name) =>
        (await visitor.GetJsonAsync("/api/printers"))["items"]!.AsArray().FirstOrDefault(p => (string?)p!["name"] == name);

    private static async Task<List<string>> NamesAsync(HttpClient visitor) =>
        [.. (await visitor.GetJsonAsync("/api/printers"))["items"]!.AsArray().Select(p => (string)p!["name"]!)];
}

public sealed class PresetsOnSqliteTests(SqliteCatalogue catalogue) : PresetTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class PresetsOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : PresetTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
