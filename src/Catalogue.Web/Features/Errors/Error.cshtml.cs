using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Errors;

/// <summary>The page shown instead of the one that went wrong: what happened, what was kept, what to do. Programs get the same as problem details.</summary>
[IgnoreAntiforgeryToken]
[ResponseCache(Duration = 0, Location = ResponseCacheLocation.None, NoStore = true)]
internal sealed class ErrorPage : PageModel
{
    public ProblemDetails Problem { get; private set; } = null!;

    public int Status => Problem.Status ?? StatusCodes.Status500InternalServerError;

    /// <summary>The number to tell the host, who finds it in the log.</summary>
    public string Trace => HttpContext.TraceIdentifier;

    public void OnGet(int? status) => Show(status);

    public void OnPost(int? status) => Show(status);

    private void Show(int? status)
    {
        Problem = HttpContext.Features.Get<ProblemDetails>() ?? OfStatus(status is >= 400 and <= 599 ? status.Value : 404);

        // What a program reads as a broken rule, people meet as an address or a request that does not work.
        if (Problem.Status is 404 or 422) Problem.Title = OfStatus(Status).Title;
        Response.StatusCode = Status;
    }

    /// <summary>Words for a status that came without any.</summary>
    internal static ProblemDetails OfStatus(int status) => status switch
    {
        400 => Problems.Make(400, "request-malformed", $"This request cannot be understood",
            $"The form may have been open too long, or the address is cut off. Nothing was changed. Go back, load the page again and repeat what you did."),
        401 or 403 => Problems.Make(status, "not-allowed", $"This is for signed-in designers",
            $"Nothing was changed. Sign in with the account that may do this, then try again."),
        404 => Problems.Make(404, "not-found", $"There is nothing at this address",
            $"The address may be mistyped, or what was here has moved. Nothing is lost: look it up in the range."),
        405 => Problems.Make(405, "method-not-allowed", $"This address does not take that",
            $"Nothing was changed. Go back to the page and use its buttons."),
        413 => Problems.Make(413, "request-too-large", $"That is more than this catalogue takes",
            $"Nothing was kept. Send a smaller file."),
        415 => Problems.Make(415, "media-type-unsupported", $"This address does not take that kind of content",
            $"Nothing was changed. Programs send JSON as “application/json”, and meshes to the addresses that take them."),
        422 => Problems.Make(422, "request-refused", $"This cannot be shown as asked", $"Nothing was changed. Go back, correct it and try again."),
        429 => Problems.Make(429, "too-many-requests", $"That was a lot in a short time",
            $"Nothing was kept of this last request; those before are safe. Wait a minute, then send it again."),
        >= 500 => Problems.Make(status, "internal", $"Something went wrong on our side",
            $"The request was not completed. Nothing that was saved before is lost. Try again in a moment; if it happens again, tell the host."),
        _ => Problems.Make(status, "request-refused", $"This request was refused", $"Nothing was changed. Go back and try again."),
    };
}
