using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Figures;

/// <summary>
/// How a part lies in its file. Parts are modelled where they sit in the assembled figure; the file has the point <paramref name="Anchor"/>
/// of the figure as its origin and is turned by <paramref name="ToFile"/>.
/// </summary>
internal sealed record FilePose(Rotation ToFile, Vec3 Anchor)
{
    /// <summary>As it stands in the figure, only moved.</summary>
    public static FilePose Upright(Vec3 anchor) => new(Rotation.Identity, anchor);

    /// <summary>Laid so that the figure's <paramref name="up"/> points away from the build plate.</summary>
    public static FilePose Lying(Vec3 up, Vec3 anchor) => new(Rotation.BringingToZ(up), anchor);

    /// <summary>The pose that puts the file's shape back into the figure.</summary>
    public DemoPose Assembled => new(ToFile.Inverse(), Anchor);

    /// <summary>A deferred mesh of a shape given in the figure's coordinates.</summary>
    public Func<CancellationToken, TriangleMesh> Mesh(Func<Shape> shape, ContourSettings? settings = null) =>
        cancel => Contour.Of(shape(), settings, cancel).Transformed(ToFile, -ToFile.Apply(Anchor));
}
