using System.ComponentModel.DataAnnotations;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>A joint as a form.</summary>
internal sealed class JointForm
{
    public Guid? Id { get; set; }

    [Required(ErrorMessage = "A joint needs a name, such as “left shoulder”.")]
    [StringLength(120, ErrorMessage = "A name has at most 120 characters.")]
    public string? Name { get; set; }

    public string? Kind { get; set; }
    public string? FirstPart { get; set; }
    public string? SecondPart { get; set; }
    public double? InnerDiameterMm { get; set; }
    public double? OuterDiameterMm { get; set; }
    public double? MouthDiameterMm { get; set; }
    public double? LengthMm { get; set; }

    [StringLength(500, ErrorMessage = "A note has at most 500 characters.")]
    public string? Note { get; set; }

    public List<string> Processes { get; set; } = [];

    public static JointForm Of(Joint joint, Figure figure) => new()
    {
        Id = joint.Id,
        Name = joint.Name,
        Kind = Model.Words.Of(joint.Kind),
        FirstPart = figure.Parts.First(p => p.Id == joint.FirstPartId).Slug,
        SecondPart = figure.Parts.First(p => p.Id == joint.SecondPartId).Slug,
        InnerDiameterMm = joint.InnerDiameterMm,
        OuterDiameterMm = joint.OuterDiameterMm,
        MouthDiameterMm = joint.MouthDiameterMm,
        LengthMm = joint.LengthMm,
        Note = joint.Note,
        Processes = [.. joint.Processes],
    };

    public JointWords Words() => new(Model.Words.TryParse<JointKind>(Kind, out var kind) ? kind : null, Name, FirstPart, SecondPart,
        InnerDiameterMm, OuterDiameterMm, MouthDiameterMm, LengthMm, Note, Processes);
}

/// <summary>A piece of hardware as a form.</summary>
internal sealed class HardwareForm
{
    public Guid? Id { get; set; }
    public string? Kind { get; set; }

    [Required(ErrorMessage = "Hardware needs a name, such as “metal rod”.")]
    [StringLength(120, ErrorMessage = "A name has at most 120 characters.")]
    public string? Name { get; set; }

    [Required(ErrorMessage = "How many pieces?")]
    [Range(1, 10_000, ErrorMessage = "Hardware comes in quantities of 1 to 10 000.")]
    public int? Quantity { get; set; } = 1;

    [StringLength(120, ErrorMessage = "A size has at most 120 characters.")]
    public string? Size { get; set; }

    public double? DiameterMm { get; set; }
    public double? CutLengthMm { get; set; }

    [StringLength(500, ErrorMessage = "Substitutes have at most 500 characters.")]
    public string? Substitutes { get; set; }

    [StringLength(500, ErrorMessage = "A caution has at most 500 characters.")]
    public string? Caution { get; set; }

    public bool Optional { get; set; }
    public List<string> Processes { get; set; } = [];
    public List<string> Parts { get; set; } = [];

    public static HardwareForm Of(HardwareNeed need) => new()
    {
        Id = need.Id,
        Kind = Model.Words.Of(need.Kind),
        Name = need.Name,
        Quantity = need.Quantity,
        Size = need.Size,
        DiameterMm = need.DiameterMm,
        CutLengthMm = need.CutLengthMm,
        Substitutes = need.Substitutes,
        Caution = need.Caution,
        Optional = need.IsOptional,
        Processes = [.. need.Processes],
        Parts = [.. need.Parts.Select(p => p.Slug)],
    };

    public HardwareWords Words() => new(Model.Words.TryParse<HardwareKind>(Kind, out var kind) ? kind : null, Name, Quantity, Size, DiameterMm, CutLengthMm,
        Substitutes, Caution, Optional, Processes, Parts);
}

/// <summary>An assembly step as a form.</summary>
internal sealed class StepForm
{
    public Guid? Id { get; set; }

    [Required(ErrorMessage = "A step needs a title.")]
    [StringLength(120, ErrorMessage = "A title has at most 120 characters.")]
    public string? Title { get; set; }

    [Required(ErrorMessage = "What is done in this step?")]
    [StringLength(4_000, ErrorMessage = "A step's text has at most 4 000 characters.")]
    public string? Body { get; set; }

    public string? OnlyWith { get; set; }
    public List<string> Processes { get; set; } = [];
    public List<string> Parts { get; set; } = [];
    public List<Guid> Hardware { get; set; } = [];

    public static StepForm Of(Step step, Figure figure) => new()
    {
        Id = step.Id,
        Title = step.Title,
        Body = step.Body,
        OnlyWith = figure.Parts.FirstOrDefault(p => p.Id == step.ChoicePartId)?.Slug,
        Processes = [.. step.Processes],
        Parts = [.. step.Parts.Select(p => p.Slug)],
        Hardware = [.. step.Hardware.Select(h => h.Id)],
    };

    public StepWords Words() => new(Title, Body, Processes, OnlyWith, Parts, Hardware, null);
}

/// <summary>The button that removes a joint, a piece of hardware or a step.</summary>
internal sealed record RemoveForm(string Page, string What, Guid Id, string Name);
