using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>A fit answer in words: “fits, 3.1 mm to spare”, “2.4 mm too long in every orientation”.</summary>
internal static class FitWords
{
    public static string Of(FitAnswer fit, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(fit);
        if (!fit.Fits)
        {
            var over = lengths.Of(Math.Max(0.1, fit.IsExact ? -fit.SpareMm : Math.Round(-fit.SpareMm)));
            return fit.IsExact ? T($"{over} too long in every orientation") : T($"about {over} too long in every orientation");
        }

        var spare = lengths.Of(fit.IsExact ? fit.SpareMm : Math.Floor(fit.SpareMm));
        return (fit.NeedsTurning, fit.IsExact) switch
        {
            (true, true) => T($"fits when turned, {spare} to spare"),
            (true, false) => T($"fits when turned, at least {spare} to spare"),
            (false, true) => T($"fits, {spare} to spare"),
            _ => T($"fits, at least {spare} to spare"),
        };
    }
}
