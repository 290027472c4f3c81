namespace Catalogue.Geometry.Pictures;

/// <summary>Pixels, row after row from the top, red green blue alpha, a byte each; colours are not multiplied by alpha.</summary>
public sealed record Picture(int Width, int Height, byte[] Rgba);

/// <summary>A colour as light: 0 to 1 each, linear.</summary>
public readonly record struct Tint(float Red, float Green, float Blue)
{
    /// <summary>From the six hexadecimal digits that style sheets use (sRGB, IEC 61966-2-1).</summary>
    public static Tint FromHex(uint rgb) => new(Linear(rgb >> 16 & 0xFF), Linear(rgb >> 8 & 0xFF), Linear(rgb & 0xFF));

    private static float Linear(uint value)
    {
        var v = value / 255f;
        return v <= 0.04045f ? v / 12.92f : MathF.Pow((v + 0.055f) / 1.055f, 2.4f);
    }
}
