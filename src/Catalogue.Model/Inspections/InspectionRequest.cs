using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Inspections;

/// <summary>What is asked of an inspection besides the mesh itself.</summary>
public sealed record InspectionRequest
{
    /// <summary>The unit stated by the caller; null = the file's own, or guessed with a warning.</summary>
    public LengthUnit? Unit { get; init; }

    /// <summary>The processes to judge on, in the order they are reported.</summary>
    public IReadOnlyList<Process> Processes { get; init; } = [];

    /// <summary>A build volume to fit into; null = fit is not reported.</summary>
    public BuildVolume? Volume { get; init; }

    /// <summary>True when the facts are kept to answer for volumes nobody has asked about yet: then the fit profile is made too.</summary>
    public bool ForRange { get; init; }

    /// <summary>The file's name, for the report only.</summary>
    public string? File { get; init; }

    /// <summary>The hash of the content, for the report only.</summary>
    public string? Sha256 { get; init; }
}

/// <summary>The facts of the mesh that is built, and the report of the whole file.</summary>
public sealed record InspectionResult(MeshFacts Facts, InspectionReport Report);

/// <summary>Tells how far an inspection is: 0 to 100, and what it is doing.</summary>
public delegate void InspectionStage(int percent, string stage);
