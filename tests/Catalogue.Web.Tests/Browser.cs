using System.Net;
using System.Text.RegularExpressions;

namespace Catalogue.Web.Tests;

/// <summary>A browser without JavaScript: keeps cookies, follows redirects, fills in the forms of the page it is on.</summary>
public sealed partial class Browser(HttpClient client) : IDisposable
{
    private string _html = "";

    /// <summary>The text of the page, tags and entities resolved.</summary>
    public string Text => WebUtility.HtmlDecode(Spaces().Replace(Tags().Replace(_html, " "), " "));

    public string Html => _html;
    public string Path { get; private set; } = "/";
    public HttpStatusCode Status { get; private set; }

    /// <summary>The name of the file that was sent instead of a page.</summary>
    public string? FileName { get; private set; }

    public async Task<Browser> GoAsync(string path)
    {
        using var response = await client.GetAsync(path);
        await ShowAsync(response);
        return this;
    }

    /// <summary>Sends the form whose action ends with <paramref name="action"/>, with its hidden fields and what is filled in.</summary>
    public async Task<Browser> SubmitAsync(string action, params (string Name, string Value)[] filled)
    {
        ArgumentNullException.ThrowIfNull(filled);
        using var content = new FormUrlEncodedContent(Fields(action, filled));
        using var response = await client.PostAsync(FormOf(action).Action, content);
        await ShowAsync(response);
        return this;
    }

    /// <summary>The same with a file, as a browser sends it: fields in the order of the page, the file where its field stands.</summary>
    public async Task<Browser> SubmitFileAsync(string action, byte[] file, string fileName, params (string Name, string Value)[] filled)
    {
        using var form = new MultipartFormDataContent();
        foreach (var (name, value) in Fields(action, filled)) form.Add(new StringContent(value), name);
        form.Add(new ByteArrayContent(file), "file", fileName);
        using var response = await client.PostAsync(FormOf(action).Action, form);
        await ShowAsync(response);
        return this;
    }

    /// <summary>Sends a form as a page of another site would: without the token of ours.</summary>
    public async Task<HttpStatusCode> ForgeAsync(string path, params (string Name, string Value)[] fields)
    {
        using var content = new FormUrlEncodedContent(fields.Select(f => KeyValuePair.Create(f.Name, f.Value)));
        using var response = await client.PostAsync(path, content);
        return response.StatusCode;
    }

    /// <summary>The same with a file.</summary>
    public async Task<HttpStatusCode> ForgeFileAsync(string path, byte[] file)
    {
        using var form = Api.Form(file);
        using var response = await client.PostAsync(path, form);
        return response.StatusCode;
    }

    public void Dispose() => client.Dispose();

    private List<KeyValuePair<string, string>> Fields(string action, (string Name, string Value)[] filled)
    {
        var sent = Inputs().Matches(FormOf(action).Body)
            .Where(i => i.Value.Contains("type=\"hidden\"", StringComparison.Ordinal) && !filled.Any(f => f.Name == NameOf(i.Value)))
            .Select(i => KeyValuePair.Create(NameOf(i.Value), WebUtility.HtmlDecode(ValueOf(i.Value)))).Where(f => f.Key.Length > 0).ToList();
        foreach (var (name, _) in filled)
            Assert.True(Regex.IsMatch(FormOf(action).Body, $"name=\"{Regex.Escape(name)}\""), $"The form {action} of {Path} has no field {name}.");
        return [.. sent, .. filled.Select(f => KeyValuePair.Create(f.Name, f.Value))];
    }

    private (string Action, string Body) FormOf(string action)
    {
        var form = Forms().Matches(_html).FirstOrDefault(f => WebUtility.HtmlDecode(f.Groups["action"].Value).EndsWith(action, StringComparison.Ordinal));
        Assert.True(form is not null, $"{Path} has no form for {action}: {Text}");
        return (WebUtility.HtmlDecode(form!.Groups["action"].Value), form.Groups["body"].Value);
    }

    private async Task ShowAsync(HttpResponseMessage response)
    {
        _html = await response.Content.ReadAsStringAsync();
        FileName = response.Content.Headers.ContentDisposition?.FileName?.Trim('"');
        (Path, Status) = (response.RequestMessage!.RequestUri!.PathAndQuery, response.StatusCode); // Where redirects have led.
    }

    private static string NameOf(string input) => Regex.Match(input, "name=\"([^\"]*)\"").Groups[1].Value;

    private static string ValueOf(string input) => Regex.Match(input, "value=\"([^\"]*)\"").Groups[1].Value;

    [GeneratedRegex("<form(?=[^>]*method=\"post\")[^>]*action=\"(?<action>[^\"]*)\"[^>]*>(?<body>.*?)</form>", RegexOptions.Singleline)]
    private static partial Regex Forms();

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Inputs();

    [GeneratedRegex("<head>.*?</head>|<[^>]+>", RegexOptions.Singleline)]
    private static partial Regex Tags();

    [GeneratedRegex("\\s+")]
    private static partial Regex Spaces();
}
