using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Comparison;

public sealed class RigidMotionTests
{
    private static readonly TriangleMesh Ring = Solids.Torus(12, 3, 40, 20);

    [Fact]
    public void A_mesh_that_was_turned_and_moved_is_found_where_it_lies()
    {
        var (rotation, shift) = (Rotation.About(new(1, -2, 0.5), 2.1), new Vec3(30, -7, 55));
        var motion = RigidMotion.Between(Ring, Ring.Transformed(rotation, shift))!;
        foreach (var p in new Vec3[] { Vec3.Zero, new(10, 0, 0), new(0, 10, 0), new(0, 0, 10) })
            Assert.True((motion.Rotation.Apply(p) + motion.Shift - rotation.Apply(p) - shift).Length < 1e-3);
    }

    [Fact]
    public void Scaled_mirrored_bent_and_other_meshes_are_not()
    {
        Assert.Null(RigidMotion.Between(Ring, Ring.Scaled(1.01)));
        var box = Solids.Box(1, 2, 3);
        Assert.Null(RigidMotion.Between(box, new([.. box.Positions.ToArray().Select((p, i) => i % 3 == 0 ? -p : p)], box.Indices.ToArray())));
        Assert.Null(RigidMotion.Between(Ring, Solids.Torus(12, 3, 20, 40)));
        Assert.Null(RigidMotion.Between(Ring, Solids.Box(1, 2, 3)));
    }
}
