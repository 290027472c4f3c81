using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using Catalogue.Model;
using Catalogue.Web.Accounts;
using Microsoft.AspNetCore.Authorization;
using Microsoft.OpenApi;

namespace Catalogue.Web.Api;

/// <summary>What all of the API shares: how JSON is written, that bad requests are told apart, and its description.</summary>
internal static class ApiSetup
{
    /// <summary>More than any JSON body of the API needs; meshes come in by endpoints of their own.</summary>
    public const long MaxBodyBytes = 1024 * 1024;

    public static void AddApi(this WebApplicationBuilder builder)
    {
        builder.Services.ConfigureHttpJsonOptions(json =>
        {
            json.SerializerOptions.Converters.Add(new WordConverter());
            json.SerializerOptions.DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull;
        });
        builder.Services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        builder.Services.AddOpenApi("v1", openApi =>
        {
            openApi.AddDocumentTransformer((document, _, _) =>
            {
                document.Info = new()
                {
                    Title = "Catalogue of printable, poseable figures",
                    Version = "1",
                    Description = "Read which figures suit a printer, and publish your own. Lengths in mm, areas in mm², volumes in mm³. "
                        + "Errors are problem details (RFC 9457) with a stable “type”. Writing needs a designer's token from the account page. Sentences are English, or in the language that the address asks for by “language”, such as ?language=de.",
                };
                (document.Components ??= new()).SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>
                {
                    [AccessTokenScheme.Name] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer", Description = "A designer's token, made on the account page." },
                };
                return Task.CompletedTask;
            });
            openApi.AddOperationTransformer((operation, context, _) =>
            {
                if (context.Description.ActionDescriptor.EndpointMetadata.OfType<IAuthorizeData>().Any(a => a.Policy is AccountSetup.DesignerApi or AccountSetup.HostApi))
                    operation.Security = [new() { [new OpenApiSecuritySchemeReference(AccessTokenScheme.Name, context.Document)] = [] }];
                return Task.CompletedTask;
            });
            openApi.AddSchemaTransformer((schema, context, _) =>
            {
                var type = Nullable.GetUnderlyingType(context.JsonTypeInfo.Type) ?? context.JsonTypeInfo.Type;
                if (!type.IsEnum) return Task.CompletedTask;
                var words = (IReadOnlyList<string>)typeof(Words).GetMethod(nameof(Words.All))!.MakeGenericMethod(type).Invoke(null, null)!;
                (schema.Type, schema.Enum) = (JsonSchemaType.String, [.. words.Select(w => JsonValue.Create(w))]);
                return Task.CompletedTask;
            });
        });
    }
}
