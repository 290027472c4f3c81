using System.Text.Json.Nodes;

namespace Catalogue.Web.Api;

internal static class RequestExample
{
    /// <summary>Shows a body in the description of the endpoint.</summary>
    public static RouteHandlerBuilder WithExample(this RouteHandlerBuilder endpoint, string json)
    {
        var example = JsonNode.Parse(json);
        return endpoint.AddOpenApiOperationTransformer((operation, _, _) =>
        {
            if (operation.RequestBody?.Content is { } bodies && bodies.TryGetValue("application/json", out var body)) body.Example = example?.DeepClone();
            return Task.CompletedTask;
        });
    }
}
