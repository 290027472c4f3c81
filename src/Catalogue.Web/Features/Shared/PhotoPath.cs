using System.Globalization;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Shared;

/// <summary>Addresses of photos, below the path the site is served under.</summary>
internal static class PhotoPath
{
    /// <summary>Widths, pixels.</summary>
    public static readonly int[] Sizes = [480, 960, 1_920];

    public static string Of(string figure, Photo photo, int size) => string.Create(CultureInfo.InvariantCulture, $"/figures/{figure}/photos/{photo.Id}/{size}.webp");

    /// <summary>For <c>srcset</c>: every width that the photo has.</summary>
    public static string Set(string pathBase, string figure, Photo photo) => string.Join(", ", Sizes.Where((s, i) => i == 0 || Sizes[i - 1] < photo.Width)
        .Select(s => string.Create(CultureInfo.InvariantCulture, $"{pathBase}{Of(figure, photo, s)} {Math.Min(s, photo.Width)}w")));
}

/// <summary>A photo as programs read it.</summary>
/// <param name="Words">What it shows.</param>
/// <param name="Url">The widest copy, WebP.</param>
internal sealed record PhotoView(Guid Id, string Words, int Width, int Height, string Url, DateTime AddedAt)
{
    public static PhotoView Of(Figure figure, Photo photo) => new(photo.Id, photo.Words, photo.Width, photo.Height, PhotoPath.Of(figure.Slug, photo, PhotoPath.Sizes[^1]), photo.AddedAt);

    public static IReadOnlyList<PhotoView> Of(Figure figure) => [.. figure.Photos.OrderBy(p => p.Position).Select(p => Of(figure, p))];
}
