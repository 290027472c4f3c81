using System.Text.Json;
using Catalogue.Data.Judging;
using Catalogue.Data.Storage;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Web.Storage;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web;

/// <summary>The one table of what went wrong ↔ status and words. Problem details (RFC 9457) for programs, the same sentence for pages.</summary>
/// <remarks>The <c>type</c> is <c>urn:x-catalogue:problem:</c> and the code; codes are stable.</remarks>
public sealed class Problems(IProblemDetailsService writer, ILogger<Problems> log) : IExceptionHandler
{
    public const string TypePrefix = "urn:x-catalogue:problem:";

    private static readonly HashSet<string> NotFoundCodes = ["not-found"];

    private static readonly HashSet<string> ConflictCodes =
    [
        "changed-meanwhile", "slug-taken", "part-exists", "choice-exists", "variant-exists", "nothing-new", "inspection-pending", "figure-withdrawn",
        "not-withdrawn", "revision-published", "revision-discarded", "variant-removed", "finding-missing",
    ];

    public async ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        var problem = Of(exception);
        // By now the request's own path may be that of the error page.
        var path = httpContext.Features.Get<IExceptionHandlerPathFeature>()?.Path ?? httpContext.Request.Path;
        if (problem.Status >= 500) log.LogError(exception, "Request {Path} failed", path);
        httpContext.Response.StatusCode = problem.Status!.Value;
        httpContext.Features.Set(problem);
        if (!IsForPrograms(path)) return false;
        return await writer.TryWriteAsync(new() { HttpContext = httpContext, ProblemDetails = problem, Exception = exception });
    }

    /// <summary>True for the API; pages show the same problem in their own way.</summary>
    public static bool IsForPrograms(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        return IsForPrograms(context.Request.Path);
    }

    private static bool IsForPrograms(PathString path) => path.StartsWithSegments("/api") || path.StartsWithSegments("/openapi") || path.StartsWithSegments("/oembed");

    public static ProblemDetails Of(Exception exception) => exception switch
    {
        RuleBrokenException rule => OfRule(rule),
        AntiforgeryValidationException => Make(400, "form-expired", $"The form is no longer good",
            $"It was open too long, or you signed in or out meanwhile. Nothing was changed. Load the page again and repeat what you did."),
        MeshFormatException mesh => Make(422, "mesh-" + mesh.Code, $"The file cannot be read as a mesh", Sentence.FromReader(mesh.Said)),
        BlobTooLargeException large => Make(413, "file-too-large", $"The file is too large", large.Said),
        LimitsChangedException => Make(409, "changed-meanwhile", $"Limits changed at the same time",
            $"Other limits came into effect while this was being judged. Nothing was changed; repeat what you did."),
        DbUpdateConcurrencyException => Make(409, "changed-meanwhile", $"Somebody else changed this at the same time",
            $"Your change was not made and theirs was kept. Load the figure again, look at what changed and repeat your change if it still applies."),
        DbUpdateException duplicate when DatabaseErrors.IsUniqueViolation(duplicate) => Make(409, "slug-taken", $"That address is taken",
            $"Something with the same address exists already, perhaps made a moment ago by somebody else. Nothing was changed; choose another address."),
        BadHttpRequestException { StatusCode: 413 } => Make(413, "request-too-large", $"The request is too large",
            $"More arrived than this catalogue takes in one request. Nothing was kept; send a smaller file."),
        BadHttpRequestException { InnerException: JsonException json } => Make(400, "json-malformed", $"The JSON cannot be read", OfJson(json)),
        BadHttpRequestException bad => Make(bad.StatusCode, "request-malformed", $"The request cannot be understood", Sentence.FromWords(bad.Message)),
        InvalidDataException data => Make(400, "request-malformed", $"The request cannot be understood", Sentence.FromWords(data.Message) + S($"Nothing was kept.")),
        _ when IsDiskFull(exception) => Make(507, "disk-full", $"The catalogue's disk is full",
            $"There was no room to keep the file. Nothing was kept of it and nothing else was lost. Ask the host to make room, then upload again."),
        _ => Make(500, "internal", $"Something went wrong on our side",
            $"The request was not completed. Nothing that was saved before is lost. Try again; if it happens again, tell the host the time and what you did."),
    };

    private static ProblemDetails OfRule(RuleBrokenException rule)
    {
        var status = rule.Code == "busy" ? 503 : NotFoundCodes.Contains(rule.Code) ? 404 : ConflictCodes.Contains(rule.Code) ? 409 : 422;
        var problem = Make(status, rule.Code, status switch
        {
            404 => S($"There is no such thing"),
            503 => S($"The catalogue is busy"),
            _ => S($"The catalogue does not allow this"),
        }, rule.Said);
        if (rule.Obstacles.Count > 0) problem.Extensions["obstacles"] = rule.Obstacles;
        return problem;
    }

    private static Sentence OfJson(JsonException json)
    {
        if (json.Message.StartsWith("The JSON value could not be converted", StringComparison.Ordinal))
            return $"At {json.Path} (line {json.LineNumber + 1}) stands a value of another kind than is wanted there. Nothing was changed.";
        var where = json.Path is { } path && !json.Message.Contains("Path:", StringComparison.Ordinal) ? S($"It stands at {path}.") : Sentence.Empty;
        return Sentence.FromWords(json.Message) + where + S($"Nothing was changed.");
    }

    /// <summary>In the language of who asks.</summary>
    public static ProblemDetails Make(int status, string code, Sentence title, Sentence detail)
    {
        ArgumentNullException.ThrowIfNull(title);
        ArgumentNullException.ThrowIfNull(detail);
        return new() { Status = status, Type = TypePrefix + code, Title = title.ToString(), Detail = detail.ToString() };
    }

    /// <summary>ENOSPC, EDQUOT on Unix; ERROR_DISK_FULL, ERROR_HANDLE_DISK_FULL on Windows.</summary>
    private static bool IsDiskFull(Exception exception) => exception is IOException io
        ? (io.HResult & 0xFFFF) is 28 or 122 or 112 or 39
        : DatabaseErrors.IsDiskFull(exception);
}
