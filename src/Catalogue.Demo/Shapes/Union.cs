using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Shapes;

/// <summary>
/// The nearest of several shapes. A shape whose box is farther than the best so far cannot win and is not asked, which leaves sign and
/// lower bound untouched; inside its box a shape is always asked, so depths are right too.
/// </summary>
internal sealed class Union : Shape
{
    private readonly Shape[] _parts;
    private readonly BoundingBox[] _boxes;

    public Union(IEnumerable<Shape> parts)
        : this([.. parts.SelectMany(p => p is Union u ? u._parts : [p])])
    {
    }

    private Union(Shape[] parts)
        : base(parts.Select(p => p.Bounds).Aggregate(Boxes.Join), parts.Max(p => p.Growth))
    {
        _parts = parts;
        _boxes = [.. parts.Select(p => p.Bounds)];
    }

    public override double Distance(Vec3 p)
    {
        var best = double.PositiveInfinity;
        for (var i = 0; i < _parts.Length; i++)
        {
            if (!Boxes.IsBeyond(in _boxes[i], in p, best)) best = Math.Min(best, _parts[i].Distance(p));
        }

        return best;
    }

    public override Shape Near(Vec3 center, double reach)
    {
        var best = Distance(center) + (2 * reach * Growth);
        var kept = new List<Shape>(4);
        var same = true;
        for (var i = 0; i < _parts.Length; i++)
        {
            if (Boxes.IsBeyond(in _boxes[i], in center, best) || _parts[i].Distance(center) > best) continue;
            var near = _parts[i].Near(center, reach);
            same &= ReferenceEquals(near, _parts[i]);
            kept.Add(near);
        }

        return kept.Count == 1 ? kept[0] : kept.Count == 0 || (same && kept.Count == _parts.Length) ? this : new Union(kept);
    }
}
