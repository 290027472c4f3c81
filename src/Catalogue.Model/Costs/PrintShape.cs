using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Costs;

/// <summary>What of a part decides material and time. mm, mm², mm³.</summary>
/// <param name="HeightMm">Along which layers follow each other.</param>
/// <param name="SupportMm3">Room under what hangs over; supports fill a share of it.</param>
/// <param name="Turned">True when the height is that of the pose it fits the printer in, because it does not fit as the file lies.</param>
public sealed record PrintShape(double VolumeMm3, double AreaMm2, double HeightMm, double SupportMm3, bool Turned = false)
{
    /// <summary>
    /// As the file lies, or, where it does not fit the printer that way, as high as in the pose that does. What hangs over is that of the file's own pose: from the process's
    /// steepest overhang on, less the bridges it spans; for resin from <see cref="OverhangMeasures.ReferenceDegrees"/> on; powder holds everything up.
    /// </summary>
    /// <returns>Null where it is not clear what is inside.</returns>
    public static PrintShape? Of(MeshFacts facts, Process process, BuildVolume? volume = null, FitAnswer? fit = null)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(process);
        if (!facts.Closed || !(facts.VolumeMm3 > 0)) return null;
        var turned = volume is { } room && fit is { Fits: true } && !Stands(facts.Size, room);
        return new(facts.VolumeMm3, facts.AreaMm2, turned ? fit!.Size.Z : facts.Size.Z, facts.Overhangs is { } overhangs ? Room(overhangs, process) : 0, turned);
    }

    private static double Room(OverhangMeasures overhangs, Process process)
    {
        if (ProcessCode.Category(process.Code) == "VPP") return overhangs.SupportVolumeAt(OverhangMeasures.ReferenceDegrees);
        if (process.Limit(LimitKey.OverhangAngle) is not { } angle) return 0;
        var free = process.Limit(LimitKey.BridgeLength) is { } bridge ? overhangs.Bridges.Where(b => b.SpanMm <= bridge.Value).Sum(b => b.SupportVolumeMm3) : 0;
        return Math.Max(0, overhangs.SupportVolumeAt(angle.Value) - free);
    }

    /// <summary>Upright as the file lies, turned about the upright by a right angle at most.</summary>
    private static bool Stands(Vec3 size, BuildVolume room)
    {
        if (size.Z > room.UsableHeight) return false;
        if (room.IsRound) return double.Hypot(size.X, size.Y) <= room.UsableWidth;
        return Math.Min(size.X, size.Y) <= Math.Min(room.UsableWidth, room.UsableDepth) && Math.Max(size.X, size.Y) <= Math.Max(room.UsableWidth, room.UsableDepth);
    }
}
