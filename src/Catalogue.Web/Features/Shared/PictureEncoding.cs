using Catalogue.Geometry.Pictures;
using SkiaSharp;

namespace Catalogue.Web.Features.Shared;

/// <summary>A drawn picture as a file.</summary>
internal static class PictureEncoding
{
    /// <param name="format"><c>png</c>; anything else is WebP.</param>
    public static byte[] Encode(Picture picture, string format)
    {
        ArgumentNullException.ThrowIfNull(picture);
        var info = new SKImageInfo(picture.Width, picture.Height, SKColorType.Rgba8888, SKAlphaType.Unpremul);
        using var image = SKImage.FromPixelCopy(info, picture.Rgba);
        using var data = format == "png" ? image.Encode(SKEncodedImageFormat.Png, 100) : image.Encode(SKEncodedImageFormat.Webp, 82);
        return data.ToArray();
    }
}
