using Catalogue.Model;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Shared;

/// <summary>What pages with forms share: a broken rule becomes a sentence at its field, a change a sentence on the next page.</summary>
internal static class PageForms
{
    /// <summary>Makes the change, unless the form is already wrong or a rule forbids it; then the page is to be shown again.</summary>
    /// <param name="fields">Which field the code of a broken rule belongs to; codes without one are told at the top.</param>
    public static async Task<bool> TryAsync(this PageModel page, Func<Task> change, IReadOnlyDictionary<string, string>? fields = null)
    {
        if (page.ModelState.IsValid)
        {
            try
            {
                await change();
                return true;
            }
            catch (RuleBrokenException broken) when (broken.Code != "not-found")
            {
                page.ModelState.AddModelError(fields?.GetValueOrDefault(broken.Code) ?? "", broken.Said.ToString());
            }
        }

        page.Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return false;
    }

    /// <summary>Of a page with several forms: what the others lack is not an error of the one that was sent.</summary>
    public static void Only(this PageModel page, string form)
    {
        foreach (var key in page.ModelState.Keys.Where(k => k != form && !k.StartsWith(form + ".", StringComparison.Ordinal)).ToList()) page.ModelState.Remove(key);
    }

    /// <summary>Goes on to another page, which begins with <paramref name="done"/>.</summary>
    public static IActionResult Done(this PageModel page, Sentence done, string path)
    {
        ArgumentNullException.ThrowIfNull(done);
        page.TempData["Done"] = done.ToString();
        return new RedirectResult(page.Request.PathBase + path);
    }
}
