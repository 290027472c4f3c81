namespace Catalogue.Web.Features.Shared;

/// <summary>The library that draws in the browser: restored by the build, and left out where that had no Node.js. Then pictures serve.</summary>
internal sealed partial class ViewerLibrary
{
    private const string Module = "lib/three/three.module.js";

    public ViewerLibrary(IWebHostEnvironment site, ILogger<ViewerLibrary> log)
    {
        IsThere = site.WebRootFileProvider.GetFileInfo(Module).Exists;
        if (!IsThere) Missing(log);
    }

    public bool IsThere { get; }

    [LoggerMessage(Level = LogLevel.Warning, Message = "The library of the 3D viewer is missing, so pages show pictures only. Install Node.js with npm and build again: the build restores it.")]
    private static partial void Missing(ILogger log);
}
