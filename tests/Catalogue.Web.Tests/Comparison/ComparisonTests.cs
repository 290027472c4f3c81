using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Comparison;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Web.Tests.Comparison;

/// <summary>What changed from one revision to the next: worked out once, kept, shown to designers and readers.</summary>
public abstract class ComparisonTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    // A box 10 × 10 × 10 grows to 10 × 10 × 12: the top moves by 2, the volume grows by 200, the area by 80.
    [Fact]
    public async Task A_second_revision_says_what_changed_to_designers_and_after_publishing_to_readers()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("taller");
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 10));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 12));
        var change = (await ComparedAsync(designer, figure, 2))["change"]!;
        Assert.Equal((1, false), ((int)change["since"]!, (bool)change["sameMesh"]!));
        var mesh = change["mesh"]!;
        Assert.Equal(2, (double)mesh["afterToBefore"]!["largestMm"]!, 0.02);
        Assert.Equal(12, (double)mesh["afterToBefore"]!["at"]![2]!, 0.02);
        Assert.True((double)mesh["afterToBefore"]!["meanMm"]! > 0.1);
        Assert.True((double)mesh["afterToBefore"]!["errorBoundMm"]! <= 0.01);
        Assert.Equal([0, 0, 2.0], mesh["sizeMm"]!.AsArray().Select(s => (double)s!));
        Assert.Equal((200.0, 80.0), ((double)mesh["volumeMm3"]!, (double)mesh["areaMm2"]!));
        Assert.Null((await RevisionAsync(designer, figure, 1))["change"]);

        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        using var visitor = Catalogue.Visitor();
        var part = await visitor.GetJsonAsync($"/api/figures/{figure}/parts/body");
        var revisions = part["variants"]![0]!["revisions"]!.AsArray();
        Assert.Equal(200, (double)revisions[0]!["change"]!["mesh"]!["volumeMm3"]!);
        Assert.Null(revisions[1]!["change"]);

        using var reader = new Browser(Catalogue.Visitor());
        await reader.GoAsync($"/figures/{figure}/parts/body");
        Assert.Contains("Since revision 1: up to 2\u00A0mm different, volume +20\u00A0%", reader.Text, StringComparison.Ordinal);
        Assert.Contains("+2\u00A0mm along z", reader.Text, StringComparison.Ordinal);
        Assert.Contains($"/figures/{figure}/parts/body/solid/2/change/640.webp", reader.Html, StringComparison.Ordinal);

        // The picture is that of the part but for the colour of the top, and there is none of a first revision.
        var (plain, coloured) = (await visitor.GetByteArrayAsync($"/figures/{figure}/parts/body/solid/2/picture/320.png"), await visitor.GetByteArrayAsync($"/figures/{figure}/parts/body/solid/2/change/320.png"));
        Assert.NotEqual(plain, coloured);
        using var first = await visitor.GetAsync($"/figures/{figure}/parts/body/solid/1/change/320.png");
        Assert.Equal(HttpStatusCode.NotFound, first.StatusCode);
        using var page = await Catalogue.SignedInAsync();
        await page.GoAsync($"/drafts/{figure}/parts/body");
        Assert.Contains("Since revision 1: up to 2\u00A0mm different, volume +20\u00A0%", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_same_pair_of_meshes_is_compared_once_whoever_has_it()
    {
        using var designer = await Catalogue.DesignerAsync();
        var (first, second) = (await designer.NewFigureAsync("one"), await designer.NewFigureAsync("two"));
        var (small, large) = (Api.BoxStl(7, 8, 9), Api.BoxStl(7, 8, 9.5));
        foreach (var figure in new[] { first, second })
        {
            await UploadedAsync(designer, figure, small);
            await UploadedAsync(designer, figure, large);
            await ComparedAsync(designer, figure, 2);
        }

        var inspection = Guid.Parse((string)(await RevisionAsync(designer, first, 2))["inspection"]!["id"]!);
        Assert.Equal(1, await Catalogue.WithDbAsync(db => db.Comparisons.CountAsync(c => c.AfterId == inspection)));
    }

    [Fact]
    public async Task The_same_file_again_is_said_to_be_the_same()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("again");
        await UploadedAsync(designer, figure, Api.BoxStl(3, 4, 5));
        await UploadedAsync(designer, figure, Api.BoxStl(3, 4, 5));
        var change = (await RevisionAsync(designer, figure, 2))["change"]!;
        Assert.True((bool)change["sameMesh"]!);
        Assert.Null(change["mesh"]);
    }

    [Fact]
    public async Task A_part_that_was_only_moved_is_said_to_be_so()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("moved");
        await UploadedAsync(designer, figure, Api.Stl(Solids.Icosphere(8, 3)));
        await UploadedAsync(designer, figure, Api.Stl(Solids.Icosphere(8, 3).Transformed(Rotation.Identity, new(0, 0, 5))));
        Assert.Equal(5, (double)(await ComparedAsync(designer, figure, 2))["change"]!["mesh"]!["beforeToAfter"]!["largestMm"]!, 0.02);
        using var page = await Catalogue.SignedInAsync();
        await page.GoAsync($"/drafts/{figure}/parts/body");
        Assert.Contains("probably moved or turned", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Discarding_the_revision_between_makes_the_later_one_compare_with_the_one_before_it()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("between");
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 20));
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 25));
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 21));
        Assert.Equal(2, (int)(await ComparedAsync(designer, figure, 3))["change"]!["since"]!);
        await designer.PostAsync($"{Api.Revisions(figure)}/2/discard", null, HttpStatusCode.OK);
        using (var page = await Catalogue.SignedInAsync())
        {
            await page.GoAsync($"/drafts/{figure}/parts/body");
            Assert.Contains("Being compared with revision 1", page.Text, StringComparison.Ordinal);
        }

        await Catalogue.Services.GetRequiredService<ComparisonQueue>().AskForAllAsync(DateTime.UtcNow.AddMinutes(-1), CancellationToken.None); // As once a minute.
        var change = (await ComparedAsync(designer, figure, 3))["change"]!;
        Assert.Equal((1, 100.0), ((int)change["since"]!, (double)change["mesh"]!["volumeMm3"]!));
    }

    [Fact]
    public async Task Readers_see_the_change_since_the_last_revision_they_saw()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("readers");
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 30));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 31)); // Never published.
        await UploadedAsync(designer, figure, Api.BoxStl(10, 10, 33));
        Assert.Equal(2, (int)(await ComparedAsync(designer, figure, 3))["change"]!["since"]!);
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);

        using var reader = new Browser(Catalogue.Visitor());
        await reader.GoAsync($"/figures/{figure}/parts/body");
        Assert.Contains("Being compared with revision 1", reader.Text, StringComparison.Ordinal);
        await Catalogue.Services.GetRequiredService<ComparisonQueue>().AskForAllAsync(DateTime.UtcNow.AddMinutes(-1), CancellationToken.None);
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (!reader.Text.Contains("Since revision 1: up to 3\u00A0mm different", StringComparison.Ordinal))
        {
            await Task.Delay(50, patience.Token);
            await reader.GoAsync($"/figures/{figure}/parts/body");
        }
    }

    [Fact]
    public async Task A_comparison_that_was_cut_off_is_taken_up_again()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("cut-off");
        await UploadedAsync(designer, figure, Api.BoxStl(6, 6, 40));
        await UploadedAsync(designer, figure, Api.BoxStl(6, 6, 41));
        await ComparedAsync(designer, figure, 2);
        var after = Guid.Parse((string)(await RevisionAsync(designer, figure, 2))["inspection"]!["id"]!);
        await Catalogue.WithDbAsync(async db =>
        {
            var comparison = await db.Comparisons.SingleAsync(c => c.AfterId == after);
            comparison.Requeue(DateTime.UtcNow.AddMinutes(-5), forgetAttempts: true); // As a killed process leaves it.
            comparison.Start();
            return await db.SaveChangesAsync();
        });
        Assert.Null((await RevisionAsync(designer, figure, 2))["change"]);
        await Catalogue.Services.GetRequiredService<ComparisonQueue>().AskForAllAsync(DateTime.UtcNow.AddMinutes(-1), CancellationToken.None);
        await ComparedAsync(designer, figure, 2);
    }

    [Fact]
    public async Task A_comparison_whose_file_is_lost_says_so_and_is_made_once_the_mesh_is_inspected_again()
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync("lost");
        await UploadedAsync(designer, figure, Api.BoxStl(6, 6, 50));
        await UploadedAsync(designer, figure, Api.BoxStl(6, 6, 51));
        await ComparedAsync(designer, figure, 2);
        var revision = await RevisionAsync(designer, figure, 1);
        var after = Guid.Parse((string)(await RevisionAsync(designer, figure, 2))["inspection"]!["id"]!);
        var sha = (string)revision["sha256"]!;
        var blob = Path.Combine(Catalogue.BlobFolder, sha[..2], sha[2..]);
        File.Move(blob, blob + "-away");
        await Catalogue.WithDbAsync(async db =>
        {
            (await db.Comparisons.SingleAsync(c => c.AfterId == after)).Requeue(DateTime.UtcNow.AddMinutes(-5), forgetAttempts: true);
            return await db.SaveChangesAsync();
        });
        await Catalogue.Services.GetRequiredService<ComparisonQueue>().AskForAllAsync(DateTime.UtcNow.AddMinutes(-1), CancellationToken.None);
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (await Catalogue.WithDbAsync(db => db.Comparisons.AnyAsync(c => c.AfterId == after && c.State != ComparisonState.Failed))) await Task.Delay(50, patience.Token);
        using var page = await Catalogue.SignedInAsync();
        await page.GoAsync($"/drafts/{figure}/parts/body");
        Assert.Contains("Could not be compared with revision 1: A stored file is missing", page.Text, StringComparison.Ordinal);

        File.Move(blob + "-away", blob);
        await designer.PostAsync($"/api/inspections/{after}/repeat", null, HttpStatusCode.Accepted);
        await ComparedAsync(designer, figure, 2);
    }

    private static async Task<JsonNode> UploadedAsync(HttpClient designer, string figure, byte[] file) =>
        await designer.InspectedAsync(await designer.UploadAsync(figure, file));

    private static Task<JsonNode> RevisionAsync(HttpClient designer, string figure, int number) => designer.GetJsonAsync($"{Api.Revisions(figure)}/{number}");

    /// <summary>The revision, as soon as it is compared with the one before it.</summary>
    private static async Task<JsonNode> ComparedAsync(HttpClient designer, string figure, int number)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (true)
        {
            var revision = await RevisionAsync(designer, figure, number);
            if (revision["change"] is not null) return revision;
            await Task.Delay(50, patience.Token);
        }
    }
}

public sealed class ComparisonOnSqliteTests(SqliteCatalogue catalogue) : ComparisonTests(catalogue), IClassFixture<SqliteCatalogue>;

public sealed class ComparisonOnPostgreSqlTests(PostgreSqlCatalogue catalogue) : ComparisonTests(catalogue), IClassFixture<PostgreSqlCatalogue>;
