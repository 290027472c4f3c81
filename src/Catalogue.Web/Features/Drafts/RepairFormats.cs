using System.Text.Json.Serialization;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Formats.Stl;
using Catalogue.Geometry.Formats.ThreeMf;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Model.Repair;

namespace Catalogue.Web.Features.Drafts;

/// <summary>The formats a repaired mesh is written in, always in millimetres.</summary>
internal enum RepairFormat
{
    /// <summary>Binary STL.</summary>
    Stl,

    [JsonStringEnumMemberName("3mf")]
    ThreeMf,
}

/// <summary>Chooses the format, names and writes the file.</summary>
internal static class RepairFormats
{
    /// <summary>Fewer are no 3MF object.</summary>
    private const int LeastThreeMfTriangles = 4;

    public static RepairFormat Chosen(RepairFormat? asked, RepairProposal proposal) =>
        proposal.Mesh.TriangleCount < LeastThreeMfTriangles ? RepairFormat.Stl
        : asked ?? (proposal.Format == MeshFormat.ThreeMf ? RepairFormat.ThreeMf : RepairFormat.Stl);

    /// <summary><c>arm.obj</c> becomes <c>arm-repaired.stl</c>.</summary>
    public static string NameOf(string original, RepairFormat format)
    {
        const string Repaired = "-repaired";
        var stem = Path.GetFileNameWithoutExtension(original);
        return $"{(stem.EndsWith(Repaired, StringComparison.OrdinalIgnoreCase) ? stem : stem + Repaired)}.{Words.Of(format)}";
    }

    public static void Write(RepairFormat format, TriangleMesh mesh, string name, int revision, Stream to, CancellationToken cancel)
    {
        if (format == RepairFormat.ThreeMf) ThreeMfWriter.Write(to, [new(name, mesh)], [ThreeMfPlacement.AsIs(0)], null, cancel);
        else StlWriter.Write(mesh, to, $"repaired from revision {revision}", cancel);
    }
}
