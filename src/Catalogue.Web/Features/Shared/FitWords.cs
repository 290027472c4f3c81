using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>A fit answer in words: “fits, 3.1 mm to spare”, “2.4 mm too long in every orientation”.</summary>
internal static class FitWords
{
    public static string Of(FitAnswer fit, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(fit);
        if (!fit.Fits) return $"{lengths.Of(Math.Max(0.1, -fit.SpareMm))} too long in every orientation";
        var spare = $"{lengths.Of(fit.SpareMm)} to spare";
        return fit.NeedsTurning ? $"fits when turned, {spare}" : $"fits, {spare}";
    }
}
