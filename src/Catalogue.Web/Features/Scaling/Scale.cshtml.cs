using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Model;
using Catalogue.Model.Scaling;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Catalogue.Web.Features.Scaling;

/// <summary>A figure at another size: what changes, from which scale to which it holds together and fits, which rods to take.</summary>
internal sealed class ScalePage(CatalogueDb db, RangeSearch search, Visitor visitor) : PageModel
{
    public FigureAnswer Answer { get; private set; } = null!;

    /// <summary>Null without a printer, and while the percentage makes no sense.</summary>
    public RescaledAnswer? Rescaled { get; private set; }

    public string Percent { get; private set; } = "";

    /// <summary>What is wrong with the percentage.</summary>
    public string? Problem { get; private set; }

    public async Task OnGetAsync(string figure, CancellationToken cancellation)
    {
        Answer = await FigureAnswer.LoadAsync(db, search, figure, visitor.Printer, cancellation, also: visitor.Also);
        var typed = Request.Query["percent"].ToString();
        Percent = typed.Length is > 0 and <= 20 ? typed : "100";
        try
        {
            var scale = PrintScale.Parse(Percent);
            Percent = ScaleWords.Number(scale.Percent);
            if (Answer.Asked is not null) Rescaled = await RescaledAnswer.OfAsync(Answer, scale, search, cancellation);
        }
        catch (RuleBrokenException broken) when (broken.Code == "percent-invalid")
        {
            Problem = broken.Said.ToString();
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
    }
}
