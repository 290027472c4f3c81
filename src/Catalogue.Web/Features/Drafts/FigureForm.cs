using System.ComponentModel.DataAnnotations;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>The words and numbers of a figure as a form.</summary>
internal sealed class FigureForm
{
    /// <summary>Which field the code of a broken rule belongs to.</summary>
    public static readonly IReadOnlyDictionary<string, string> Fields = new Dictionary<string, string>
    {
        ["slug-invalid"] = "Form.Slug",
        ["slug-taken"] = "Form.Slug",
        ["height-invalid"] = "Form.HeightMm",
        ["scale-invalid"] = "Form.ScaleDenominator",
        ["licence-invalid"] = "Form.Licence",
        ["tags-invalid"] = "Form.Tags",
    };

    [Required(ErrorMessage = "A figure needs a title.")]
    [StringLength(120, ErrorMessage = "A title has at most 120 characters.")]
    public string? Title { get; set; }

    [StringLength(Model.Figures.Slug.MaxLength, ErrorMessage = "An address has at most 60 characters.")]
    public string? Slug { get; set; }

    [Required(ErrorMessage = "How tall is the figure, in millimetres?")]
    public double? HeightMm { get; set; }

    public double? ScaleDenominator { get; set; }

    [Required(ErrorMessage = "Under which licence may others use it?")]
    [StringLength(60, ErrorMessage = "A licence expression has at most 60 characters.")]
    public string? Licence { get; set; }

    [StringLength(300, ErrorMessage = "A summary has at most 300 characters.")]
    public string? Summary { get; set; }

    [StringLength(500, ErrorMessage = "Tags have at most 500 characters together.")]
    public string? Tags { get; set; }

    [StringLength(20_000, ErrorMessage = "A story has at most 20 000 characters.")]
    public string? Story { get; set; }

    [StringLength(20_000, ErrorMessage = "Painting notes have at most 20 000 characters.")]
    public string? PaintingNotes { get; set; }

    [StringLength(2_000, ErrorMessage = "This note has at most 2 000 characters.")]
    public string? ReferenceNote { get; set; }

    [StringLength(2_000, ErrorMessage = "Credits have at most 2 000 characters.")]
    public string? Credits { get; set; }

    [StringLength(4_000, ErrorMessage = "Cautions have at most 4 000 characters.")]
    public string? Cautions { get; set; }

    public static FigureForm Of(Figure figure) => new()
    {
        Title = figure.Title,
        Slug = figure.Slug,
        HeightMm = figure.HeightMm,
        ScaleDenominator = figure.ScaleDenominator,
        Licence = figure.Licence,
        Summary = figure.Summary,
        Tags = string.Join(", ", figure.Tags),
        Story = figure.Story,
        PaintingNotes = figure.PaintingNotes,
        ReferenceNote = figure.ReferenceNote,
        Credits = figure.Credits,
        Cautions = figure.Cautions,
    };

    public FigureWords Words() => new()
    {
        Slug = Slug,
        Title = Title,
        HeightMm = HeightMm,
        ScaleDenominator = ScaleDenominator,
        Licence = Licence,
        Summary = Summary,
        Tags = string.IsNullOrWhiteSpace(Tags) ? null : [Tags],
        Story = Story,
        PaintingNotes = PaintingNotes,
        ReferenceNote = ReferenceNote,
        Credits = Credits,
        Cautions = Cautions,
    };

    /// <summary>Tells whether the words are still those somebody began to change; whatever else changed does not count.</summary>
    public string Stamp() => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(JsonSerializer.Serialize(Words()))))[..16];
}
