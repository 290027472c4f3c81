using System.Collections.Concurrent;
using System.Resources;
using System.Security.Cryptography;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;
using Catalogue.Model;

namespace Catalogue.Web.Features.Scripts;

/// <summary>What scripts say, as a module for the browser: their English texts stand in the scripts, so only those that read otherwise in a language are sent.</summary>
internal static class ScriptTexts
{
    private const string Said = "Catalogue.Web.Features.Scripts.Texts.resources";
    private const string Path = "/texts/";
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };
    private static readonly ConcurrentDictionary<Language, Module> Modules = new();

    public static void MapScriptTexts(this IEndpointRouteBuilder app) => app.MapGet(Path + "{language}.js", Send).ExcludeFromDescription();

    /// <summary>Where the texts of the reader's language are, for the page to tell (<c>meta</c> “texts”); null when all are as they stand in the scripts.</summary>
    public static string? AddressFor(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        var module = Of(Language.Current);
        return module.IsEmpty ? null : $"{request.PathBase}{Path}{Language.Current.Code}.js?v={module.Version}";
    }

    private static IResult Send(string language, HttpResponse response, string? v = null)
    {
        if (Language.Of(language) is not { } found || found.Code != language) throw new RuleBrokenException("not-found", $"There are no texts for scripts in “{language}”.");
        var module = Of(found);
        response.Headers.CacheControl = v == module.Version ? "public, max-age=31536000, immutable" : "public, max-age=60";
        return Results.Text(module.Script, "text/javascript", Encoding.UTF8);
    }

    private static Module Of(Language language) => Modules.GetOrAdd(language, static language =>
    {
        var texts = Keys().Select(key => (Key: key, Words: language.Find(key))).Where(t => t.Words != t.Key).OrderBy(t => t.Key, StringComparer.Ordinal).ToDictionary(t => t.Key, t => t.Words);
        var script = $"export default {JsonSerializer.Serialize(texts, Plain)};\n";
        return new(script, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(script)))[..12], texts.Count == 0);
    });

    private static IEnumerable<string> Keys()
    {
        if (typeof(ScriptTexts).Assembly.GetManifestResourceStream(Said) is not { } stream) yield break;
        using var reader = new ResourceReader(stream);
        foreach (System.Collections.DictionaryEntry entry in reader) yield return (string)entry.Key;
    }

    /// <param name="Version">Of its content, so that it may be kept for ever.</param>
    private sealed record Module(string Script, string Version, bool IsEmpty);
}
