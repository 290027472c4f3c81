namespace Catalogue.Web;

/// <summary>The folder of style sheets, scripts and icons: beside the published program, or at the root of the working copy.</summary>
internal static class WebRoot
{
    public static string Find()
    {
        var published = Path.Combine(AppContext.BaseDirectory, "wwwroot");
        if (Directory.Exists(published)) return published;
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Catalogue.sln"))) return Path.Combine(folder.FullName, "wwwroot");
        }

        return published;
    }
}
