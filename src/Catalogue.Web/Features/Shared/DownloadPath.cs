using System.Globalization;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Shared;

/// <summary>Where a revision's file is downloaded, and under which name it arrives.</summary>
internal static class DownloadPath
{
    private static readonly string[] Extensions = ["stl", "obj", "3mf"];

    public static string Of(string figure, string part, string variant, Revision revision)
    {
        ArgumentNullException.ThrowIfNull(revision);
        return string.Create(CultureInfo.InvariantCulture,
            $"/figures/{figure}/parts/{part}/{variant}/{revision.Number}/{NameOf(figure, part, variant, revision)}");
    }

    /// <summary>A name that still says what it is among a hundred other files: <c>lamplighter-torso-resin-r2.stl</c>. Made of slugs, so safe everywhere.</summary>
    public static string NameOf(string figure, string part, string variant, Revision revision)
    {
        ArgumentNullException.ThrowIfNull(revision);
        var given = Path.GetExtension(revision.FileName).TrimStart('.').ToLowerInvariant();
        var extension = Extensions.Contains(given) ? given : "stl";
        return string.Create(CultureInfo.InvariantCulture, $"{figure}-{part}-{variant}-r{revision.Number}.{extension}");
    }

    /// <summary><c>640 kB</c>, <c>4.2 MB</c>.</summary>
    public static string SizeOf(long bytes) => bytes switch
    {
        < 1_000 => T($"{bytes} bytes"),
        < 1_000_000 => T($"{bytes / 1e3:0} kB"),
        _ => T($"{bytes / 1e6:0.0} MB"),
    };
}
