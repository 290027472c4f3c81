using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Comparison;

/// <summary>What changed from one mesh to another, as it is stored and answered. Lengths mm, areas mm², volumes mm³, places in the files' own coordinates.</summary>
/// <remarks>Meshes are compared where they lie: a part that was moved or turned deviates by as much.</remarks>
public sealed record MeshChange
{
    /// <summary>How far the old surface is from the new one: large where something was taken away or moved.</summary>
    public required Deviation BeforeToAfter { get; init; }

    /// <summary>How far the new surface is from the old one: large where something was added or moved.</summary>
    public required Deviation AfterToBefore { get; init; }

    /// <summary>New extent less the old along x, y, z.</summary>
    public required double[] SizeMm { get; init; }

    /// <summary>New volume less the old; absent when one of the two surfaces is open and encloses none.</summary>
    public double? VolumeMm3 { get; init; }

    /// <summary>New area less the old.</summary>
    public required double AreaMm2 { get; init; }

    public required SurfaceShape Before { get; init; }
    public required SurfaceShape After { get; init; }

    /// <summary>The one of both ways with the larger deviation.</summary>
    public Deviation Largest() => BeforeToAfter.LargestMm > AfterToBefore.LargestMm ? BeforeToAfter : AfterToBefore;

    /// <summary>No point of either surface is farther than this from the other, mm.</summary>
    public double WithinMm() => Math.Max(BeforeToAfter.LargestMm + BeforeToAfter.ErrorBoundMm, AfterToBefore.LargestMm + AfterToBefore.ErrorBoundMm);

    public static MeshChange Of(RevisionComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        return new()
        {
            BeforeToAfter = Deviation.Of(comparison.BeforeToAfter),
            AfterToBefore = Deviation.Of(comparison.AfterToBefore),
            SizeMm = Rounded(comparison.Size),
            VolumeMm3 = comparison is { Before.Closed: true, After.Closed: true } ? Rounded(comparison.VolumeMm3) : null,
            AreaMm2 = Rounded(comparison.AreaMm2),
            Before = SurfaceShape.Of(comparison.Before),
            After = SurfaceShape.Of(comparison.After),
        };
    }

    internal static double[] Rounded(Vec3 v) => [Rounded(v.X), Rounded(v.Y), Rounded(v.Z)];

    /// <summary>To a millionth: far below what single precision holds of a part.</summary>
    internal static double Rounded(double value) => Math.Round(value, 6) + 0.0; // + 0.0 turns −0 into 0.
}

/// <summary>How far one surface is from another, one way.</summary>
/// <param name="LargestMm">A deviation that occurs. No point deviates by more than this and <paramref name="ErrorBoundMm"/>.</param>
/// <param name="At">The point of the first surface that deviates so far.</param>
/// <param name="To">The point of the other surface nearest to it.</param>
/// <param name="MeanMm">Mean over the area of the first surface, estimated from samples.</param>
/// <param name="MeanErrorMm">Standard error of that estimate.</param>
public sealed record Deviation(double LargestMm, double ErrorBoundMm, double[] At, double[] To, double MeanMm, double MeanErrorMm)
{
    public static Deviation Of(SurfaceDeviation deviation)
    {
        ArgumentNullException.ThrowIfNull(deviation);
        return new(MeshChange.Rounded(deviation.Largest), MeshChange.Rounded(deviation.ErrorBound), MeshChange.Rounded(deviation.At), MeshChange.Rounded(deviation.To),
            MeshChange.Rounded(deviation.Mean), MeshChange.Rounded(deviation.MeanError));
    }
}

/// <summary>How a surface hangs together.</summary>
/// <param name="Shells">Connected pieces of surface.</param>
/// <param name="Voids">Those that are holes inside material.</param>
/// <param name="Handles">Holes that go through.</param>
/// <param name="Closed">No open edges.</param>
public sealed record SurfaceShape(int Shells, int Voids, int Handles, bool Closed)
{
    public static SurfaceShape Of(Topology topology) => new(topology.Shells, topology.Voids, topology.Handles, topology.Closed);
}
