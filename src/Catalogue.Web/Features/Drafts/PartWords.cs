using Catalogue.Model;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>What a designer says of a part.</summary>
/// <param name="Slug">The part's address below the figure; made from the name when absent. Cannot be changed later.</param>
/// <param name="Quantity">How many of it one figure needs; 1 when absent.</param>
/// <param name="Role"><c>required</c> when absent; <c>choice</c> needs <paramref name="Choice"/>.</param>
/// <param name="Choice">The slug of the choice the part is a member of.</param>
internal sealed record PartWords(string? Slug, string? Name, int? Quantity, PartRole? Role, string? Choice, string? Note)
{
    public Part AddTo(Figure figure, DateTime now)
    {
        var part = figure.AddPart(Model.Figures.Slug.GivenOrFrom(Slug, Name), Name ?? "", Quantity ?? 1, PartRole.Required, now, Note);
        TakeRole(part, now);
        return part;
    }

    public Part ApplyTo(Part part, DateTime now)
    {
        if (!string.IsNullOrWhiteSpace(Slug) && Slug != part.Slug)
            throw new RuleBrokenException("slug-fixed", $"A part keeps its address, because others link to it. Nothing was changed; leave “slug” out.");
        part.Describe(Name ?? "", Quantity ?? 1, Note, now);
        TakeRole(part, now);
        return part;
    }

    private void TakeRole(Part part, DateTime now)
    {
        var choice = string.IsNullOrWhiteSpace(Choice) ? null : part.Figure.ChoiceOf(Choice);
        var role = Role ?? (choice is null ? PartRole.Required : PartRole.ChoiceMember);
        if (role == PartRole.ChoiceMember && choice is not null) part.Join(choice, now);
        else if (choice is not null) throw new RuleBrokenException("role-contradictory", $"A member of a choice has the role “choice”. Nothing was changed; leave one of the two out.");
        else part.SetRole(role, now);
    }
}

/// <summary>What a designer says of a variant.</summary>
/// <param name="Slug">The variant's address below the part; made from the name when absent. Cannot be changed later.</param>
/// <param name="Processes">The codes of the processes this shape is made for, such as <c>VPP-rigid</c>.</param>
/// <param name="Reservations">By process: what to watch when printing this shape there.</param>
internal sealed record VariantWords(
    string? Slug, string? Name, IReadOnlyList<string>? Processes, IReadOnlyDictionary<string, string?>? Reservations, string? Note)
{
    public Variant AddTo(Part part, DateTime now)
    {
        var variant = part.AddVariant(Model.Figures.Slug.GivenOrFrom(Slug, Name), Name ?? "", Processes ?? [], now, Note);
        Reserve(variant, now);
        return variant;
    }

    public Variant ApplyTo(Variant variant, DateTime now)
    {
        if (!string.IsNullOrWhiteSpace(Slug) && Slug != variant.Slug)
            throw new RuleBrokenException("slug-fixed", $"A variant keeps its address, because others link to it. Nothing was changed; leave “slug” out.");
        variant.Describe(Name ?? "", Note, now);
        variant.Declare(Processes ?? [], now);
        foreach (var declaration in variant.Declarations) variant.Reserve(declaration.Process, null, now);
        Reserve(variant, now);
        return variant;
    }

    private void Reserve(Variant variant, DateTime now)
    {
        foreach (var (process, reservation) in Reservations ?? new Dictionary<string, string?>()) variant.Reserve(process, reservation, now);
    }
}

/// <summary>Where the copies of a part sit in the assembled figure.</summary>
internal sealed record PartPoses(IReadOnlyList<Pose>? Poses);
