using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using CsCheck;
using Xunit;

namespace Catalogue.Geometry.Tests.Measures;

/// <summary>What must hold of the measures of any solid, however it is turned, moved or written down.</summary>
public sealed class MeshMeasuresProperties
{
    private static readonly Gen<TriangleMesh> Lump =
        from radii in Gen.Double[2, 40].Array[42]
        from stretch in Gen.Double[0.1, 3].Array[3]
        select Stretched(radii, stretch);

    private static readonly Gen<TriangleMesh> Part = Gen.OneOf(
        Lump,
        Gen.Select(Gen.Double[0.01, 100], Gen.Double[0.01, 100], Gen.Double[0.01, 100], Solids.Box),
        Gen.Select(Gen.Double[10, 30], Gen.Double[1, 9], (major, minor) => Solids.Torus(major, minor, 24, 12)),
        Gen.Select(Lump, Lump, (a, b) => Solids.Together(a, b.Transformed(Rotation.Identity, new Vec3(300, 0, 0)))));

    private static readonly Gen<Vec3> Direction =
        Gen.Double[-1, 1].Array[3].Select(d => new Vec3(d[0], d[1], d[2])).Where(d => d.Length > 0.1);

    private static readonly Gen<Vec3> Shift = Gen.Double[-500, 500].Array[3].Select(d => new Vec3(d[0], d[1], d[2]));

    [Fact]
    public void Turning_and_moving_change_nothing_beyond_the_rounding_of_the_coordinates() =>
        Gen.Select(Part, Direction, Gen.Double[0, Math.PI], Shift).Sample((mesh, axis, angle, shift) =>
        {
            var turn = Rotation.About(axis, angle);
            var moved = mesh.Transformed(turn, shift);
            var (before, after) = (MeshMeasures.Of(mesh), MeshMeasures.Of(moved));

            // Each vertex is off by at most half a unit in the last place per coordinate; a volume is then off by at most area × that.
            var rounding = Math.Sqrt(3) * Math.Pow(2, -24) * Farthest(moved);
            var reach = mesh.Bounds.Size.Length;
            Assert.Equal(before.VolumeMm3, after.VolumeMm3, 1.1 * before.AreaMm2 * rounding);
            Assert.Equal(before.AreaMm2, after.AreaMm2, 3 * rounding * EdgeLengths(mesh));
            var slack = 1.1 * rounding * (1 + (2 * before.AreaMm2 * reach / before.VolumeMm3));
            Assert.InRange(Vec3.Distance(turn.Apply(before.Centroid) + shift, after.Centroid), 0, slack);

            // The trace of the tensor does not depend on the axes.
            Assert.Equal(Trace(before), Trace(after), 6 * before.AreaMm2 * rounding * reach * reach);
        }, iter: 300, threads: 1);

    [Fact]
    public void The_order_of_triangles_corners_and_vertices_does_not_matter() =>
        Gen.Select(Part, Gen.Int).Sample((mesh, seed) =>
        {
            var (before, after) = (MeshMeasures.Of(mesh), MeshMeasures.Of(AnyMesh.Shuffled(mesh, seed)));
            var reach = mesh.Bounds.Size.Length;
            Assert.Equal(before.VolumeMm3, after.VolumeMm3, 1e-13 * before.AreaMm2 * reach);
            Assert.Equal(before.AreaMm2, after.AreaMm2, 1e-13 * before.AreaMm2);
            Assert.InRange(Vec3.Distance(before.Centroid, after.Centroid), 0, 1e-12 * before.AreaMm2 * reach * reach / before.VolumeMm3);
        }, iter: 300, threads: 1);

    [Fact]
    public void Turning_a_solid_inside_out_changes_only_the_sign() =>
        Part.Sample(mesh =>
        {
            var (before, after) = (MeshMeasures.Of(mesh), MeshMeasures.Of(Solids.Inverted(mesh)));
            Assert.Equal(before.VolumeMm3, -after.VolumeMm3, 1e-13 * before.AreaMm2 * mesh.Bounds.Size.Length);
            Assert.Equal(before.AreaMm2, after.AreaMm2, 1e-13 * before.AreaMm2);
        }, iter: 100, threads: 1);

    [Fact]
    public void Doubling_the_size_multiplies_volume_by_eight_and_area_by_four_exactly() =>
        Part.Sample(mesh =>
        {
            var (before, after) = (MeshMeasures.Of(mesh), MeshMeasures.Of(mesh.Scaled(2)));
            Assert.Equal(8 * before.VolumeMm3, after.VolumeMm3);
            Assert.Equal(4 * before.AreaMm2, after.AreaMm2);
        }, iter: 100, threads: 1);

    [Fact]
    public void Volumes_of_separate_parts_add_up() =>
        Gen.Select(Lump, Lump, Shift).Sample((a, b, shift) =>
        {
            var apart = b.Transformed(Rotation.Identity, shift + new Vec3(2000, 0, 0));
            var (one, two, both) = (MeshMeasures.Of(a), MeshMeasures.Of(apart), MeshMeasures.Of(Solids.Together(a, apart)));
            Assert.Equal(one.VolumeMm3 + two.VolumeMm3, both.VolumeMm3, 1e-12 * both.AreaMm2 * 3000);
            Assert.Equal(one.AreaMm2 + two.AreaMm2, both.AreaMm2, 1e-12 * both.AreaMm2);
        }, iter: 100, threads: 1);

    /// <summary>A solid that its centre sees whole: a subdivided icosahedron with a radius of its own for every vertex.</summary>
    private static TriangleMesh Stretched(double[] radii, double[] stretch)
    {
        var ball = Solids.Icosphere(1, 1);
        var p = ball.Positions.ToArray();
        for (var i = 0; i < p.Length; i++) p[i] = (float)(p[i] * radii[i / 3] * stretch[i % 3]);
        return new(p, ball.Indices.ToArray());
    }

    private static double Farthest(TriangleMesh mesh)
    {
        var farthest = 0.0;
        foreach (var x in mesh.Positions) farthest = Math.Max(farthest, Math.Abs(x));
        return farthest;
    }

    private static double EdgeLengths(TriangleMesh mesh)
    {
        var sum = 0.0;
        for (var t = 0; t < mesh.TriangleCount; t++)
        {
            var (a, b, c) = mesh.Triangle(t);
            sum += Vec3.Distance(a, b) + Vec3.Distance(b, c) + Vec3.Distance(c, a);
        }

        return sum;
    }

    private static double Trace(MeshMeasures m) => m.Inertia.Xx + m.Inertia.Yy + m.Inertia.Zz;
}
