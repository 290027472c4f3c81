using System.Globalization;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Printers;

/// <summary>How a process usually works, in words.</summary>
internal static class PaceWords
{
    /// <summary>“layers of 0.05 mm, 8 s each”.</summary>
    public static string Usual(Process process)
    {
        ArgumentNullException.ThrowIfNull(process);
        double Rate(string key) => process.Rate(key)?.Value ?? 0;
        var layer = Text($"layers of {Rate(RateKey.LayerHeight):0.###} mm");
        return process.Rate(RateKey.Speed) is not null
            ? layer + Text($", {Rate(RateKey.LayerHeight) * Rate(RateKey.LineWidth) * Rate(RateKey.Speed):0.#} mm³ a second")
            : layer + Text($", {Rate(RateKey.CycleTime):0.#} s each");
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
