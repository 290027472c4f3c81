using Catalogue.Model;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Finds what an address names below a figure, or says that it is not there.</summary>
internal static class FigureParts
{
    public static Part PartOf(this Figure figure, string? slug) =>
        figure.Parts.FirstOrDefault(p => p.Slug == slug) ?? throw NotFound($"“{figure.Title}” has no part “{slug}”. Nothing was changed.");

    public static Variant VariantOf(this Figure figure, string? part, string? slug)
    {
        var found = figure.PartOf(part);
        return found.Variants.FirstOrDefault(v => v.Slug == slug) ?? throw NotFound($"“{found.Name}” has no variant “{slug}”. Nothing was changed.");
    }

    public static Choice ChoiceOf(this Figure figure, string? slug) =>
        figure.Choices.FirstOrDefault(c => c.Slug == slug) ?? throw NotFound($"“{figure.Title}” has no choice “{slug}”. Nothing was changed.");

    public static HardwareNeed HardwareOf(this Figure figure, Guid id) =>
        figure.Hardware.FirstOrDefault(h => h.Id == id) ?? throw NotFound($"“{figure.Title}” has no hardware “{id}”. Nothing was changed.");

    public static Joint JointOf(this Figure figure, Guid id) =>
        figure.Joints.FirstOrDefault(j => j.Id == id) ?? throw NotFound($"“{figure.Title}” has no joint “{id}”. Nothing was changed.");

    public static Step StepOf(this Figure figure, Guid id) =>
        figure.Steps.FirstOrDefault(s => s.Id == id) ?? throw NotFound($"“{figure.Title}” has no step “{id}”. Nothing was changed.");

    private static RuleBrokenException NotFound(Sentence what) => new("not-found", what);
}
