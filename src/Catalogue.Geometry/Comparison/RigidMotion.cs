using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Comparison;

/// <summary>How one mesh was turned and moved to lie where another copy of it lies.</summary>
/// <param name="Rotation">Turned first,</param>
/// <param name="Shift">then moved, mm.</param>
public sealed record RigidMotion(Rotation Rotation, Vec3 Shift)
{
    /// <summary>Corners may be off by this and still be the same: coordinates written with three decimals, mm.</summary>
    public const double ToleranceMm = 0.02;

    /// <summary>The motion that brings a mesh onto another of the same triangles in the same order; null when there is none: other triangles, scaled, mirrored or bent.</summary>
    /// <remarks>A frame from three corners that lie far apart, then every corner is tried. O(m).</remarks>
    public static RigidMotion? Between(TriangleMesh from, TriangleMesh to)
    {
        ArgumentNullException.ThrowIfNull(from);
        ArgumentNullException.ThrowIfNull(to);
        if (from.TriangleCount != to.TriangleCount || from.TriangleCount == 0) return null;
        var (i, j, k) = FarApart(from);
        if (Frame(Corner(from, i), Corner(from, j), Corner(from, k)) is not { } one || Frame(Corner(to, i), Corner(to, j), Corner(to, k)) is not { } other) return null;
        var rotation = other.Inverse().After(one);
        var shift = Corner(to, i) - rotation.Apply(Corner(from, i));
        for (var c = 0; c < from.Indices.Length; c++)
            if ((rotation.Apply(Corner(from, c)) + shift - Corner(to, c)).Length > ToleranceMm) return null;
        return new(rotation, shift);
    }

    private static Vec3 Corner(TriangleMesh mesh, int corner) => mesh.Vertex(mesh.Indices[corner]);

    private static (int, int, int) FarApart(TriangleMesh mesh)
    {
        var first = Most(mesh, p => (p - Corner(mesh, 0)).LengthSquared);
        var second = Most(mesh, p => (p - Corner(mesh, first)).LengthSquared);
        var along = (Corner(mesh, second) - Corner(mesh, first)).Normalized();
        return (first, second, Most(mesh, p => Vec3.Cross(p - Corner(mesh, first), along).LengthSquared));
    }

    private static int Most(TriangleMesh mesh, Func<Vec3, double> of)
    {
        var (best, most) = (0, double.NegativeInfinity);
        for (var c = 0; c < mesh.Indices.Length; c++)
            if (of(Corner(mesh, c)) is var value && value > most) (best, most) = (c, value);
        return best;
    }

    /// <summary>Turns x along the first side, and z square to all three; null where they lie on a line.</summary>
    private static Rotation? Frame(Vec3 a, Vec3 b, Vec3 c)
    {
        var x = (b - a).Normalized();
        var z = Vec3.Cross(x, c - a).Normalized();
        return z.LengthSquared < 0.5 ? null : new(x, Vec3.Cross(z, x), z);
    }
}
