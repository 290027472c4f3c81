using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Printers;

/// <summary>How a process usually works, in words.</summary>
internal static class PaceWords
{
    /// <summary>“rigid resin layers of 0.05 mm, 8 s each”.</summary>
    public static string Usual(Process process)
    {
        ArgumentNullException.ThrowIfNull(process);
        double Rate(string key) => process.Rate(key)?.Value ?? 0;
        var (name, layer) = (Known(process.SpokenName), Rate(RateKey.LayerHeight));
        return process.Rate(RateKey.Speed) is not null
            ? T($"{name} layers of {layer:0.###} mm, {layer * Rate(RateKey.LineWidth) * Rate(RateKey.Speed):0.#} mm³ a second")
            : T($"{name} layers of {layer:0.###} mm, {Rate(RateKey.CycleTime):0.#} s each");
    }
}
