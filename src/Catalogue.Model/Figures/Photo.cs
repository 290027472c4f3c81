namespace Catalogue.Model.Figures;

/// <summary>A designer's photograph of the figure as somebody built it. It belongs to the figure, like its texts, and changes at once.</summary>
/// <remarks>What is kept is a copy without anything that a camera writes beside the picture, such as where it was taken.</remarks>
public sealed class Photo
{
    public const int MaxWords = 200;

    private Photo()
    {
    }

    internal Photo(Figure figure, string sha256, int width, int height, string? words, int position, DateTime now)
    {
        Id = Guid.CreateVersion7();
        FigureId = figure.Id;
        (Sha256, Width, Height, Position, AddedAt) = (sha256, width, height, position, now);
        Describe(words);
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public int Position { get; internal set; }

    /// <summary>Of the copy that is kept.</summary>
    public string Sha256 { get; private set; } = "";

    /// <summary>Pixels of the copy that is kept.</summary>
    public int Width { get; private set; }

    public int Height { get; private set; }

    /// <summary>What it shows, for those who cannot see it and as its caption.</summary>
    public string Words { get; private set; } = "";

    public DateTime AddedAt { get; private set; }

    internal void Describe(string? words) => Words = Text.Required(words, $"What the photo shows", MaxWords);
}
