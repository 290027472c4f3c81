using System.Text.Json;
using System.Text.Json.Serialization;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Features.Shared;

/// <summary>The section “Look at it closely”: a picture, and what the viewer needs to put a model in its place.</summary>
internal sealed record LookView
{
    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    /// <summary>Tells this section from others on the page; a slug.</summary>
    public required string Id { get; init; }

    /// <summary>Of the section.</summary>
    public string Anchor { get; init; } = "look";

    /// <summary>“Arm, one shape for all, revision 2”.</summary>
    public required string Name { get; init; }

    /// <summary>The revision at the API, without the path the site is served under.</summary>
    public required string Revision { get; init; }

    /// <summary>The picture, without that path; 640 pixels wide.</summary>
    public required string Picture { get; init; }

    public required string PictureWords { get; init; }

    /// <summary>The process that overlays are about; null for the first the shape is made for.</summary>
    public string? Process { get; init; }

    public bool Inches { get; init; }
    public BuildVolume? Volume { get; init; }

    /// <summary>From the file's pose to the one it lies best in that volume.</summary>
    public Rotation? Laid { get; init; }

    public string? FitWords { get; init; }
    public IReadOnlyList<PlacedFinding> Findings { get; init; } = [];

    /// <summary>The finding that the address asks for; null for none, or when it is gone.</summary>
    public PlacedFinding? Asked { get; init; }

    /// <summary>The address asks for a finding that is not there any more.</summary>
    public bool IsGone { get; init; }

    /// <summary>What the module in <c>wwwroot/viewer/part.js</c> reads.</summary>
    public string Data(string pathBase) => JsonSerializer.Serialize(new
    {
        id = Id,
        name = Name,
        shape = pathBase + Revision + "/shape",
        overlays = pathBase + Revision + "/overlays",
        process = Process,
        inches = Inches,
        room = Volume is { } v ? new { round = v.IsRound, width = v.Width, depth = v.IsRound ? v.Width : v.Depth, height = v.Height, margin = v.MarginMm } : null,
        rotation = Laid?.ToRowMajor(),
        fitWords = FitWords,
        findings = Findings.Select(f => new { id = f.Name, message = f.Message, at = new[] { f.At.X, f.At.Y, f.At.Z } }),
        finding = Asked?.Name,
    }, Json);
}

internal sealed record PlacedFinding(string Name, string Message, Vec3 At);
