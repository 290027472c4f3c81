using Catalogue.Model;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>What a designer says of a figure. Story, painting notes and cautions are Markdown.</summary>
internal sealed record FigureWords
{
    /// <summary>The figure's address; made from the title when absent. Cannot be changed later.</summary>
    public string? Slug { get; init; }

    public string? Title { get; init; }
    public double? HeightMm { get; init; }

    /// <summary>An SPDX licence identifier such as <c>CC-BY-4.0</c>.</summary>
    public string? Licence { get; init; }

    public string? Summary { get; init; }

    /// <summary>Words to find figures by that belong together: up to 12, kept in small letters.</summary>
    public IReadOnlyList<string>? Tags { get; init; }

    public string? Story { get; init; }
    public string? PaintingNotes { get; init; }

    /// <summary>How sure the design is of what it was modelled after.</summary>
    public string? ReferenceNote { get; init; }

    /// <summary>N of the scale 1:N.</summary>
    public double? ScaleDenominator { get; init; }

    public string? Credits { get; init; }
    public string? Cautions { get; init; }

    public FigureText Text() => new()
    {
        Title = Title ?? "",
        HeightMm = HeightMm ?? throw new RuleBrokenException("height-invalid", $"The height in mm is missing. Nothing was changed; give a number above 0."),
        Licence = Licence ?? "",
        Summary = Summary,
        Tags = Tags,
        Story = Story,
        PaintingNotes = PaintingNotes,
        ReferenceNote = ReferenceNote,
        ScaleDenominator = ScaleDenominator,
        Credits = Credits,
        Cautions = Cautions,
    };

    public Figure Create(DateTime now) => new(Model.Figures.Slug.GivenOrFrom(Slug, Title), Text(), now);
}
