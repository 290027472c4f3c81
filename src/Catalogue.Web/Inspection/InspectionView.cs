using Catalogue.Model.Inspections;
using Catalogue.Model.Repair;

namespace Catalogue.Web.Inspection;

/// <summary>Where an inspection stands, for somebody who waits for it.</summary>
internal sealed record InspectionView(Guid Id, InspectionState State, bool Finished, int Percent, string Stage)
{
    /// <summary>A stable word for what was wrong with the file; absent when nothing was.</summary>
    public string? ErrorCode { get; init; }

    /// <summary>What was wrong, in the language of who asks.</summary>
    public string? Error { get; init; }
    public MeshNumbers? Mesh { get; init; }

    /// <summary>What a gentle repair could change; absent for a sound mesh and where nothing can be mended.</summary>
    public RepairSummary? Repair { get; init; }

    public static InspectionView Of(MeshInspection inspection) =>
        new(inspection.Id, inspection.State, inspection.IsFinished, inspection.ProgressPercent, inspection.Stage)
        {
            ErrorCode = inspection.ErrorCode.Length > 0 ? inspection.ErrorCode : null,
            Error = inspection.ErrorMessage.IsEmpty ? null : inspection.ErrorMessage.ToString(),
            Mesh = inspection.State == InspectionState.Done
                ? new(inspection.Triangles, inspection.OpenEdges, [inspection.SizeXMm, inspection.SizeYMm, inspection.SizeZMm], inspection.VolumeMm3, inspection.AreaMm2)
                : null,
            Repair = inspection.State == InspectionState.Done ? inspection.Facts.Repair : null,
        };
}

/// <summary>The numbers one looks at first: mm, mm³, mm².</summary>
internal sealed record MeshNumbers(int Triangles, int OpenEdges, double[] Size, double VolumeMm3, double AreaMm2);
