using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Processes;

/// <summary>What a rate is called by people.</summary>
internal static class RateNames
{
    public static string Of(string key) => key switch
    {
        RateKey.Price => T($"Price of the material"),
        RateKey.Waste => T($"Waste, beside what is in the piece"),
        RateKey.SupportFill => T($"Filling of supports"),
        RateKey.LayerHeight => T($"Usual layer height"),
        RateKey.CycleTime => T($"Time of a layer"),
        RateKey.BaseLayers => T($"First layers that take longer"),
        RateKey.BaseCycleTime => T($"Time of a first layer"),
        RateKey.Lift => T($"Supports below the part"),
        RateKey.Skin => T($"Solid skin"),
        RateKey.Infill => T($"Filling inside the skin"),
        RateKey.LineWidth => T($"Width of a line"),
        RateKey.Speed => T($"Speed while printing"),
        RateKey.Travel => T($"Moving without printing, beside printing"),
        RateKey.LayerChange => T($"Pause between layers"),
        _ => key.Replace('-', ' '),
    };

    /// <summary>“EUR per litre”, “mm”.</summary>
    public static string UnitOf(ProcessRate rate, string currency)
    {
        ArgumentNullException.ThrowIfNull(rate);
        return rate.Unit switch
        {
            "per litre" => T($"{currency} per litre"),
            "per kg" => T($"{currency} per kg"),
            "layers" => T($"layers"),
            _ when rate.Key == RateKey.Price => $"{currency} {rate.Unit}",
            _ => rate.Unit,
        };
    }
}
