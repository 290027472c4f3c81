using System.Net;
using System.Text.Json.Nodes;

namespace Catalogue.Web.Tests;

/// <summary>Figures on the shelf, for tests of what a visitor sees.</summary>
public static class Visits
{
    /// <summary>A published figure with one part, whose mesh is a box.</summary>
    public static async Task<string> PublishBoxAsync(this HttpClient designer, string name, double x, double y, double z, params string[] processes)
    {
        var figure = await designer.NewFigureAsync(name, processes);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.BoxStl(x, y, z), ("note", "First shape.")));
        await designer.PostAsync($"/api/figures/{figure}/publish", null, HttpStatusCode.OK);
        return figure;
    }

    /// <summary>The figure's entry in a list of the range; null when it is not in it.</summary>
    public static async Task<JsonNode?> FindAsync(this HttpClient visitor, string figure, string query)
    {
        var found = await visitor.GetJsonAsync("/api/figures?size=200&" + query);
        return found["items"]!.AsArray().FirstOrDefault(i => (string?)i!["slug"] == figure);
    }
}
