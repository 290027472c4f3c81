namespace Catalogue.Model.Figures;

/// <summary>One complete set of revisions of a figure, as shown to readers from one publishing to the next. Immutable.</summary>
public sealed class Edition
{
    private readonly List<EditionEntry> _entries = [];

    private Edition()
    {
    }

    internal Edition(Figure figure, int number, string? note, DateTime now)
    {
        Id = Guid.CreateVersion7();
        FigureId = figure.Id;
        Number = number;
        Note = Text.Optional(note, $"The note", 2_000);
        PublishedAt = now;
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public int Number { get; private set; }
    public string Note { get; private set; } = "";
    public DateTime PublishedAt { get; private set; }
    public IReadOnlyList<EditionEntry> Entries => _entries;

    public bool HoldsExactly(IReadOnlySet<Guid> revisions)
    {
        ArgumentNullException.ThrowIfNull(revisions);
        return _entries.Count == revisions.Count && _entries.TrueForAll(e => revisions.Contains(e.RevisionId));
    }

    internal void Add(Part part, Variant variant, Revision revision) =>
        _entries.Add(new EditionEntry(Id, part.Id, variant.Id, revision.Id));
}

/// <summary>The revision that an edition shows for a variant.</summary>
public sealed record EditionEntry(Guid EditionId, Guid PartId, Guid VariantId, Guid RevisionId);
