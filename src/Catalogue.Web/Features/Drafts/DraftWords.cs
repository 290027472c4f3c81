using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>What the workbench tells apart, in words for designers.</summary>
internal static class DraftWords
{
    public static string Of(FigureStatus status) => status switch
    {
        FigureStatus.Draft => T($"draft"),
        FigureStatus.Published => T($"published"),
        _ => T($"withdrawn"),
    };

    /// <summary>The role of a part, or the choice it is a member of.</summary>
    public static string Role(PartView part, DraftView draft) => part.Choice is { } choice
        ? T($"choice: {draft.Choices.First(c => c.Slug == choice).Name}")
        : part.Role == PartRole.Required ? T($"required") : T($"optional");

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

    public static string Parts(int count) => count == 1 ? T($"1 part") : T($"{count} parts");
}
