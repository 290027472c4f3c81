using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Processes;

/// <summary>What a limit is called by people.</summary>
internal static class LimitNames
{
    public static string Of(string key) => key switch
    {
        LimitKey.LayerHeightMin => "Thinnest layer",
        LimitKey.LayerHeightMax => "Thickest layer",
        LimitKey.Accuracy => "Accuracy, plus or minus",
        LimitKey.OverhangAngle => "Steepest overhang without support",
        LimitKey.BridgeLength => "Longest bridge without support",
        LimitKey.LimbWidth => "Narrowest limb",
        LimitKey.WallSupported => "Thinnest wall held on its sides",
        LimitKey.WallFree => "Thinnest free wall",
        LimitKey.DetailWidth => "Narrowest raised detail",
        LimitKey.DetailHeight => "Lowest raised detail",
        LimitKey.HoleDiameter => "Smallest hole",
        LimitKey.Clearance => "Clearance of moving pieces",
        LimitKey.DrainDiameter => "Drain hole of a hollow, across",
        LimitKey.DrainCount => "Drain holes of a hollow",
        LimitKey.InPlaneResolution => "Finest line in the layer",
        _ => key.Replace('-', ' '),
    };
}
