using Microsoft.AspNetCore.Mvc;
using Microsoft.OpenApi;

namespace Catalogue.Web.Api;

/// <summary>Maps endpoints that take a mesh: a larger body than the rest of the API, read by the endpoint itself.</summary>
internal static class MeshUploadEndpoint
{
    /// <summary>Room for the fields and boundaries around a mesh.</summary>
    private const long Around = 256 * 1024;

    /// <summary>The largest body that may hold a mesh of that size.</summary>
    public static long BodyOf(long meshBytes) => meshBytes + Around;

    public static RouteHandlerBuilder MapMeshUpload(this IEndpointRouteBuilder app, string pattern, Delegate handler, long maxMeshBytes, params (string Name, string Meaning)[] fields) =>
        app.MapPost(pattern, handler)
            .WithMetadata(new RequestSizeLimitAttribute(BodyOf(maxMeshBytes)))
            .AddOpenApiOperationTransformer((operation, _, _) =>
            {
                var properties = fields.ToDictionary(f => f.Name, IOpenApiSchema (f) => new OpenApiSchema { Type = JsonSchemaType.String, Description = f.Meaning });
                properties["file"] = new OpenApiSchema { Type = JsonSchemaType.String, Format = "binary", Description = "The mesh: STL, OBJ or 3MF." };
                operation.RequestBody = new OpenApiRequestBody
                {
                    Required = true,
                    Content = new Dictionary<string, OpenApiMediaType>
                    {
                        ["multipart/form-data"] = new()
                        {
                            Schema = new OpenApiSchema
                            {
                                Type = JsonSchemaType.Object,
                                Required = new HashSet<string> { "file" },
                                Properties = properties,
                            },
                        },
                        ["application/octet-stream"] = new() { Schema = new OpenApiSchema { Type = JsonSchemaType.String, Format = "binary" } },
                    },
                };
                return Task.CompletedTask;
            });
}
