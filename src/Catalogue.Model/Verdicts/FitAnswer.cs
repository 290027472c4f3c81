using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Model.Verdicts;

/// <summary>Whether a part goes into a volume: the answer pages show and verdicts rest on.</summary>
/// <param name="Fits">In some rotation, margin kept.</param>
/// <param name="SpareMm">The smallest margin in the best orientation; negative: that much too long in every orientation.</param>
/// <param name="Size">Width, depth and height in that orientation.</param>
/// <param name="Rotation">From the file's pose to that orientation.</param>
/// <param name="NeedsTurning">True when it fits, but along none of its file's axes.</param>
public sealed record FitAnswer(bool Fits, double SpareMm, Vec3 Size, Rotation Rotation, bool NeedsTurning)
{
    /// <summary>False when the spare is a lower bound from the fit profile, less than the best there is by the profile's slack at most.</summary>
    public bool IsExact { get; init; } = true;

    /// <param name="fit">The best rotation found.</param>
    /// <param name="fileSize">The part's lengths along the file's own axes, in mm.</param>
    public static FitAnswer Of(FitResult fit, Vec3 fileSize, BuildVolume volume)
    {
        ArgumentNullException.ThrowIfNull(fit);
        return new(fit.Fits, fit.SpareMm, fit.Size, fit.Rotation, fit.Fits && !FitsAlongItsAxes(fileSize, volume));
    }

    /// <param name="fit">From a profile: its spare may be less than the best, never more.</param>
    /// <param name="fileSize">The part's lengths along the file's own axes, in mm.</param>
    public static FitAnswer Of(ProfileFit fit, Vec3 fileSize, BuildVolume volume) =>
        new(fit.Fits, fit.SpareMm, fit.Size, fit.Rotation, fit.Fits && !FitsAlongItsAxes(fileSize, volume)) { IsExact = false };

    /// <summary>The same answer for the part and the room multiplied: of a part printed at a scale, worked out for the part as drawn in <see cref="BuildVolume.At"/>.</summary>
    public FitAnswer Scaled(double factor) => this with { SpareMm = SpareMm * factor, Size = Size * factor };

    /// <summary>True when a part goes in along its file's own axes, perhaps laid on another side.</summary>
    /// <param name="size">Its lengths along them, in mm.</param>
    public static bool FitsAlongItsAxes(Vec3 size, BuildVolume volume)
    {
        double[] part = [size.X, size.Y, size.Z];
        if (volume.IsRound)
        {
            return Enumerable.Range(0, 3).Any(up =>
                part[up] <= volume.UsableHeight && double.Hypot(part[(up + 1) % 3], part[(up + 2) % 3]) <= volume.UsableWidth);
        }

        double[] room = [volume.UsableWidth, volume.UsableDepth, volume.UsableHeight];
        Array.Sort(part);
        Array.Sort(room);
        return part[0] <= room[0] && part[1] <= room[1] && part[2] <= room[2];
    }
}
