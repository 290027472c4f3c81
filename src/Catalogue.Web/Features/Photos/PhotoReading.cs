using Catalogue.Model;
using SkiaSharp;

namespace Catalogue.Web.Features.Photos;

/// <summary>A photo as it is kept: upright, of a bounded size, WebP, and nothing of what the camera wrote beside the picture.</summary>
internal sealed record CleanPhoto(byte[] Content, int Width, int Height);

/// <summary>Reads uploaded photos and makes the copies that are kept and shown. Memory stays below 300 MB whatever arrives (60 million pixels of 4 bytes, and a copy of the size that is kept); one at a time is the caller's business.</summary>
internal static class PhotoReading
{
    /// <summary>The largest file taken, bytes.</summary>
    public const long MostBytes = 24 * 1024 * 1024;

    /// <summary>Pixels along the longer side of the copy that is kept.</summary>
    public const int Longest = 2_400;

    private const long MostPixels = 60_000_000;

    /// <exception cref="RuleBrokenException"><c>photo-unreadable</c>, <c>photo-too-large</c>.</exception>
    public static CleanPhoto Read(byte[] file)
    {
        using var codec = Open(file);
        var (width, height) = (codec.Info.Width, codec.Info.Height);
        if ((long)width * height > MostPixels)
        {
            throw new RuleBrokenException("photo-too-large",
                $"The photo has {(long)width * height / 1_000_000} million pixels; {MostPixels / 1_000_000} million are the most. Nothing was kept; make it smaller and send it again.");
        }

        using var small = Within(Decode(codec, Longest), Longest);
        using var kept = Upright(small, codec.EncodedOrigin);
        return new(Encode(kept ?? small, 88), (kept ?? small).Width, (kept ?? small).Height);
    }

    /// <summary>A narrower copy of a kept photo; never a larger one.</summary>
    public static byte[] Narrowed(byte[] kept, int width)
    {
        using var codec = Open(kept);
        using var decoded = Decode(codec, int.MaxValue);
        if (decoded.Width <= width) return kept;
        using var smaller = Resized(decoded, width, Math.Max(1, (int)Math.Round((double)decoded.Height * width / decoded.Width)));
        return Encode(smaller, 82);
    }

    private static SKCodec Open(byte[] file)
    {
        using var data = SKData.CreateCopy(file);
        var codec = SKCodec.Create(data);
        if (codec is { EncodedFormat: SKEncodedImageFormat.Jpeg or SKEncodedImageFormat.Png or SKEncodedImageFormat.Webp }) return codec;
        codec?.Dispose();
        throw Unreadable();
    }

    /// <summary>Decoded no larger than need be: a JPEG is halved while it is read as often as leaves it longer than <paramref name="longest"/>.</summary>
    private static SKBitmap Decode(SKCodec codec, int longest)
    {
        var size = codec.Info.Size;
        for (var eighths = 1; eighths < 8; eighths++)
        {
            var scaled = codec.GetScaledDimensions(eighths / 8f);
            if (Math.Max(scaled.Width, scaled.Height) < longest) continue;
            size = scaled;
            break;
        }

        var bitmap = new SKBitmap(new SKImageInfo(size.Width, size.Height, SKColorType.Rgba8888, SKAlphaType.Premul, SKColorSpace.CreateSrgb()));
        if (codec.GetPixels(bitmap.Info, bitmap.GetPixels()) == SKCodecResult.Success) return bitmap;
        bitmap.Dispose();
        throw Unreadable();
    }

    /// <summary>As it was held: cameras write down how they were turned instead of turning the picture (Exif 2.32, tag Orientation). Null when it lies as it was held.</summary>
    private static SKBitmap? Upright(SKBitmap bitmap, SKEncodedOrigin origin)
    {
        var (w, h) = (bitmap.Width, bitmap.Height);
        SKMatrix? turn = origin switch
        {
            SKEncodedOrigin.TopRight => new(-1, 0, w, 0, 1, 0, 0, 0, 1),
            SKEncodedOrigin.BottomRight => new(-1, 0, w, 0, -1, h, 0, 0, 1),
            SKEncodedOrigin.BottomLeft => new(1, 0, 0, 0, -1, h, 0, 0, 1),
            SKEncodedOrigin.LeftTop => new(0, 1, 0, 1, 0, 0, 0, 0, 1),
            SKEncodedOrigin.RightTop => new(0, -1, h, 1, 0, 0, 0, 0, 1),
            SKEncodedOrigin.RightBottom => new(0, -1, h, -1, 0, w, 0, 0, 1),
            SKEncodedOrigin.LeftBottom => new(0, 1, 0, -1, 0, w, 0, 0, 1),
            _ => null,
        };
        if (turn is not { } matrix) return null;
        var lies = origin >= SKEncodedOrigin.LeftTop;
        var upright = new SKBitmap(bitmap.Info.WithSize(lies ? h : w, lies ? w : h));
        using var canvas = new SKCanvas(upright);
        canvas.Clear(SKColors.Transparent);
        canvas.SetMatrix(matrix);
        canvas.DrawBitmap(bitmap, 0, 0, new SKSamplingOptions(SKFilterMode.Nearest));
        return upright;
    }

    /// <summary>The bitmap itself, or a smaller one in its place.</summary>
    private static SKBitmap Within(SKBitmap bitmap, int longest)
    {
        var scale = (double)longest / Math.Max(bitmap.Width, bitmap.Height);
        if (scale >= 1) return bitmap;
        using (bitmap) return Resized(bitmap, Math.Max(1, (int)Math.Round(bitmap.Width * scale)), Math.Max(1, (int)Math.Round(bitmap.Height * scale)));
    }

    private static SKBitmap Resized(SKBitmap bitmap, int width, int height) =>
        bitmap.Resize(bitmap.Info.WithSize(width, height), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear)) ?? throw Unreadable();

    private static byte[] Encode(SKBitmap bitmap, int quality)
    {
        using var image = SKImage.FromBitmap(bitmap);
        using var data = image.Encode(SKEncodedImageFormat.Webp, quality);
        return data.ToArray();
    }

    private static RuleBrokenException Unreadable() => new("photo-unreadable",
        $"The file is no whole picture in JPEG, PNG or WebP. Nothing was kept; save the photo in one of these and send it again.");
}
