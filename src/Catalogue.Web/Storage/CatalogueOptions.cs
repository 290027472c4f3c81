using System.ComponentModel.DataAnnotations;

namespace Catalogue.Web.Storage;

/// <summary>Where the catalogue keeps its data and how much it takes. Section <c>Catalogue</c> of the configuration.</summary>
public sealed class CatalogueOptions
{
    public const string Section = "Catalogue";

    /// <summary>The folder of the SQLite file, the blobs and the keys; relative to where the program was started.</summary>
    [Required]
    public string DataFolder { get; set; } = "data";

    /// <summary>A PostgreSQL connection string; empty = SQLite in the data folder.</summary>
    public string PostgreSql { get; set; } = "";

    /// <summary>The largest mesh file taken, in MiB.</summary>
    [Range(1, 4096)]
    public int MaxUploadMiB { get; set; } = 256;

    /// <summary>The path a reverse proxy serves the site under, such as <c>/puppets</c>; empty = the root.</summary>
    [RegularExpression("^(|/[A-Za-z0-9._~/-]*[A-Za-z0-9._~-])$", ErrorMessage = "PathBase begins with a slash and does not end with one.")]
    public string PathBase { get; set; } = "";

    /// <summary>Which sites may show the viewer of a figure or part in a frame, as a content policy lists sources: <c>*</c> = all, <c>'none'</c> = none. No other page may be framed.</summary>
    [RegularExpression("^[^;,\\s]+( [^;,\\s]+)*$", ErrorMessage = "FramedBy lists sites with single spaces between them, such as https://club.example; or * or 'none'.")]
    public string FramedBy { get; set; } = "*";

    /// <summary>Reverse proxies on other machines whose X-Forwarded-* headers are believed: addresses, or networks such as <c>10.0.0.0/8</c>. This machine's own always are.</summary>
    public string[] TrustedProxies { get; set; } = [];

    /// <summary>How many reports one address may hand in within a minute; a club evening shares one.</summary>
    [Range(1, 10_000)]
    public int ReportsPerMinute { get; set; } = 20;

    /// <summary>How many meshes are inspected at the same time; 0 = one per processor core.</summary>
    [Range(0, 64)]
    public int InspectionWorkers { get; set; }

    /// <summary>True lets this process serve pages only and leave inspections to others.</summary>
    public bool ServeOnly { get; set; }

    /// <summary>How often one address may try to sign in, in a minute.</summary>
    [Range(1, 100_000)]
    public int SignInsPerMinute { get; set; } = 10;

    /// <summary>How many meshes one address may have inspected in a minute without an account.</summary>
    [Range(1, 100_000)]
    public int InspectionsPerMinute { get; set; } = 30;

    /// <summary>The largest mesh inspected without an account, in MiB.</summary>
    [Range(1, 4096)]
    public int MaxInspectionMiB { get; set; } = 64;

    public bool MayBeFramed => FramedBy != "'none'";
    public long MaxInspectionBytes => MaxInspectionMiB * 1024L * 1024L;
    public long MaxUploadBytes => MaxUploadMiB * 1024L * 1024L;
    public int EffectiveWorkers => InspectionWorkers > 0 ? InspectionWorkers : Environment.ProcessorCount;
    public string FullDataFolder => Path.GetFullPath(DataFolder);
    public string SqliteFile => Path.Combine(FullDataFolder, "catalogue.db");
    public string BlobFolder => Path.Combine(FullDataFolder, "blobs");
    public string PictureFolder => Path.Combine(FullDataFolder, "pictures");
    public string OrientationFolder => Path.Combine(FullDataFolder, "orientations");
    public string ViewerFolder => Path.Combine(FullDataFolder, "viewer");
    public string KeyFolder => Path.Combine(FullDataFolder, "keys");
}
