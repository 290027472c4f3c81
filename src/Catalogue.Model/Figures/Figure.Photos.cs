namespace Catalogue.Model.Figures;

/// <content>Photographs of the figure.</content>
public sealed partial class Figure
{
    /// <summary>More than a page wants to show.</summary>
    public const int MostPhotos = 12;

    private readonly List<Photo> _photos = [];

    public IReadOnlyList<Photo> Photos => _photos;

    /// <param name="sha256">Of the copy that is kept.</param>
    /// <param name="words">What it shows.</param>
    /// <exception cref="RuleBrokenException"><c>photos-full</c>, <c>photo-there</c>, <c>text-missing</c>, <c>text-too-long</c>.</exception>
    public Photo AddPhoto(string sha256, int width, int height, string? words, DateTime now)
    {
        if (_photos.Exists(p => p.Sha256 == sha256))
            throw new RuleBrokenException("photo-there", $"“{Title}” shows this photo already. Nothing was added.");
        if (_photos.Count >= MostPhotos)
            throw new RuleBrokenException("photos-full", $"“{Title}” has {MostPhotos} photos, which is the most. Nothing was added; take one away first.");
        var photo = new Photo(this, sha256, width, height, words, _photos.Count == 0 ? 1 : _photos.Max(p => p.Position) + 1, now);
        _photos.Add(photo);
        Changed(now);
        return photo;
    }

    /// <exception cref="RuleBrokenException"><c>not-found</c>.</exception>
    public Photo PhotoOf(Guid id) => _photos.Find(p => p.Id == id)
        ?? throw new RuleBrokenException("not-found", $"“{Title}” has no such photo. It may have been taken away.");

    public void DescribePhoto(Photo photo, string? words, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(photo);
        photo.Describe(words);
        Changed(now);
    }

    /// <summary>Puts a photo before all others: the first is the one that is seen first.</summary>
    public void ShowFirst(Photo photo, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(photo);
        var place = 1;
        foreach (var other in _photos.OrderBy(p => p != photo).ThenBy(p => p.Position).ToList()) other.Position = place++;
        Changed(now);
    }

    public void RemovePhoto(Photo photo, DateTime now)
    {
        _photos.Remove(photo);
        Changed(now);
    }
}
