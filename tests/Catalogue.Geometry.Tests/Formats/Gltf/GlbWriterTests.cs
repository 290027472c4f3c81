using System.Numerics;
using Catalogue.Geometry.Formats.Gltf;
using Catalogue.Geometry.Meshes;
using SharpGLTF.Schema2;
using SharpGLTF.Validation;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.Gltf;

/// <summary>Read back by another library, which checks the file against the standard on the way.</summary>
public sealed class GlbWriterTests
{
    [Theory, InlineData(3), InlineData(6)] // 1 280 triangles in 16-bit numbers, 81 920 in 32-bit ones where vertices are parted.
    public void Every_triangle_comes_back_where_it_was_in_metres_with_y_up(int level)
    {
        var mesh = Solids.Together(Solids.Icosphere(30, level).Transformed(Rotation.Identity, new(100, -20, 7)), Solids.Box(3, 4, 5));
        var model = Read(GlbWriter.ToBytes(mesh, "a “ball” & a box"));
        var node = Assert.Single(model.LogicalNodes, n => n.Mesh is not null);
        Assert.Equal("a “ball” & a box", node.Name);
        var primitive = Assert.Single(node.Mesh.Primitives);
        var (positions, indices) = (primitive.GetVertexAccessor("POSITION").AsVector3Array(), primitive.GetIndices());
        Assert.Equal(mesh.Indices.Length, indices.Count);

        // Half a step of the grid, and single precision.
        var step = mesh.Bounds.Size.X / 65535;
        for (var c = 0; c < indices.Count; c++)
        {
            var seen = 1000 * Vector3.Transform(positions[(int)indices[c]], node.WorldMatrix);
            var p = mesh.Vertex(mesh.Indices[c]);
            Assert.True((new Vec3(seen.X, -seen.Z, seen.Y) - p).Length < 0.87 * step + 3e-5, $"{seen} for {p}");
        }
    }

    [Fact]
    public void A_box_has_three_normals_at_each_corner_and_a_ball_one()
    {
        Assert.Equal(24, Read(GlbWriter.ToBytes(Solids.Box(1, 2, 3), "box")).LogicalMeshes[0].Primitives[0].GetVertexAccessor("POSITION").Count);
        var ball = Solids.Icosphere(5, 4);
        var primitive = Read(GlbWriter.ToBytes(ball, "ball")).LogicalMeshes[0].Primitives[0];
        Assert.Equal(ball.VertexCount, primitive.GetVertexAccessor("POSITION").Count);
        var (positions, normals) = (primitive.GetVertexAccessor("POSITION").AsVector3Array(), primitive.GetVertexAccessor("NORMAL").AsVector3Array());
        for (var i = 0; i < positions.Count; i++)
            Assert.True(Vector3.Dot(Vector3.Normalize(positions[i] - new Vector3(32767.5f)), Vector3.Normalize(normals[i])) > 0.999f);
    }

    [Fact]
    public void Nothing_is_no_model() => Assert.Throws<ArgumentException>(() => GlbWriter.ToBytes(new([], []), "nothing"));

    private static ModelRoot Read(byte[] glb)
    {
        using var stream = new MemoryStream(glb);
        return ModelRoot.ReadGLB(stream, new ReadSettings { Validation = ValidationMode.Strict });
    }
}
