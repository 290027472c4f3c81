using System.Net;
using Catalogue.Data.Storage;
using Catalogue.Model.Inspections;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;

namespace Catalogue.Web.Tests.Processes;

/// <summary>Tests of judging everything anew, on figures of three plates. The catalogue only serves, so that each test does the work in the background itself, step by step.</summary>
public abstract class PlateTests(CatalogueFixture catalogue) : CatalogueTests(catalogue)
{
    protected static IReadOnlyList<string> Parts { get; } = ["body", "left", "right"];

    protected DatabaseChoice Database => Catalogue.Services.GetRequiredService<DatabaseChoice>();

    /// <summary>A published figure of three plates 0.7 mm thick: each has a finding of the thinnest free wall, with the limit it was judged by.</summary>
    protected async Task<string> PlatesAsync(string name)
    {
        using var designer = await Catalogue.DesignerAsync();
        var figure = await designer.NewFigureAsync(name);
        for (var i = 0; i < Parts.Count; i++)
        {
            if (i > 0)
            {
                await designer.PostAsync($"/api/figures/{figure}/parts", new { slug = Parts[i], name = Parts[i] }, HttpStatusCode.Created);
                await designer.PostAsync($"/api/figures/{figure}/parts/{Parts[i]}/variants", new { slug = "all", name = "All", processes = new[] { "VPP-rigid" } }, HttpStatusCode.Created);
            }

            using var form = Api.Form(Api.BoxStl(30 + i, 30 + name.Length, 0.7f));
            using var uploaded = await designer.PostAsync(i == 0 ? Api.Revisions(figure) : Api.Revisions(figure, Parts[i], "all"), form);
            await uploaded.ExpectAsync(HttpStatusCode.Accepted);
        }

        await InspectAsync();
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        return figure;
    }

    /// <summary>What the background would do.</summary>
    protected async Task InspectAsync()
    {
        var waiting = await Catalogue.WithDbAsync(db => db.Inspections.Where(i => i.State == InspectionState.Queued).Select(i => i.Id).ToListAsync());
        foreach (var inspection in waiting) await Catalogue.Services.GetRequiredService<Inspector>().RunAsync(inspection, CancellationToken.None);
    }
}

/// <summary>A catalogue that leaves all work in the background to others.</summary>
public sealed class ServingSqliteCatalogue : SqliteCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [.. base.Settings(), ("Catalogue:ServeOnly", "true")];
}

public sealed class ServingPostgreSqlCatalogue : PostgreSqlCatalogue
{
    protected override IEnumerable<(string Key, string Value)> Settings() => [.. base.Settings(), ("Catalogue:ServeOnly", "true")];
}
