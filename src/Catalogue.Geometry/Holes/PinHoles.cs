using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Holes;

/// <summary>The straight round holes of a part, and its round pegs.</summary>
public sealed record PinHoles
{
    /// <summary>Wider round rooms are cups and bodies, not holes for pins, plugs and axles: they are not looked for. mm.</summary>
    public const double MostDiameterMm = 12;

    /// <summary>No more of each kind are told of.</summary>
    public const int MostReported = 100;

    /// <summary>By place: z of the centre, then y, then x.</summary>
    public required IReadOnlyList<RoundHole> Holes { get; init; }

    /// <summary>In the same order.</summary>
    public required IReadOnlyList<RoundPeg> Pegs { get; init; }

    /// <summary>There were more than <see cref="MostReported"/> of a kind; the search ended there.</summary>
    public required bool More { get; init; }

    /// <summary>
    /// Finds cylinders by their walls: from edges where the surface bends, across to the wall opposite, to an axis that the wall keeps the same distance
    /// from, along it to both ends.
    /// </summary>
    /// <remarks>
    /// <para>
    /// Found: prisms of eight sides and more and contoured walls with a roughness up to about 4 % of the radius, 0.2 to 12 mm in diameter, at least a fifth
    /// of a diameter deep, at any tilt; with steps (each diameter by itself), countersinks (not counted in the depth), crossing holes (a gap of up to one diameter
    /// is stepped over), slanted or curved mouths (the depth is where half of the wall begins and ends). Not reported: slots and ovals (3 % and more), cones (2° and more),
    /// polygons of seven sides and fewer, grooves that are open along their side, cylinders closed at both ends (voids).
    /// </para>
    /// <para>
    /// Accuracy: on prisms the diameter is exact to single-precision rounding, on contoured walls within 1 %; the axis within 0.5°. The same part turned or in other triangles gives the same
    /// within these bounds (tested). Time grows with the edges that are bent, one ray each on all cores, and with the number of holes; memory 20 bytes a half-edge.
    /// </para>
    /// </remarks>
    /// <param name="mesh">A closed mesh whose triangles face outward; on any other the answer means nothing.</param>
    /// <param name="tree">Over the same mesh.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    public static PinHoles Find(TriangleMesh mesh, TriangleTree tree, IProgress<double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        ArgumentNullException.ThrowIfNull(tree);
        var edges = EdgeAdjacency.Of(mesh, cancel);
        progress?.Report(0.1);
        var holes = Trace(mesh, tree, edges, inward: true, new(progress, 0.1, 0.5), cancel);
        var pegs = Trace(mesh, tree, edges, inward: false, new(progress, 0.5, 0.9), cancel);
        return new()
        {
            Holes = [.. holes.Select(t => Hole(t, tree)).OfType<RoundHole>().Take(MostReported).OrderBy(h => Place(h.Center))],
            Pegs = [.. pegs.Select(Peg).OfType<RoundPeg>().Take(MostReported).OrderBy(p => Place(p.Center))],
            More = holes.Count > MostReported || pegs.Count > MostReported,
        };
    }

    private static List<CylinderTrace> Trace(TriangleMesh mesh, TriangleTree tree, EdgeAdjacency edges, bool inward, ProgressPart progress, CancellationToken cancel)
    {
        var seeds = WallSeeds.Find(mesh, tree, edges, inward, MostDiameterMm, progress.Part(0, 0.5), cancel);
        return new CylinderSearch(new(tree, inward), MostDiameterMm, MostReported + 1, progress.Part(0.5, 1), cancel).Run(seeds);
    }

    /// <summary>In tenths of a millimetre, so that holes drawn in a row keep their order.</summary>
    private static (double Z, double Y, double X) Place(Vec3 p) => (Math.Round(p.Z, 1), Math.Round(p.Y, 1), Math.Round(p.X, 1));

    private static RoundHole? Hole(CylinderTrace trace, TriangleTree tree)
    {
        if (trace.LowShut && trace.HighShut) return null;
        var frame = trace.Frame;
        var through = !trace.LowShut && !trace.HighShut;
        var fromLow = through ? frame.Axis is { Z: > 1e-3 } or { Z: > -1e-3, Y: > 1e-3 } or { Z: > -1e-3, Y: > -1e-3, X: > 0 } : trace.HighShut;
        return new()
        {
            DiameterMm = 2 * trace.NominalRadius,
            ClearMm = 2 * trace.ClearRadius,
            DepthMm = trace.High - trace.Low,
            Axis = fromLow ? frame.Axis : -frame.Axis,
            Mouth = frame.At(fromLow ? trace.Low : trace.High),
            Center = frame.At((trace.Low + trace.High) / 2),
            Through = through,
            WallMm = MatterAround.Wall(tree, trace),
            FloorMm = through ? null : MatterAround.Floor(tree, trace),
        };
    }

    private static RoundPeg? Peg(CylinderTrace trace)
    {
        if (!trace.LowShut && !trace.HighShut) return null;
        var frame = trace.Frame;
        return new()
        {
            DiameterMm = 2 * trace.NominalRadius,
            LengthMm = trace.High - trace.Low,
            Axis = trace.HighShut ? frame.Axis : -frame.Axis,
            Tip = frame.At(trace.HighShut ? trace.High : trace.Low),
            Center = frame.At((trace.Low + trace.High) / 2),
            Loose = trace.LowShut && trace.HighShut,
        };
    }
}
