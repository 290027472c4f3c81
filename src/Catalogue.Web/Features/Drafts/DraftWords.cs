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

    public static string Parts(int count) => count == 1 ? T($"1 part") : T($"{count} parts");
}
