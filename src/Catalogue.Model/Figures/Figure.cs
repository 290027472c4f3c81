
namespace Catalogue.Model.Figures;

/// <summary>Where a figure stands: only <see cref="Published"/> ones are shown to visitors.</summary>
public enum FigureStatus
{
    Draft,
    Published,
    Withdrawn,
}

/// <summary>A poseable figure template: words about it, its parts, and the editions readers have been shown.</summary>
/// <remarks>
/// What a reader sees is the current <see cref="Edition"/>: one complete set of revisions. Uploading changes nothing for readers;
/// <see cref="Publish"/> switches from one complete set to the next. Texts, steps and hardware belong to the figure and change at once.
/// </remarks>
public sealed partial class Figure
{
    private readonly List<Part> _parts = [];
    private readonly List<Choice> _choices = [];
    private readonly List<HardwareNeed> _hardware = [];
    private readonly List<Joint> _joints = [];
    private readonly List<Step> _steps = [];
    private readonly List<Edition> _editions = [];

    private Figure()
    {
    }

    public Figure(string slug, FigureText text, DateTime now)
    {
        Id = Guid.CreateVersion7();
        Slug = Figures.Slug.Checked(slug);
        CreatedAt = now;
        Describe(text, now);
    }

    public Guid Id { get; private set; }
    public string Slug { get; private set; } = "";
    public string Title { get; private set; } = "";
    public string Summary { get; private set; } = "";
    public string[] Tags { get; private set; } = [];
    public string Story { get; private set; } = "";
    public string PaintingNotes { get; private set; } = "";
    public string ReferenceNote { get; private set; } = "";
    public double HeightMm { get; private set; }
    public double? ScaleDenominator { get; private set; }
    public string Licence { get; private set; } = "";
    public string Credits { get; private set; } = "";
    public string Cautions { get; private set; } = "";
    public FigureStatus Status { get; private set; }
    public Guid? CurrentEditionId { get; private set; }
    public int LastEditionNumber { get; private set; }
    public DateTime CreatedAt { get; private set; }
    public DateTime ChangedAt { get; private set; }
    public DateTime? PublishedAt { get; private set; }

    /// <summary>Counts every change of the figure or of anything below it; the database refuses a save based on an older one.</summary>
    public int Version { get; private set; }

    /// <summary>Counts every time verdicts of its revisions were drawn or drawn anew; nobody's change of the figure.</summary>
    public int Judgements { get; private set; }

    public IReadOnlyList<Part> Parts => _parts;
    public IReadOnlyList<Choice> Choices => _choices;
    public IReadOnlyList<HardwareNeed> Hardware => _hardware;
    public IReadOnlyList<Joint> Joints => _joints;
    public IReadOnlyList<Step> Steps => _steps;
    public IReadOnlyList<Edition> Editions => _editions;

    public void Describe(FigureText text, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.HeightMm is not (> 0 and <= 2000))
            throw new RuleBrokenException("height-invalid", $"The height must be more than 0 and at most 2000 mm. Nothing was changed.");
        if (text.ScaleDenominator is not (null or (> 0 and <= 100_000)))
            throw new RuleBrokenException("scale-invalid", $"The scale 1:N needs an N above 0. Nothing was changed.");
        if (!string.IsNullOrWhiteSpace(text.Licence) && !SpdxExpression.IsValid(text.Licence))
        {
            throw new RuleBrokenException("licence-invalid",
                $"“{text.Licence}” is not an SPDX licence identifier like “CC-BY-4.0”. Nothing was changed; use an identifier from the SPDX list, or “LicenseRef-” and a name for a licence of your own.");
        }

