using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Tests.Spatial;
using Xunit;

namespace Catalogue.Geometry.Tests.Meshes;

public sealed class RotationTests
{
    [Fact]
    public void Three_turns_one_after_the_other_make_the_rotation()
    {
        var random = new Random(3);
        IEnumerable<Rotation> rotations =
        [
            Rotation.Identity, Rotation.About(Vec3.UnitX, Math.PI), Rotation.About(Vec3.UnitY, Math.PI / 2), Rotation.About(Vec3.UnitY, -Math.PI / 2),
            Rotation.About(Vec3.UnitY, Math.PI / 2).After(Rotation.About(Vec3.UnitX, 0.7)),
            .. Enumerable.Range(0, 50).Select(_ => Rotation.About(Shapes.Direction(random), random.NextDouble() * 6)),
        ];
        foreach (var rotation in rotations)
        {
            var (x, y, z) = rotation.ToTurns();
            var made = Turn(Vec3.UnitZ, z).After(Turn(Vec3.UnitY, y)).After(Turn(Vec3.UnitX, x));
            foreach (var (a, b) in rotation.ToRowMajor().Zip(made.ToRowMajor())) Assert.Equal(a, b, 9);
        }

        static Rotation Turn(Vec3 axis, double degrees) => Rotation.About(axis, degrees * Math.PI / 180);
    }
}
