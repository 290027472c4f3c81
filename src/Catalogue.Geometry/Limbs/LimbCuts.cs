using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Limbs;

/// <summary>Cuts the mesh across its limbs, at places read off a <see cref="LimbTree"/>, and keeps the cuts that are strained most.</summary>
internal sealed class LimbCuts(TriangleTree triangles, LimbTree tree, CancellationToken cancel)
{
    private const int StationsPerLimb = 16;
    private const int MostTries = 8;

    /// <summary>What is beyond a cut fills at least this part of a bar from there to the tip: a cone a third, a thinning tail a quarter.</summary>
    private const double LeastFilled = 0.2;

    /// <summary>Cosine: a limb may be bent by 70° from where it leaves the part to where its tip is.</summary>
    private const double LeastAhead = 0.34;
    private const int MostBranches = LimbMeasures.MostLimbs;

    private readonly List<int> _near = [];
    private BoundingBox _room;

    /// <summary>The most slender branches first, no more than are worth cutting.</summary>
    public IEnumerable<List<LimbSlab>> SlenderBranches() => tree.Branches().OrderByDescending(b => b.Max(Score)).Take(MostBranches);

    /// <summary>Lever over section modulus, were the slab round.</summary>
    private double Score(LimbSlab slab) => slab.ReachMm / Math.Pow(tree.Width(slab.Node), 3);

    public Limb? Measure(List<LimbSlab> branch)
    {
        var best = branch.Index().MaxBy(s => Score(s.Item)).Index;
        var places = Enumerable.Range(0, StationsPerLimb).Select(i => (int)((i + 0.5) * branch.Count / StationsPerLimb)).Append(best).Append(branch.Count - 1);
        var (push, drop) = (new List<(int Place, double Score)>(), new List<(int Place, double Score)>());
        foreach (var place in places.Distinct().Order())
        {
            if (Cut(branch, place) is not { } cut) continue;
            var (volume, centroid, reach) = tree.Beyond(branch[place].Node);
            var section = Described(cut.Section, cut.Axis, reach, volume, Vec3.Distance(centroid, cut.Section.Centroid));
            push.Add((place, section.PushScore));
            drop.Add((place, section.DropScore));
        }

        if (Worst(branch, push) is not { } pushed) return null;
        var dropped = Worst(branch, drop) ?? pushed;
        return new() { Tip = pushed.Tip, Pushed = pushed.Section, Dropped = dropped.Section };
    }

    /// <summary>The highest score whose cut is sound; a place that is not, at a knee or beside another piece, gives way to the next.</summary>
    private (LimbSection Section, Vec3 Tip)? Worst(List<LimbSlab> branch, List<(int Place, double Score)> places)
    {
        foreach (var (place, _) in places.OrderByDescending(p => p.Score).Take(MostTries))
            if (Squared(branch, place) is { } sound) return sound;
        return null;
    }

    private (PlaneSection Section, Vec3 Axis)? Cut(List<LimbSlab> branch, int place)
    {
        var (toTip, toRoot) = (branch[Math.Max(0, place - 3)].Node, branch[Math.Min(branch.Count - 1, place + 3)].Node);
        var axis = (tree.Center(toTip) - tree.Center(toRoot)).Normalized();
        if (axis == Vec3.Zero) return null;
        var node = branch[place].Node;
        var room = new Vec3(1, 1, 1) * (tree.Width(node) + (4 * tree.SlabMm));
        _room = new(tree.Box(node).Min - room, tree.Box(node).Max + room);
        if (Section(tree.Center(node), axis) is not { } section) return null;

        // A cut through the eye of a pin or beside the limb meets only a part of what the slab holds.
        var expected = tree.Volume(node) / tree.SlabMm;
        return section.Area > 0.65 * expected && section.Area < 2.5 * expected ? (section, axis) : null;
    }

    private PlaneSection? Section(Vec3 at, Vec3 axis)
    {
        cancel.ThrowIfCancellationRequested();
        _near.Clear();
        triangles.NearPlane(at, axis, _room, _near);
        return PlaneSection.Of(triangles.Mesh, CollectionsMarshal.AsSpan(_near), at, axis);
    }

    /// <summary>The cut turned about its centroid until it is smallest, square to the limb; null where the limb turns out too stout.</summary>
    private (LimbSection Section, Vec3 Tip)? Squared(List<LimbSlab> branch, int place)
    {
        if (Cut(branch, place) is not { } start) return null;
        var (cut, axis) = start;
        for (var tilt = 0.15; tilt > 0.02; tilt /= 2)
        {
            var frame = Rotation.BringingToZ(axis);
            foreach (var side in (ReadOnlySpan<Vec3>)[frame.RowX, -frame.RowX, frame.RowY, -frame.RowY])
            {
                var turned = (axis + (side * tilt)).Normalized();
                if (Section(cut.Centroid, turned) is { } smaller && smaller.Area < 0.9995 * cut.Area) (cut, axis) = (smaller, turned);
            }
        }

        var (volume, centroid, tip, beyond) = tree.Beyond(branch[place].Node, cut.Centroid, axis);
        var lever = Vec3.Distance(tip, cut.Centroid) + (tree.SlabMm / 4);
        if (lever < LimbTree.ShortestMm || lever < LimbTree.LeastSlender * Math.Sqrt(4 / Math.PI * cut.Area)) return null;

        // A cut that slices a corner off, or runs along the limb, has next to nothing beyond it, or not in front of it.
        if (!beyond) axis = -axis;
        if (volume < LeastFilled * cut.Area * lever || !IsAhead(tip) || !IsAhead(centroid)) return null;
        var along = Vec3.Distance(centroid, cut.Centroid);
        return (Described(cut, axis, lever, volume, along) is var section && beyond ? AtRoot(section) : section, tip);

        bool IsAhead(Vec3 p) => Vec3.Dot((p - cut.Centroid).Normalized(), axis) > LeastAhead;
    }

    /// <summary>Slabs are curved and end short of a limb's root: the cut is moved back while the limb stays as thick as it is.</summary>
    private LimbSection AtRoot(LimbSection section)
    {
        var step = tree.SlabMm / 4;
        for (var moved = step; moved <= 3 * tree.SlabMm; moved += step)
        {
            if (Section(section.At - (section.Axis * step), section.Axis) is not { } next || next.Area > 1.03 * section.AreaMm2 || next.Area < 0.9 * section.AreaMm2) break;
            var added = (next.Area + section.AreaMm2) / 2 * step;
            var volume = section.BeyondMm3 + added;
            var lever = ((section.BeyondMm3 * (section.BeyondLeverMm + step)) + (added * step / 2)) / volume;
            var further = Described(next, section.Axis, section.LeverMm + step, volume, lever);
            if (further.PushScore < section.PushScore) break;
            section = further;
        }

        return section;
    }

    private static LimbSection Described(PlaneSection cut, Vec3 axis, double lever, double volume, double volumeLever) => new()
    {
        At = cut.Centroid,
        Axis = axis,
        AreaMm2 = cut.Area,
        SecondMomentMm4 = cut.Second,
        FibreMm = cut.Fibre,
        ThicknessMm = cut.Thickness,
        LeverMm = lever,
        BeyondMm3 = volume,
        BeyondLeverMm = volumeLever,
    };
}
