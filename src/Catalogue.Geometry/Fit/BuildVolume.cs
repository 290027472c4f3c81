using System.Globalization;

namespace Catalogue.Geometry.Fit;

/// <summary>The room a printer has: width × depth × height, or a round plate's diameter × height, in mm.</summary>
/// <remarks>As text, locale-proof: three numbers are rectangular (<c>64x114x152</c>), two are round (<c>200x300</c>). The margin is not part of it.</remarks>
public readonly record struct BuildVolume
{
    private const double Largest = 100_000;

    private BuildVolume(double width, double depth, double height, bool isRound, double margin)
    {
        (Width, Depth, Height, IsRound, MarginMm) = (Checked(width), Checked(depth), Checked(height), isRound, margin);
        if (!(margin >= 0 && margin < Largest)) throw new ArgumentOutOfRangeException(nameof(margin), margin, "A margin is zero or more millimetres.");
        static double Checked(double length) => length is > 0 and <= Largest
            ? length
            : throw new ArgumentOutOfRangeException(nameof(length), length, "Each length is more than 0 and at most 100 000 mm.");
    }

    public double Width { get; }
    public double Depth { get; }
    public double Height { get; }

    /// <summary>Then width and depth are both the diameter.</summary>
    public bool IsRound { get; }

    /// <summary>Kept free on every side: each length loses it twice.</summary>
    public double MarginMm { get; }

    public double UsableWidth => Math.Max(0, Width - (2 * MarginMm));
    public double UsableDepth => Math.Max(0, Depth - (2 * MarginMm));
    public double UsableHeight => Math.Max(0, Height - (2 * MarginMm));

    public static BuildVolume Rectangular(double width, double depth, double height, double margin = 0) => new(width, depth, height, false, margin);

    public static BuildVolume Round(double diameter, double height, double margin = 0) => new(diameter, diameter, height, true, margin);

    public BuildVolume WithMargin(double margin) => new(Width, Depth, Height, IsRound, margin);

    /// <summary>The room there is in a part's own millimetres when the part is printed at a scale: all lengths and the margin divided by it.</summary>
    /// <param name="scale">Above 0; 0.8 for 80 %.</param>
    public BuildVolume At(double scale) => new(Width / scale, Depth / scale, Height / scale, IsRound, MarginMm / scale);

    /// <summary>Reads <c>WxDxH</c> or <c>DxH</c>: numbers with a point, an x or × between them, spaces allowed.</summary>
    public static bool TryParse(string? text, out BuildVolume volume)
    {
        volume = default;
        if (text is null || text.Length > 100) return false;
        var parts = text.Split(['x', 'X', '×'], StringSplitOptions.TrimEntries);
        if (parts.Length is not (2 or 3)) return false;
        Span<double> lengths = stackalloc double[3];
        for (var i = 0; i < parts.Length; i++)
        {
            if (!double.TryParse(parts[i], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out lengths[i])
                || lengths[i] is not (> 0 and <= Largest))
            {
                return false;
            }
        }

        volume = parts.Length == 3 ? Rectangular(lengths[0], lengths[1], lengths[2]) : Round(lengths[0], lengths[1]);
        return true;
    }

    /// <exception cref="FormatException">The text is not a build volume; the message shows the two forms.</exception>
    public static BuildVolume Parse(string? text) => TryParse(text, out var volume)
        ? volume
        : throw new FormatException($"\"{text}\" is not a build volume. Write width x depth x height in millimetres, as 64x114x152, or for a round plate diameter x height, as 200x300.");

    /// <summary>The text that <see cref="Parse"/> reads: <c>64x114x152</c>, <c>200x300</c>.</summary>
    public override string ToString() => IsRound
        ? string.Create(CultureInfo.InvariantCulture, $"{Width}x{Height}")
        : string.Create(CultureInfo.InvariantCulture, $"{Width}x{Depth}x{Height}");
}
