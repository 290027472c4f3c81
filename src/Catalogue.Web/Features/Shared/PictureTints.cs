using Catalogue.Geometry.Pictures;

namespace Catalogue.Web.Features.Shared;

/// <summary>The colours of pictures that the server draws; they stand on light and on dark ground.</summary>
internal static class PictureTints
{
    /// <summary>A part.</summary>
    public static Tint Clay { get; } = Tint.FromHex(0xD2C4AD);

    /// <summary>What marks a place on it.</summary>
    public static Tint Brass { get; } = Tint.FromHex(0xD08A2E);

    /// <summary>By <see cref="ChangeSteps.KindOf"/>: where it was, far off, moved, touched.</summary>
    public static IReadOnlyList<Tint> Changes { get; } = [Clay, Tint.FromHex(0xB4432F), Tint.FromHex(0xD08A2E), Tint.FromHex(0x4C8DA0)];

    /// <summary>The plate it is printed on.</summary>
    public static Tint Plate { get; } = Tint.FromHex(0x6E8B90);
}
