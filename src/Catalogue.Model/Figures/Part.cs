using System.Text.Json.Serialization;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Figures;

/// <summary>Whether a figure is complete without the part. A member of a <see cref="Choice"/> is needed only where it is the one built.</summary>
public enum PartRole
{
    Required,
    Optional,

    [JsonStringEnumMemberName("choice")]
    ChoiceMember,
}

/// <summary>One printed piece of a figure.</summary>
public sealed class Part
{
    private readonly List<Variant> _variants = [];

    private Part()
    {
    }

    internal Part(Figure figure, string slug, string name, int quantity, PartRole role, int position, string? note)
    {
        Id = Guid.CreateVersion7();
        Figure = figure;
        FigureId = figure.Id;
        Slug = slug;
        Position = position;
        if (role == PartRole.ChoiceMember)
            throw new RuleBrokenException("choice-missing", $"A part becomes a member of a choice by joining one. Nothing was changed.");
        Role = role;
        SetWords(name, quantity, note);
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public Figure Figure { get; private set; } = null!;
    public string Slug { get; private set; } = "";
    public string Name { get; private set; } = "";
    public string Note { get; private set; } = "";
    public int Quantity { get; private set; }
    public PartRole Role { get; private set; }
    public int Position { get; private set; }
    public Guid? ChoiceId { get; private set; }
    public Choice? Choice { get; private set; }
    public DateTime? RemovedAt { get; private set; }
    public bool IsRemoved => RemovedAt is not null;

    /// <summary>Where each copy of the part sits in the assembled figure; empty = not said.</summary>
    public IReadOnlyList<Pose> AssembledPoses { get; private set; } = [];

    public IReadOnlyList<Variant> Variants => _variants;

    /// <summary>Changes the words; poses that no longer match the number of copies are dropped.</summary>
    public void Describe(string name, int quantity, string? note, DateTime now)
    {
        SetWords(name, quantity, note);
        if (AssembledPoses.Count > 0 && AssembledPoses.Count != quantity) AssembledPoses = [];
        Figure.Changed(now);
    }

    public void SetRole(PartRole role, DateTime now)
    {
        if (role == PartRole.ChoiceMember && ChoiceId is null)
            throw new RuleBrokenException("choice-missing", $"A part becomes a member of a choice by joining one. Nothing was changed.");
        if (role != PartRole.ChoiceMember) LeaveChoice();
        Role = role;
        Figure.Changed(now);
    }

    public void Join(Choice choice, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(choice);
        if (choice.FigureId != FigureId)
            throw new RuleBrokenException("choice-foreign", $"A part can only join a choice of its own figure. Nothing was changed.");
        if (ChoiceId != choice.Id) LeaveChoice();
        (Choice, ChoiceId, Role) = (choice, choice.Id, PartRole.ChoiceMember);
        choice.DefaultPartId ??= Id;
        Figure.Changed(now);
    }

    /// <param name="poses">One for each copy, or none.</param>
    public void Place(IReadOnlyList<Pose> poses, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(poses);
        if (poses.Count > 0 && poses.Count != Quantity)
            throw new RuleBrokenException("pose-count", $"“{Name}” is there {Quantity} times but has {poses.Count} poses. Nothing was changed; give one pose for each copy, or none.");
        if (!poses.All(p => p is not null && p.IsValid))
            throw new RuleBrokenException("pose-invalid", $"A pose has three finite numbers and a rotation of nine, row-major: right angles kept, nothing mirrored or scaled. Nothing was changed.");
        AssembledPoses = [.. poses];
        Figure.Changed(now);
    }

    public Variant AddVariant(string slug, string name, IReadOnlyCollection<string> processes, DateTime now, string? note = null)
    {
        Figures.Slug.Checked(slug);
        if (_variants.Exists(v => v.Slug == slug))
            throw new RuleBrokenException("variant-exists", $"“{Name}” already has a variant “{slug}”. Nothing was changed.");
        var variant = new Variant(this, slug, name, note);
        variant.Declare(processes, now);
        _variants.Add(variant);
        Figure.Changed(now);
        return variant;
    }

    /// <summary>A choice that loses the member built by default takes another.</summary>
    private void LeaveChoice()
    {
        if (Choice is not { } left) return;
        (Choice, ChoiceId) = (null, null);
        if (left.DefaultPartId == Id) left.DefaultPartId = Figure.Parts.FirstOrDefault(p => p.ChoiceId == left.Id && !p.IsRemoved)?.Id;
    }

    internal void Remove(DateTime now) => RemovedAt ??= now;

    internal void Restore() => RemovedAt = null;

    private void SetWords(string name, int quantity, string? note)
    {
        if (quantity is < 1 or > 1000)
            throw new RuleBrokenException("quantity-invalid", $"A part is printed between 1 and 1000 times for one figure. Nothing was changed.");
        Name = Text.Required(name, $"The part's name", 120);
        Quantity = quantity;
        Note = Text.Optional(note, $"The part's note", 2_000);
    }
}

/// <summary>A named set of parts of which exactly one is built.</summary>
public sealed class Choice
{
    private Choice()
    {
    }

    internal Choice(Figure figure, string slug, string name)
    {
        Id = Guid.CreateVersion7();
        FigureId = figure.Id;
        Slug = slug;
        Name = Text.Required(name, $"The choice's name", 120);
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public string Slug { get; private set; } = "";
    public string Name { get; private set; } = "";

    /// <summary>The member built when nobody says otherwise.</summary>
    public Guid? DefaultPartId { get; internal set; }

    public void MakeDefault(Part part, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(part);
        if (part.ChoiceId != Id)
            throw new RuleBrokenException("choice-foreign", $"“{part.Name}” is not a member of “{Name}”. Nothing was changed.");
        DefaultPartId = part.Id;
        part.Figure.Changed(now);
    }
}

/// <summary>A position in the assembled figure: millimetres and a rotation of nine numbers, row-major.</summary>
public sealed record Pose(double X, double Y, double Z, double[] Rotation)
{
    private const double Tolerance = 1e-3;

    /// <summary>True when the place is finite and the rotation turns without mirroring or scaling (to a thousandth).</summary>
    [JsonIgnore]
    public bool IsValid
    {
        get
        {
            if (!double.IsFinite(X) || !double.IsFinite(Y) || !double.IsFinite(Z) || Rotation is not { Length: 9 } r || !r.All(double.IsFinite)) return false;
            Vec3 x = new(r[0], r[1], r[2]), y = new(r[3], r[4], r[5]), z = new(r[6], r[7], r[8]);
            return Math.Abs(x.Length - 1) < Tolerance && Math.Abs(y.Length - 1) < Tolerance && Math.Abs(Vec3.Dot(x, y)) < Tolerance
                && (Vec3.Cross(x, y) - z).Length < Tolerance;
        }
    }
}
