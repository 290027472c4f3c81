using System.Net;

namespace Catalogue.Web.Tests.Drafts;

/// <summary>The designer's whole way through the pages, without JavaScript.</summary>
public abstract class DraftPagesTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    [Fact]
    public async Task A_figure_goes_from_an_empty_form_to_an_edition()
    {
        using var designer = await Catalogue.SignedInAsync();
        var title = "The Lamp Diver " + Guid.NewGuid().ToString("N")[..8];
        await designer.GoAsync("/edit-figure");
        await designer.SubmitAsync("/edit-figure", ("Form.Title", title), ("Form.HeightMm", "tall"), ("Form.Licence", "free"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, designer.Status);
        Assert.Contains("“tall” is not a number", designer.Text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{title}\"", designer.Html, StringComparison.Ordinal);
        await designer.SubmitAsync("/edit-figure", ("Form.Title", title), ("Form.HeightMm", "120,5"), ("Form.Licence", "free for all"));
        Assert.Contains("not an SPDX licence identifier", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync("/edit-figure", ("Form.Title", title), ("Form.HeightMm", "120,5"), ("Form.Licence", "CC-BY-4.0"));
        var figure = designer.Path["/drafts/".Length..];
        Assert.Contains("120.5 mm", designer.Text, StringComparison.Ordinal);

        await designer.GoAsync($"/edit-part/{figure}");
        await designer.SubmitAsync($"/edit-part/{figure}", ("Form.Name", "Torso"), ("Form.Quantity", "1"), ("Form.Role", "required"));
        Assert.Equal($"/edit-variant/{figure}/torso", designer.Path);
        await designer.SubmitAsync($"/edit-variant/{figure}/torso", ("Form.Name", "Standard"));
        Assert.Contains("at least one process", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync($"/edit-variant/{figure}/torso", ("Form.Name", "Standard"), ("Form.Processes", "VPP-rigid"), ("Form.Processes", "MEX-rigid"), ("Form.Reservations[VPP-rigid]", "Mind the neck."));
        Assert.Equal($"/upload/{figure}/torso/standard", designer.Path);
        await designer.SubmitFileAsync($"/upload/{figure}/torso/standard", Api.BoxStl(20, 30, 40), "torso.stl", ("unit", "mm"), ("note", "The first."));
        Assert.Equal($"/drafts/{figure}/parts/torso", designer.Path);
        Assert.Contains("Revision 1 is safe here", designer.Text, StringComparison.Ordinal);
        await UntilInspectedAsync(designer, figure, "torso");
        Assert.Contains("20 × 30 × 40 mm", designer.Text.Replace('\u00A0', ' '), StringComparison.Ordinal);
        Assert.Contains("Mind the neck.", designer.Text, StringComparison.Ordinal);

        await designer.GoAsync($"/drafts/{figure}/parts/torso?handler=File&variant=standard&number=1");
        Assert.Equal((HttpStatusCode.OK, "torso.stl"), (designer.Status, designer.FileName));

        await designer.GoAsync($"/drafts/{figure}");
        Assert.Contains("Ready to publish", designer.Text, StringComparison.Ordinal);
        await designer.GoAsync($"/publish/{figure}");
        Assert.Contains("new: 1", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync($"/publish/{figure}", ("Note", "Out it goes."));
        Assert.Contains("Edition 1 is published", designer.Text, StringComparison.Ordinal);
        await designer.GoAsync($"/publish/{figure}");
        Assert.Contains("Nothing: edition 1 holds exactly these meshes", designer.Text, StringComparison.Ordinal);

        await designer.GoAsync($"/drafts/{figure}");
        await designer.SubmitAsync("?handler=Withdraw");
        Assert.Contains("withdrawn", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync("?handler=Reinstate");
        Assert.Contains("The figure is back", designer.Text, StringComparison.Ordinal);
        await designer.GoAsync("/drafts?status=published");
        Assert.Contains(title, designer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_list_has_no_complaint_and_goes_on_from_page_to_page()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        for (var i = 0; i < 21; i++) await program.PostAsync("/api/figures", new { slug = CatalogueFixture.NewSlug("row"), title = $"Row {i}", heightMm = 120, licence = "CC-BY-4.0" }, HttpStatusCode.Created);
        await designer.GoAsync("/drafts");
        Assert.DoesNotContain("Nothing was changed", designer.Text, StringComparison.Ordinal);
        Assert.Equal(20, Titles(designer.Html).Count);
        Assert.Contains("drafts?page=2", designer.Html, StringComparison.Ordinal);
        var first = Titles(designer.Html);
        await designer.GoAsync("/drafts?page=2");
        Assert.NotEmpty(Titles(designer.Html));
        Assert.Empty(Titles(designer.Html).Intersect(first));

        static List<string> Titles(string html) => [.. System.Text.RegularExpressions.Regex.Matches(html, "<h2><a href=\"(/drafts/[^\"]+)\"").Select(m => m.Groups[1].Value)];
    }

    [Fact]
    public async Task A_page_loads_itself_again_only_while_something_is_being_inspected()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("busy");
        await designer.GoAsync($"/drafts/{figure}");
        Assert.DoesNotContain("http-equiv=\"refresh\"", designer.Html, StringComparison.Ordinal);
        await program.InspectedAsync(await program.UploadAsync(figure, Api.BoxStl(5, 5, 5)));
        await Catalogue.WithDbAsync(async db =>
        {
            var inspection = db.Inspections.Single(i => i.Id == db.Revisions.OrderByDescending(r => r.UploadedAt).First().InspectionId);
            inspection.Requeue(DateTime.UtcNow.AddDays(1), forgetAttempts: true); // As if it were waiting; dated ahead so that nobody picks it up.
            inspection.Start(DateTime.UtcNow);
            inspection.Advance(42, "measures");
            return await db.SaveChangesAsync();
        });
        await designer.GoAsync($"/drafts/{figure}");
        Assert.Contains("http-equiv=\"refresh\"", designer.Html, StringComparison.Ordinal);
        Assert.Contains("size and volume, 42 %", designer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_rejected_upload_says_why_and_can_be_discarded()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("rejected");
        await designer.GoAsync($"/upload/{figure}/body/solid");
        await designer.SubmitFileAsync($"/upload/{figure}/body/solid", [1, 2, 3, 4], "note.txt", ("unit", ""), ("note", ""));
        await UntilInspectedAsync(designer, figure, "body");
        Assert.Contains("could not be read as a mesh", designer.Text, StringComparison.Ordinal);
        await designer.GoAsync($"/drafts/{figure}");
        Assert.Contains("Upload a corrected file or discard the revision", designer.Text, StringComparison.Ordinal);
        await designer.GoAsync($"/drafts/{figure}/parts/body");
        await designer.SubmitAsync("?handler=Discard");
        Assert.Contains("Revision 1 is left out", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync("?handler=Keep");
        Assert.Contains("Revision 1 counts again", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync("?handler=Repeat");
        Assert.Contains("inspected again", designer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_upload_without_the_pages_own_token_is_refused_before_the_file_is_taken()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("forged");
        Assert.Equal(HttpStatusCode.BadRequest, await designer.ForgeFileAsync($"/upload/{figure}/body/solid", Api.BoxStl(6, 6, 6)));
        var draft = await program.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Empty(draft["parts"]![0]!["variants"]![0]!["revisions"]!.AsArray());
    }

    [Fact]
    public async Task Words_changed_by_somebody_else_meanwhile_are_not_written_over_unseen()
    {
        using var first = await Catalogue.SignedInAsync();
        using var second = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("shared");
        await first.GoAsync($"/edit-figure/{figure}");
        await second.GoAsync($"/edit-figure/{figure}");
        (string, string)[] Words(string title) => [("Form.Title", title), ("Form.HeightMm", "120"), ("Form.Licence", "CC-BY-4.0")];
        await first.SubmitAsync($"/edit-figure/{figure}", Words("First was here"));
        await program.InspectedAsync(await program.UploadAsync(figure, Api.BoxStl(5, 6, 7))); // An upload in between does not matter to the words.

        // A form that is refused for something else does not tell of it, and so is no leave to write over it.
        await second.SubmitAsync($"/edit-figure/{figure}", ("Form.Title", "Second was here"), ("Form.HeightMm", "tall"), ("Form.Licence", "CC-BY-4.0"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, second.Status);
        await second.SubmitAsync($"/edit-figure/{figure}", Words("Second was here"));
        Assert.Contains("Somebody else changed these words", second.Text, StringComparison.Ordinal);
        Assert.Equal("First was here", (string?)(await program.GetJsonAsync($"/api/drafts/{figure}"))["title"]);
        await second.SubmitAsync($"/edit-figure/{figure}", Words("Second was here"));
        Assert.Equal("Second was here", (string?)(await program.GetJsonAsync($"/api/drafts/{figure}"))["title"]);
    }

    [Fact]
    public async Task Publishing_from_a_page_shown_before_an_upload_is_refused()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("stale");
        await program.InspectedAsync(await program.UploadAsync(figure, Api.BoxStl(5, 6, 7)));
        await designer.GoAsync($"/publish/{figure}");
        await program.InspectedAsync(await program.UploadAsync(figure, Api.BoxStl(5, 6, 8)));
        await designer.SubmitAsync($"/publish/{figure}", ("Note", ""));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, designer.Status);
        Assert.Contains("was changed since you looked at it", designer.Text, StringComparison.Ordinal);
        Assert.Contains("new: 2", designer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Choices_joints_hardware_and_steps_are_made_on_their_pages()
    {
        using var designer = await Catalogue.SignedInAsync();
        using var program = await Catalogue.DesignerAsync();
        var figure = await program.NewFigureAsync("assembly-pages");
        await designer.GoAsync($"/edit-choices/{figure}");
        await designer.SubmitAsync("?handler=Add", ("Name", "Front"));
        foreach (var name in new[] { "Lit front", "Plain front" })
        {
            await designer.GoAsync($"/edit-part/{figure}");
            await designer.SubmitAsync($"/edit-part/{figure}", ("Form.Name", name), ("Form.Quantity", "1"), ("Form.Role", "choice:front"));
        }

        await designer.GoAsync($"/edit-choices/{figure}");
        await designer.SubmitAsync("?handler=Default", ("part", "plain-front"));
        await designer.GoAsync($"/edit-assembly/{figure}");
        await designer.SubmitAsync("?handler=Joint", ("Joint.Name", "Waist"), ("Joint.Kind", "pinned-hinge"), ("Joint.FirstPart", "body"), ("Joint.SecondPart", "lit-front"), ("Joint.InnerDiameterMm", "1,5"));
        await designer.SubmitAsync("?handler=Hardware", ("Hardware.Kind", "rod"), ("Hardware.Name", "Metal rod"), ("Hardware.Quantity", "2"), ("Hardware.CutLengthMm", "14,5"), ("Hardware.Parts", "body"));
        await designer.SubmitAsync("?handler=Step", ("Step.Title", "Pin the waist"), ("Step.Body", "Push the rod through."), ("Step.Parts", "body"), ("Step.OnlyWith", "lit-front"));
        await designer.SubmitAsync("?handler=Step", ("Step.Title", ""), ("Step.Body", "x"));
        Assert.Contains("A step needs a title", designer.Text, StringComparison.Ordinal);
        await designer.SubmitAsync("?handler=Step", ("Step.Title", "Paint"), ("Step.Body", "Blue."));
        await designer.SubmitAsync("?handler=MoveStep", ("position", "2"));

        var draft = await program.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal("plain-front", (string?)draft["choices"]![0]!["defaultPart"]);
        Assert.Equal(1.5, (double)draft["joints"]![0]!["innerDiameterMm"]!);
        Assert.Equal(14.5, (double)draft["hardware"]![0]!["cutLengthMm"]!);
        Assert.Equal(["Paint", "Pin the waist"], draft["steps"]!.AsArray().Select(s => (string?)s!["title"]));
        Assert.Equal("lit-front", (string?)draft["steps"]![1]!["onlyWith"]);

        var rod = (string?)draft["hardware"]![0]!["id"];
        await designer.GoAsync($"/edit-assembly/{figure}?hardware={rod}");
        await designer.SubmitAsync("?handler=Hardware", ("Hardware.Kind", "rod"), ("Hardware.Name", "Brass rod"), ("Hardware.Quantity", "4"));
        await designer.SubmitAsync("?handler=RemoveJoint");
        draft = await program.GetJsonAsync($"/api/drafts/{figure}");
        Assert.Equal("Brass rod", (string?)Assert.Single(draft["hardware"]!.AsArray())!["name"]);
        Assert.Empty(draft["joints"]!.AsArray());
    }

    [Theory]
    [InlineData("/drafts/no-such-figure")]
    [InlineData("/publish/no-such-figure")]
    [InlineData("/upload/no-such-figure/a/b")]
    [InlineData("/edit-part/no-such-figure")]
    public async Task A_page_of_what_is_not_there_says_so(string path)
    {
        using var designer = await Catalogue.SignedInAsync();
        await designer.GoAsync(path);
        Assert.Equal(HttpStatusCode.NotFound, designer.Status);
        Assert.Contains("There is no figure", designer.Text, StringComparison.Ordinal);
    }

    private static async Task UntilInspectedAsync(Browser designer, string figure, string part)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        do
        {
            await Task.Delay(50, patience.Token);
            await designer.GoAsync($"/drafts/{figure}/parts/{part}");
        }
        while (designer.Html.Contains("http-equiv=\"refresh\"", StringComparison.Ordinal));
    }
}

public sealed class DraftPagesOnSqliteTests(SqliteCatalogue catalogue) : DraftPagesTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class DraftPagesOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : DraftPagesTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
