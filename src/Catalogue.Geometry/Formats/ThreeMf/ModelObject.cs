using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.ThreeMf;

/// <summary>An affine map in mm, twelve numbers: a point p (a row) goes to p · M + shift. Rows are where the axes go.</summary>
internal readonly record struct Affine(Vec3 X, Vec3 Y, Vec3 Z, Vec3 Shift)
{
    public static Affine Identity => new(Vec3.UnitX, Vec3.UnitY, Vec3.UnitZ, Vec3.Zero);

    public double Determinant => Vec3.Dot(X, Vec3.Cross(Y, Z));

    public Vec3 Apply(Vec3 p) => Turn(p) + Shift;

    /// <summary>This map first, then <paramref name="outer"/>.</summary>
    public Affine Then(Affine outer) => new(outer.Turn(X), outer.Turn(Y), outer.Turn(Z), outer.Apply(Shift));

    private Vec3 Turn(Vec3 p) => (X * p.X) + (Y * p.Y) + (Z * p.Z);
}

/// <summary>What an object resource is for.</summary>
internal enum ObjectType
{
    Model,
    Surface,
    Support,
    Other,
}

/// <summary>A use of an object inside another: which object of which part, placed how.</summary>
internal readonly record struct Component(string Path, int ObjectId, Affine Transform);

/// <summary>An object resource: a mesh in mm, or components.</summary>
internal sealed record ModelObject(string? Name, ObjectType Type, TriangleMesh? Mesh, IReadOnlyList<Component> Components);

/// <summary>A build item of the root model.</summary>
internal readonly record struct BuildItem(Component Use, string? PartNumber);

/// <summary>One model part: its objects by id, and what it builds.</summary>
internal sealed record ModelPart(LengthUnit Unit, IReadOnlyDictionary<int, ModelObject> Objects, IReadOnlyList<BuildItem> Items);
