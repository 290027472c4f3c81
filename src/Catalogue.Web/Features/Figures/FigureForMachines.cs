using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Catalogue.Data.Ranges;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Figures;

/// <summary>A figure in the words of schema.org, for whoever reads pages by program: what it is (<c>3DModel</c>) and how it is put together (<c>HowTo</c>).</summary>
internal static class FigureForMachines
{
    /// <summary>JSON-LD that may stand in a page: what could end a script element is escaped.</summary>
    public static string Of(FigureAnswer answer, HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var figure = answer.Figure;
        var address = SiteAddress.Of(request, "/figures/" + figure.Slug);
        var picture = PicturePath.Of(answer.Details.Shown, 1280) is { } path ? SiteAddress.Of(request, path) : null;
        var model = new JsonObject
        {
            ["@type"] = "3DModel",
            ["@id"] = address,
            ["url"] = address,
            ["name"] = figure.Title,
            ["description"] = figure.Summary,
            ["keywords"] = new JsonArray([.. figure.Tags.Select(t => (JsonNode)t)]),
            ["version"] = answer.Details.Shown.EditionNumber.ToString(CultureInfo.InvariantCulture),
            ["dateModified"] = answer.Details.Shown.PublishedAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            ["license"] = figure.Licence,
            ["creditText"] = figure.Credits,
            ["height"] = new JsonObject { ["@type"] = "QuantitativeValue", ["value"] = figure.HeightMm, ["unitCode"] = "MMT" },
            ["image"] = picture,
            ["encoding"] = new JsonArray([.. answer.Built.Select(p => p.Chosen ?? (p.Variants.Count > 0 ? p.Variants[0] : null)).OfType<VariantAnswer>().Select(v => File(answer, v, request))]),
        };
        var nodes = new JsonArray(WithoutEmpty(model));
        if (answer.Steps.Any()) nodes.Add(WithoutEmpty(HowTo(answer, address, picture)));
        return new JsonObject { ["@context"] = "https://schema.org", ["@graph"] = nodes }.ToJsonString(JsonSerializerOptions.Default);
    }

    private static JsonObject File(FigureAnswer answer, VariantAnswer variant, HttpRequest request)
    {
        var part = answer.Parts.First(p => p.Variants.Contains(variant)).Part;
        return new()
        {
            ["@type"] = "MediaObject",
            ["name"] = part.Name,
            ["contentUrl"] = SiteAddress.Of(request, DownloadPath.Of(answer.Figure.Slug, part.Slug, variant.Variant.Slug, variant.Revision)),
            ["contentSize"] = variant.Revision.Bytes.ToString(CultureInfo.InvariantCulture),
            ["sha256"] = variant.Revision.Sha256,
        };
    }

    private static JsonObject HowTo(FigureAnswer answer, string address, string? picture)
    {
        var hardware = answer.Hardware.ToLookup(h => h.Kind == HardwareKind.Tool);
        return new()
        {
            ["@type"] = "HowTo",
            ["name"] = T($"Put {answer.Figure.Title} together"),
            ["about"] = new JsonObject { ["@id"] = address },
            ["image"] = picture,
            ["supply"] = new JsonArray([.. hardware[false].Select(h => new JsonObject
            {
                ["@type"] = "HowToSupply",
                ["name"] = h.Size.Length > 0 ? $"{h.Name}, {h.Size}" : h.Name,
                ["requiredQuantity"] = h.Quantity,
            })]),
            ["tool"] = new JsonArray([.. hardware[true].Select(h => new JsonObject { ["@type"] = "HowToTool", ["name"] = h.Name })]),
            ["step"] = new JsonArray([.. answer.Steps.OrderBy(s => s.Position).Select(s => WithoutEmpty(new()
            {
                ["@type"] = "HowToStep",
                ["name"] = s.Title,
                ["text"] = MarkdownText.Plain(s.Body),
            }))]),
        };
    }

    /// <summary>What nobody said is left out.</summary>
    private static JsonObject WithoutEmpty(JsonObject node)
    {
        foreach (var name in node.Where(p => p.Value is null or JsonArray { Count: 0 } || (p.Value is JsonValue value && value.TryGetValue<string>(out var text) && text.Length == 0))
            .Select(p => p.Key).ToList())
        {
            node.Remove(name);
        }

        return node;
    }
}
