using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>A fit answer in words: “fits, 3.1 mm to spare”, “2.4 mm too long in every orientation”.</summary>
internal static class FitWords
{
    public static string Of(FitAnswer fit, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(fit);
        if (!fit.Fits) return $"{(fit.IsExact ? "" : "about ")}{lengths.Of(Math.Max(0.1, fit.IsExact ? -fit.SpareMm : Math.Round(-fit.SpareMm)))} too long in every orientation";
        var spare = $"{(fit.IsExact ? "" : "at least ")}{lengths.Of(fit.IsExact ? fit.SpareMm : Math.Floor(fit.SpareMm))} to spare";
        return fit.NeedsTurning ? $"fits when turned, {spare}" : $"fits, {spare}";
    }
}
