using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Processes;

/// <summary>What a limit is called by people.</summary>
internal static class LimitNames
{
    public static string Of(string key) => key switch
    {
        LimitKey.LayerHeightMin => T($"Thinnest layer"),
        LimitKey.LayerHeightMax => T($"Thickest layer"),
        LimitKey.Accuracy => T($"Accuracy, plus or minus"),
        LimitKey.OverhangAngle => T($"Steepest overhang without support"),
        LimitKey.BridgeLength => T($"Longest bridge without support"),
        LimitKey.LimbWidth => T($"Narrowest limb"),
        LimitKey.WallSupported => T($"Thinnest wall held on its sides"),
        LimitKey.WallFree => T($"Thinnest free wall"),
        LimitKey.DetailWidth => T($"Narrowest raised detail"),
        LimitKey.DetailHeight => T($"Lowest raised detail"),
        LimitKey.HoleDiameter => T($"Smallest hole"),
        LimitKey.Clearance => T($"Clearance of moving pieces"),
        LimitKey.DrainDiameter => T($"Drain hole of a hollow, across"),
        LimitKey.DrainCount => T($"Drain holes of a hollow"),
        LimitKey.InPlaneResolution => T($"Finest line in the layer"),
        _ => key.Replace('-', ' '),
    };
}
