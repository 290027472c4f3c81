using Catalogue.Model.Comparison;

namespace Catalogue.Web.Api;

/// <summary>What changed in a revision since the one before it.</summary>
/// <param name="Since">The number of the earlier revision.</param>
/// <param name="SameMesh">True when both are the same file; then there is no more to say.</param>
/// <param name="Mesh">How far the surfaces are apart, and what changed in size, volume and shape.</param>
internal sealed record RevisionChangeView(int Since, bool SameMesh, MeshChange? Mesh)
{
    /// <summary>Null where there is nothing to compare with, and while the comparison is still to come.</summary>
    public static RevisionChangeView? Of(RevisionChange? change) =>
        change is null || (!change.SameMesh && change.Change is null) ? null : new(change.Since, change.SameMesh, change.Change);
}
