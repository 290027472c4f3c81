using System.Net;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>A catalogue under a path of a reverse proxy.</summary>
public sealed class SubPathCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [("Catalogue:PathBase", "/puppets")];
}

/// <summary>The designers' side under a path: every link, form and redirect stays below it.</summary>
public sealed partial class SubPathTests(SubPathCatalogue catalogue) : IClassFixture<SubPathCatalogue>
{
    [Fact]
    public async Task Every_link_and_form_stays_below_the_path()
    {
        var name = "user-" + Guid.NewGuid().ToString("N")[..10];
        await catalogue.AccountAsync(name, "seven small lamps at sea", host: true);
        using var designer = new Browser(catalogue.Visitor());
        await designer.GoAsync("/puppets/drafts");
        await designer.SubmitAsync("/puppets/sign-in", ("Form.Name", name), ("Form.Password", "seven small lamps at sea"));
        Assert.Equal("/puppets/drafts", designer.Path);
        await designer.GoAsync("/puppets/edit-figure");
        await designer.SubmitAsync("/puppets/edit-figure", ("Form.Title", "The Lamp Diver"), ("Form.HeightMm", "120"), ("Form.Licence", "MIT"));
        await designer.GoAsync("/puppets/edit-part/the-lamp-diver");
        await designer.SubmitAsync("/puppets/edit-part/the-lamp-diver", ("Form.Name", "Torso"), ("Form.Quantity", "1"), ("Form.Role", "required"));
        await designer.SubmitAsync("/edit-variant/the-lamp-diver/torso", ("Form.Name", "Standard"), ("Form.Processes", "VPP-rigid"));
        await designer.SubmitFileAsync("/upload/the-lamp-diver/torso/standard", Api.BoxStl(8, 9, 10), "torso.stl", ("unit", "mm"), ("note", ""));
        Assert.Equal("/puppets/drafts/the-lamp-diver/parts/torso", designer.Path);

        foreach (var page in new[]
        {
            "drafts", "drafts/the-lamp-diver", "drafts/the-lamp-diver/parts/torso", "publish/the-lamp-diver", "upload/the-lamp-diver/torso/standard",
            "edit-figure/the-lamp-diver", "edit-part/the-lamp-diver/torso", "edit-variant/the-lamp-diver/torso/standard", "edit-choices/the-lamp-diver",
            "edit-assembly/the-lamp-diver", "account", "account/designers", "processes", "edit-limit/VPP-rigid/clearance", "inspect",
        })
        {
            await designer.GoAsync("/puppets/" + page);
            Assert.Equal(HttpStatusCode.OK, designer.Status);
            Assert.DoesNotMatch(OutsideThePath(), designer.Html);
        }
    }

    [Fact]
    public async Task The_address_of_what_was_made_is_below_the_path()
    {
        using var program = await catalogue.DesignerAsync();
        using var made = await program.SendJsonAsync("/puppets/api/figures", new { title = "The Tide Clerk", heightMm = 120, licence = "MIT" });
        await made.ExpectAsync(HttpStatusCode.Created);
        Assert.Equal("/puppets/api/drafts/the-tide-clerk", new Uri(program.BaseAddress!, made.Headers.Location!).AbsolutePath);
    }

    [GeneratedRegex("(href|action|src)=\"/(?!puppets/)")]
    private static partial Regex OutsideThePath();
}
