using Xunit;

namespace Catalogue.Geometry.Tests;

/// <summary>The folder of public sample files beside the project; it is not part of the repository, so tests that need it are skipped without it.</summary>
internal static class SharedData
{
    private static readonly string? Root = Find();

    /// <summary>The full path of a sample; skips the running test when the samples are not there.</summary>
    public static string PathOf(string relative)
    {
        Assert.SkipWhen(Root is null, "The folder shared/data with the sample files is not beside this project.");
        return Path.Combine(Root!, relative);
    }

    private static string? Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            var candidate = Path.Combine(folder.FullName, "shared", "data");
            if (Directory.Exists(candidate)) return candidate;
        }

        return null;
    }
}
