using System.Net;
using System.Text.Unicode;
using Catalogue.Web.Features.Errors;
using Catalogue.Web.Features.Reports;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.HttpOverrides;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.ResponseCompression;
using Microsoft.Extensions.WebEncoders;

namespace Catalogue.Web.Features.Shared;

/// <summary>Wires what every page needs: the visitor, the masthead, compression, the proxy's word, the content policy, error pages.</summary>
internal static class PagesSetup
{
    /// <summary>Nothing but our own files, no inline script or style, no frame around the site but for what is made for one (<see cref="Framing"/>).</summary>
    private const string ContentPolicy =
        "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'self'; form-action 'self'; frame-ancestors 'self'";

    public static void AddPages(this WebApplicationBuilder builder, CatalogueOptions options)
    {
        var services = builder.Services;
        services.AddHttpContextAccessor();
        services.AddScoped<Visitor>();
        services.AddScoped<Masthead>();
        services.AddSingleton<MarkdownText>();
        services.AddScoped<ReportDesk>();
        services.AddRazorPages(o => o.RootDirectory = "/Features")
            .AddMvcOptions(o =>
            {
                o.ModelBinderProviders.Insert(0, new NumberBinder.Provider());
                o.ModelBindingMessageProvider.SetAttemptedValueIsInvalidAccessor((value, _) => T($"“{value}” cannot be used here."));
                o.ModelBindingMessageProvider.SetNonPropertyAttemptedValueIsInvalidAccessor(value => T($"“{value}” cannot be used here."));
                o.ModelBindingMessageProvider.SetValueMustBeANumberAccessor(_ => T($"A whole number is wanted here."));
            });
        services.Configure<WebEncoderOptions>(o => o.TextEncoderSettings = new(UnicodeRanges.All));
        services.AddRouting(o => o.LowercaseUrls = true);
        services.AddResponseCompression(o =>
        {
            o.EnableForHttps = true;
            o.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "image/svg+xml", "application/problem+json", "application/atom+xml"];
        });
        services.Configure<ForwardedHeadersOptions>(forwarded => Trust(forwarded, options));
    }

    /// <summary>Before everything else: the address the reader really asked for, compression, and headers of every answer.</summary>
    public static void UsePageFrame(this WebApplication app, CatalogueOptions options)
    {
        var framed = ContentPolicy.Replace("frame-ancestors 'self'", "frame-ancestors " + options.FramedBy, StringComparison.Ordinal);
        app.UseForwardedHeaders();
        app.UseResponseCompression();
        app.Use((context, next) =>
        {
            // At the last moment: an error page begins by clearing what was set before.
            context.Response.OnStarting(() =>
            {
                var response = context.Response;
                var headers = response.Headers;
                headers.ContentSecurityPolicy = Framing.IsAllowed(context) ? framed : ContentPolicy;
                headers.XContentTypeOptions = "nosniff";
                headers["Referrer-Policy"] = "same-origin";
                headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=()";

                // A page is for one reader's printer and changes with the range: never shown from a store without asking, never to another reader.
                if (response.ContentType?.StartsWith("text/html", StringComparison.Ordinal) is true && headers.CacheControl.Count == 0)
                    headers.CacheControl = "private, no-cache";
                return Task.CompletedTask;
            });
            return next(context);
        });
    }

    /// <summary>Errors as a page for people, as problem details for programs.</summary>
    public static void UseErrorPages(this WebApplication app)
    {
        app.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandlingPath = "/error",
            AllowStatusCode404Response = true,
            SuppressDiagnosticsCallback = static failed => Problems.Of(failed.Exception).Status < 500, // Refusals are answers, not faults.
        });
        app.UseWhen(static context => !Problems.IsForPrograms(context), static pages => pages.UseStatusCodePagesWithReExecute("/error", "?status={0}"));
        app.UseWhen(Problems.IsForPrograms, static programs => programs.UseStatusCodePages(static async pages =>
        {
            var context = pages.HttpContext;
            var problem = context.Features.Get<ProblemDetails>() ?? ErrorPage.OfStatus(context.Response.StatusCode);
            await context.RequestServices.GetRequiredService<IProblemDetailsService>().TryWriteAsync(new() { HttpContext = context, ProblemDetails = problem });
        }));
    }

    /// <summary>Files with a version in their address never change; the others are asked for again.</summary>
    public static StaticFileOptions Files { get; } = new()
    {
        OnPrepareResponse = static file => file.Context.Response.Headers.CacheControl =
            file.Context.Request.Query.ContainsKey("v") ? "public, max-age=31536000, immutable" : "no-cache",
    };

    private static void Trust(ForwardedHeadersOptions forwarded, CatalogueOptions options)
    {
        forwarded.ForwardedHeaders = ForwardedHeaders.XForwardedFor | ForwardedHeaders.XForwardedProto | ForwardedHeaders.XForwardedHost | ForwardedHeaders.XForwardedPrefix;
        foreach (var proxy in options.TrustedProxies)
        {
            if (System.Net.IPNetwork.TryParse(proxy, out var network)) forwarded.KnownIPNetworks.Add(network);
            else forwarded.KnownProxies.Add(IPAddress.Parse(proxy));
        }
    }
}
