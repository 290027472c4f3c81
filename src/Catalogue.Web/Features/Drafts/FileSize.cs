using System.Globalization;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Sizes of files in words: kB and MB of a thousand (IEC 80000-13).</summary>
internal static class FileSize
{
    public static string Words(long bytes) => bytes switch
    {
        < 1_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes}\u00A0bytes"),
        < 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0.#}\u00A0kB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.#}\u00A0MB"),
    };
}
