namespace Catalogue.Browser.Tests;

/// <summary>Where things lie in the repository.</summary>
internal static class Workplace
{
    /// <summary>The folder with the solution.</summary>
    public static string Root { get; } = Find();

    /// <summary>The git-ignored folder of what tests leave to be looked at.</summary>
    public static string Out(string name) => Directory.CreateDirectory(Path.Combine(Root, "out", name)).FullName;

    private static string Find()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Catalogue.sln"))) folder = folder.Parent;
        return folder?.FullName ?? AppContext.BaseDirectory;
    }
}
