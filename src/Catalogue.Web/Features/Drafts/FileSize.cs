namespace Catalogue.Web.Features.Drafts;

/// <summary>Sizes of files in words: kB and MB of a thousand (IEC 80000-13).</summary>
internal static class FileSize
{
    public static string Words(long bytes) => bytes switch
    {
        < 1_000 => bytes == 1 ? T($"1\u00A0byte") : T($"{bytes}\u00A0bytes"),
        < 1_000_000 => T($"{bytes / 1e3:0.#}\u00A0kB"),
        _ => T($"{bytes / 1e6:0.#}\u00A0MB"),
    };
}
