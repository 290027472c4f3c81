using Catalogue.Geometry.Details;

namespace Catalogue.Model.Inspections;

/// <summary>Fine relief, as reports say it: at each size what lies below it.</summary>
/// <param name="Low">Edges of relief by height.</param>
/// <param name="Ridges">Raised lines by width.</param>
/// <param name="Grooves">Engraved lines by width.</param>
public sealed record DetailReport(IReadOnlyList<DetailStepReport> Low, IReadOnlyList<DetailStepReport> Ridges, IReadOnlyList<DetailStepReport> Grooves)
{
    public static DetailReport Of(DetailMeasures details)
    {
        ArgumentNullException.ThrowIfNull(details);
        return new(Steps(details.Low), Steps(details.Ridges), Steps(details.Grooves));
    }

    private static IReadOnlyList<DetailStepReport> Steps(IReadOnlyList<DetailStep> table) =>
    [
        .. table.Where(s => s.Count > 0).Select(s => new DetailStepReport(
            s.BelowMm, s.Count, s.LengthMm, s.AreaMm2, [.. s.Largest.Select(f => new DetailFeatureReport(f.WidthMm, f.HeightMm, f.LengthMm, f.AreaMm2, [f.At.X, f.At.Y, f.At.Z]))])),
    ];
}

public sealed record DetailStepReport(double BelowMm, int Count, double LengthMm, double AreaMm2, IReadOnlyList<DetailFeatureReport> Largest);

/// <param name="WidthMm">Absent for the edge of something broad.</param>
public sealed record DetailFeatureReport(double? WidthMm, double HeightMm, double LengthMm, double AreaMm2, double[] At);
