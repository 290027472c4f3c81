using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Tests;

/// <summary>What a program says to the API, in one line each.</summary>
public static class Api
{
    public static byte[] Stl(TriangleMesh mesh, string header = "")
    {
        using var stream = new MemoryStream();
        StlWriter.Write(mesh, stream, header);
        return stream.ToArray();
    }

    public static byte[] BoxStl(double x, double y, double z) => Stl(Solids.Box(x, y, z));

    /// <summary>Sends JSON and expects the status.</summary>
    public static async Task<JsonNode> SendAsync(this HttpClient client, HttpMethod method, string path, object? body, HttpStatusCode expected)
    {
        ArgumentNullException.ThrowIfNull(client);
        using var request = new HttpRequestMessage(method, path) { Content = body is null ? null : JsonContent.Create(body) };
        using var response = await client.SendAsync(request);
        return await response.ExpectAsync(expected);
    }

    public static Task<JsonNode> PostAsync(this HttpClient client, string path, object? body, HttpStatusCode expected) =>
        client.SendAsync(HttpMethod.Post, path, body, expected);

    /// <summary>Posts JSON, whatever comes of it.</summary>
    public static Task<HttpResponseMessage> SendJsonAsync(this HttpClient client, string path, object body) =>
        HttpClientJsonExtensions.PostAsJsonAsync(client, path, body);

    public static Task<JsonNode> GetJsonAsync(this HttpClient client, string path) => client.SendAsync(HttpMethod.Get, path, null, HttpStatusCode.OK);

    /// <summary>The JSON of an answer with the expected status; the whole answer is in the message when it is another.</summary>
    public static async Task<JsonNode> ExpectAsync(this HttpResponseMessage response, HttpStatusCode expected)
    {
        ArgumentNullException.ThrowIfNull(response);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(expected == response.StatusCode, $"Expected {expected}, got {(int)response.StatusCode}: {text}");
        return text.Length == 0 ? new JsonObject() : JsonNode.Parse(text)!;
    }

    /// <summary>Expects problem details with that status and stable type, and answers what they say.</summary>
    public static async Task<string> ExpectProblemAsync(this HttpResponseMessage response, HttpStatusCode status, string code)
    {
        ArgumentNullException.ThrowIfNull(response);
        var problem = await response.ExpectAsync(status);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        Assert.Equal("urn:x-catalogue:problem:" + code, (string?)problem["type"]);
        Assert.Equal((int)status, (int?)problem["status"]);
        Assert.False(string.IsNullOrWhiteSpace((string?)problem["title"]));
        return (string?)problem["detail"] ?? "";
    }

    /// <summary>A figure with one part “body” and one variant “solid” for a few processes.</summary>
    public static async Task<string> NewFigureAsync(this HttpClient designer, string name, params string[] processes)
    {
        var slug = CatalogueFixture.NewSlug(name);
        await designer.PostAsync("/api/figures", new { slug, title = name, heightMm = 120, licence = "CC-BY-4.0" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{slug}/parts", new { slug = "body", name = "Body" }, HttpStatusCode.Created);
        await designer.PostAsync($"/api/figures/{slug}/parts/body/variants",
            new { slug = "solid", name = "Solid", processes = processes.Length > 0 ? processes : ["MEX-rigid", "VPP-rigid"] }, HttpStatusCode.Created);
        return slug;
    }

    public static string Revisions(string figure, string part = "body", string variant = "solid") =>
        $"/api/figures/{figure}/parts/{part}/variants/{variant}/revisions";

    /// <summary>A form with one file, as a browser or a script sends it.</summary>
    public static MultipartFormDataContent Form(byte[] file, string fileName = "part.stl", params (string Name, string Value)[] fields)
    {
        ArgumentNullException.ThrowIfNull(fields);
        var form = new MultipartFormDataContent();
        foreach (var (name, value) in fields) form.Add(new StringContent(value), name);
        var content = new ByteArrayContent(file);
        content.Headers.ContentType = new MediaTypeHeaderValue("model/stl");
        form.Add(content, "file", fileName);
        return form;
    }

    public static async Task<HttpResponseMessage> TryUploadAsync(this HttpClient designer, string figure, byte[] file, params (string Name, string Value)[] fields)
    {
        ArgumentNullException.ThrowIfNull(designer);
        using var form = Form(file, "part.stl", fields);
        return await designer.PostAsync(Revisions(figure), form);
    }

    /// <summary>Uploads and answers the revision as the API tells it.</summary>
    public static async Task<JsonNode> UploadAsync(this HttpClient designer, string figure, byte[] file, params (string Name, string Value)[] fields)
    {
        using var response = await designer.TryUploadAsync(figure, file, fields);
        return await response.ExpectAsync(HttpStatusCode.Accepted);
    }

    /// <summary>Waits until the inspection of an uploaded revision has ended, however it did.</summary>
    public static async Task<JsonNode> InspectedAsync(this HttpClient designer, JsonNode revision)
    {
        ArgumentNullException.ThrowIfNull(revision);
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(300));
        while (true)
        {
            var inspection = await designer.GetJsonAsync($"/api/inspections/{revision["inspection"]!["id"]}");
            if ((bool)inspection["finished"]!) return inspection;
            await Task.Delay(50, patience.Token);
        }
    }
}
