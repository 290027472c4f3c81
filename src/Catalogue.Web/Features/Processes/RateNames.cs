using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Processes;

/// <summary>What a rate is called by people.</summary>
internal static class RateNames
{
    public static string Of(string key) => key switch
    {
        RateKey.Price => "Price of the material",
        RateKey.Waste => "Waste, beside what is in the piece",
        RateKey.SupportFill => "Filling of supports",
        RateKey.LayerHeight => "Usual layer height",
        RateKey.CycleTime => "Time of a layer",
        RateKey.BaseLayers => "First layers that take longer",
        RateKey.BaseCycleTime => "Time of a first layer",
        RateKey.Lift => "Supports below the part",
        RateKey.Skin => "Solid skin",
        RateKey.Infill => "Filling inside the skin",
        RateKey.LineWidth => "Width of a line",
        RateKey.Speed => "Speed while printing",
        RateKey.Travel => "Moving without printing, beside printing",
        RateKey.LayerChange => "Pause between layers",
        _ => key.Replace('-', ' '),
    };

    /// <summary>“EUR per litre”, “mm”.</summary>
    public static string UnitOf(ProcessRate rate, string currency)
    {
        ArgumentNullException.ThrowIfNull(rate);
        return rate.Key == RateKey.Price ? $"{currency} {rate.Unit}" : rate.Unit;
    }
}