        var tags = Figures.Tags.Checked(text.Tags);
        Title = Text.Required(text.Title, $"The title", 120);
        Summary = Text.Optional(text.Summary, $"The summary", 300);
        Tags = tags;
        Story = Text.Optional(text.Story, $"The story", 20_000);
        PaintingNotes = Text.Optional(text.PaintingNotes, $"The painting notes", 20_000);
        ReferenceNote = Text.Optional(text.ReferenceNote, $"The note on the reference", 2_000);
        Licence = Text.Required(text.Licence, $"The licence (an SPDX identifier)", 60);
        Credits = Text.Optional(text.Credits, $"The credits", 2_000);
        Cautions = Text.Optional(text.Cautions, $"The cautions", 4_000);
        HeightMm = text.HeightMm;
        ScaleDenominator = text.ScaleDenominator;
        Changed(now);
    }

    public Part AddPart(string slug, string name, int quantity, PartRole role, DateTime now, string? note = null)
    {
        Figures.Slug.Checked(slug);
        if (_parts.Find(p => p.Slug == slug) is { } there)
        {
            throw new RuleBrokenException("part-exists", there.IsRemoved
                ? S($"“{Title}” had a part “{slug}”, which was taken out. Nothing was changed; put that part back, or choose another address for the new one.")
                : $"“{Title}” already has a part “{slug}”. Nothing was changed; choose another address for the new part.");
        }

        var part = new Part(this, slug, name, quantity, role, _parts.Count == 0 ? 1 : _parts.Max(p => p.Position) + 1, note);
        _parts.Add(part);
        Changed(now);
        return part;
    }

    /// <summary>Takes a part out of the next edition. Readers keep what they see until then; its revisions keep their numbers.</summary>
    public void RemovePart(Part part, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(part);
        part.Remove(now);
        Changed(now);
    }

    /// <summary>Puts a part that was taken out back into the next edition.</summary>
    public void RestorePart(Part part, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(part);
        part.Restore();
        Changed(now);
    }

    public Choice AddChoice(string slug, string name, DateTime now)
    {
        Figures.Slug.Checked(slug);
        if (_choices.Exists(c => c.Slug == slug))
            throw new RuleBrokenException("choice-exists", $"“{Title}” already has a choice “{slug}”. Nothing was changed.");
        var choice = new Choice(this, slug, name);
        _choices.Add(choice);
        Changed(now);
        return choice;
    }

    /// <summary>Makes the latest revision of every variant the set that readers see.</summary>
    /// <exception cref="RuleBrokenException">Something in the set may not be shown yet; nothing changed.</exception>
    public Edition Publish(string? note, DateTime now)
    {
        if (Status == FigureStatus.Withdrawn)
            throw new RuleBrokenException("figure-withdrawn", $"“{Title}” is withdrawn. Nothing was published; reinstate it first.");
        var chosen = Chosen().ToList();
        if (Obstacles() is [var first, ..] obstacles)
        {
            var others = obstacles.Count == 1 ? Sentence.Empty : S($"({obstacles.Count - 1} more such things stand in the way.)");
            throw new RuleBrokenException(first.Code, first.Message + S($"Nothing was published; readers still see what they saw before.") + others, obstacles);
        }

        if (CurrentEdition is { } current && Status == FigureStatus.Published && current.HoldsExactly(chosen.Select(c => c.Revision.Id).ToHashSet()))
            throw new RuleBrokenException("nothing-new", $"Edition {current.Number} already holds exactly these revisions. Nothing was published; upload a revision first.");

        var edition = new Edition(this, ++LastEditionNumber, note, now);
        foreach (var (part, variant, revision) in chosen)
        {
            revision.MarkPublished(now);
            edition.Add(part, variant, revision);
        }

        _editions.Add(edition);
        CurrentEditionId = edition.Id;
        Status = FigureStatus.Published;
        PublishedAt = now;
        Changed(now);
        return edition;
    }

    /// <summary>What still stands in the way of publishing; empty when nothing does.</summary>
    public IReadOnlyList<Obstacle> Obstacles() => PublishingObstacles.Of(Title, [.. _parts.Where(p => !p.IsRemoved).Select(PartState.Of)]);

    /// <summary>What publishing now would change for readers.</summary>
    public IReadOnlyList<EditionChange> Changes() => EditionChange.Between(CurrentEdition, [.. Chosen()], _parts);

    public Edition? CurrentEdition => _editions.Find(e => e.Id == CurrentEditionId);

    /// <summary>Takes the figure out of the range. Nothing is deleted: revisions, reports and meshes stay.</summary>
    public void Withdraw(DateTime now)
    {
        if (Status == FigureStatus.Withdrawn) return;
        Status = FigureStatus.Withdrawn;
        Changed(now);
    }

    /// <summary>Brings a withdrawn figure back: with the edition it had, or as a draft.</summary>
    public void Reinstate(DateTime now)
    {
        if (Status != FigureStatus.Withdrawn)
            throw new RuleBrokenException("not-withdrawn", $"“{Title}” is not withdrawn. Nothing was changed.");
        Status = CurrentEditionId is null ? FigureStatus.Draft : FigureStatus.Published;
        Changed(now);
    }

    private IEnumerable<(Part Part, Variant Variant, Revision Revision)> Chosen() => _parts.Where(p => !p.IsRemoved)
        .SelectMany(p => p.Variants.Where(v => !v.IsRemoved && v.Latest is not null).Select(v => (Part: p, Variant: v, Revision: v.Latest!)));

    internal void Changed(DateTime now)
    {
        ChangedAt = now;
        Version++;
    }
}

/// <summary>The words and numbers of a figure. Story, painting notes and cautions are Markdown.</summary>
public sealed record FigureText
{
    public required string Title { get; init; }
    public required double HeightMm { get; init; }

    /// <summary>An SPDX licence identifier or expression, for example <c>CC-BY-4.0</c>.</summary>
    public required string Licence { get; init; }

    public string? Summary { get; init; }

    /// <summary>See <see cref="Figures.Tags"/>.</summary>
    public IReadOnlyList<string>? Tags { get; init; }

    public string? Story { get; init; }
    public string? PaintingNotes { get; init; }

    /// <summary>How sure the design is of what it was modelled after.</summary>
    public string? ReferenceNote { get; init; }

    /// <summary>N of the scale 1:N; null when the figure has none.</summary>
    public double? ScaleDenominator { get; init; }

    public string? Credits { get; init; }
    public string? Cautions { get; init; }
}
