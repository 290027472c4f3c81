using System.Net;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests.Viewer;

/// <summary>Asks for what is made when it is first asked for.</summary>
internal static class Look
{
    public static string Of(string figure, int revision = 1) => $"/api/figures/{figure}/parts/body/variants/solid/revisions/{revision}";

    /// <summary>Asks until it is there; with its ETag.</summary>
    public static async Task<(JsonNode Answer, string Tag)> MadeAsync(this HttpClient client, string address)
    {
        for (var tries = 0; tries < 600; tries++)
        {
            using var answer = await client.GetAsync(address);
            if (answer.StatusCode == HttpStatusCode.Accepted)
            {
                Assert.True(answer.Headers.RetryAfter is not null);
                await Task.Delay(100);
                continue;
            }

            return (await answer.ExpectAsync(HttpStatusCode.OK), answer.Headers.ETag?.ToString() ?? "");
        }

        throw new TimeoutException($"{address} was not made in a minute.");
    }

    /// <summary>A published figure of one part with that mesh, inspected.</summary>
    public static async Task<string> PublishAsync(this HttpClient designer, string name, TriangleMesh mesh)
    {
        var figure = await designer.NewFigureAsync(name);
        await designer.InspectedAsync(await designer.UploadAsync(figure, Api.Stl(mesh), ("unit", "mm")));
        await designer.PostAsync($"/api/figures/{figure}/publish", new { note = "First." }, HttpStatusCode.OK);
        return figure;
    }
}
