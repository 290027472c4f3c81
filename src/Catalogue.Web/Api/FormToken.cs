using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.Options;

namespace Catalogue.Web.Api;

/// <summary>Checks the anti-forgery token of a form that is read as it arrives: the token's field stands before the file.</summary>
internal sealed class FormToken(IAntiforgery antiforgery, IOptions<AntiforgeryOptions> options)
{
    /// <exception cref="AntiforgeryValidationException">The token is missing or not this visitor's.</exception>
    public Task CheckAsync(HttpContext http, string? token)
    {
        // The check would read the whole body as a form unless it finds the token in the header.
        http.Request.Headers[options.Value.HeaderName!] = token ?? "";
        return string.IsNullOrEmpty(token)
            ? throw new AntiforgeryValidationException("The form came without its token.")
            : antiforgery.ValidateRequestAsync(http);
    }

    public string FieldName => options.Value.FormFieldName;
}
