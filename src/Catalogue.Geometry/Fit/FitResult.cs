using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>What a fit search can say.</summary>
public enum FitDecision
{
    /// <summary>The rotation given fits; measured on every vertex of the hull.</summary>
    Fits,

    /// <summary>No rotation fits: the largest possible spare is proven to be at most 0.05 mm.</summary>
    DoesNotFit,

    /// <summary>No rotation was found and none could be ruled out within the work allowed.</summary>
    Undecided,
}

/// <summary>Whether a part goes into a build volume in some rotation, and by how much.</summary>
/// <param name="Decision">Fits, does not, or could not be decided.</param>
/// <param name="SpareMm">
/// The best rotation's smallest difference, over the axes, between the room and the part. Negative when nothing fits: then the part is that much too
/// long in every orientation, give or take <paramref name="ErrorBoundMm"/>.
/// </param>
/// <param name="ErrorBoundMm">No rotation spares more than <c>SpareMm + ErrorBoundMm</c>: proven by exhausting all rotations.</param>
/// <param name="Size">The part's lengths along the volume's width, depth and height in that rotation; on a round plate the footprint's diameter twice, then the height.</param>
/// <param name="Rotation">Turns the part as the file has it into the pose that was found.</param>
public sealed record FitResult(FitDecision Decision, double SpareMm, double ErrorBoundMm, Vec3 Size, Rotation Rotation)
{
    public bool Fits => Decision == FitDecision.Fits;
}
