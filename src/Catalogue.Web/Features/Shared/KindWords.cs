using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Shared;

/// <summary>Kinds of hardware and joints in words for people.</summary>
internal static class KindWords
{
    public static string Of(HardwareKind kind) => kind switch
    {
        HardwareKind.Rod => T($"rod"),
        HardwareKind.Screw => T($"screw"),
        HardwareKind.Magnet => T($"magnet"),
        HardwareKind.Spring => T($"spring"),
        HardwareKind.Elastic => T($"elastic"),
        HardwareKind.Motor => T($"motor"),
        HardwareKind.Light => T($"light"),
        HardwareKind.Wheel => T($"wheel"),
        HardwareKind.Adhesive => T($"adhesive"),
        HardwareKind.Paint => T($"paint"),
        HardwareKind.Tool => T($"tool"),
        _ => T($"other"),
    };

    public static string Of(JointKind kind) => kind switch
    {
        JointKind.PopInBall => T($"pop-in ball"),
        JointKind.PlugInSleeve => T($"plug-in sleeve"),
        JointKind.PinnedHinge => T($"pinned hinge"),
        JointKind.PressFit => T($"press fit"),
        JointKind.Glued => T($"glued"),
        _ => T($"retracting"),
    };
}
