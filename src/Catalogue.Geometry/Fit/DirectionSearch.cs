using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>What a search over directions wants to know of a patch of them.</summary>
internal interface IDirectionGoal
{
    /// <summary>Told of the shadow along the patch's centre; true to look closer, false when the patch is settled.</summary>
    /// <param name="direction">The patch's centre, a unit vector that becomes "up".</param>
    /// <param name="shadow">Circle and height there.</param>
    /// <param name="diameterAtLeast">For every direction of the patch.</param>
    /// <param name="heightAtLeast">For every direction of the patch.</param>
    bool LookCloser(Vec3 direction, in EnclosingCircle.Shadow shadow, double diameterAtLeast, double heightAtLeast);
}

/// <summary>Walks half the sphere of directions (the other half has the same shadows) as a tree of triangles, four in each.</summary>
internal sealed class DirectionSearch<TGoal>(EnclosingCircle circle, double rounding, TGoal goal, CancellationToken stop = default)
    where TGoal : struct, IDirectionGoal
{
    private TGoal _goal = goal;
    private long _budget;

    public ref TGoal Goal => ref _goal;

    /// <summary>Patches looked at so far.</summary>
    public long Visited { get; private set; }

    /// <summary>Looks through all directions; false when that takes more than <paramref name="budget"/> patches and was given up.</summary>
    public bool Complete(long budget)
    {
        _budget = budget;
        var (x, y, z) = (Vec3.UnitX, Vec3.UnitY, Vec3.UnitZ);
        return Visit(x, y, z) && Visit(y, -x, z) && Visit(-x, -y, z) && Visit(-y, x, z);
    }

    private bool Visit(Vec3 a, Vec3 b, Vec3 c)
    {
        if (_budget-- <= 0) return false;
        if ((++Visited & 0x3FF) == 0) stop.ThrowIfCancellationRequested();
        var direction = (a + b + c).Normalized();
        var cos = Math.Min(Vec3.Dot(direction, a), Math.Min(Vec3.Dot(direction, b), Vec3.Dot(direction, c)));
        var sin = Math.Sqrt(Math.Max(0, 1 - (cos * cos)));
        var shadow = circle.Along(Rotation.BringingToZ(direction));
        var closer = _goal.LookCloser(
            direction, shadow, Math.Max(0, shadow.DiameterAtLeast(sin, cos)) - rounding, Math.Max(0, shadow.HeightAtLeast(sin, cos)) - rounding);
        if (!closer) return true;
        var (ab, bc, ca) = ((a + b).Normalized(), (b + c).Normalized(), (c + a).Normalized());
        return Visit(ab, bc, ca) && Visit(a, ab, ca) && Visit(ab, b, bc) && Visit(ca, bc, c);
    }
}
