using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Overhangs;

/// <summary>What hangs over in one orientation of a closed mesh: surface facing the plate by its angle, the supports under it, bridges and islands.</summary>
/// <remarks>
/// <para>
/// <b>Convention.</b> z points away from the build plate, and layers follow each other along it, whether the part stands on the plate or hangs from it. The
/// plate touches the lowest point. The angle of a surface is taken <b>from the vertical</b>: 0° is a wall, 90° the underside of a flat slab; 45° is the steepest
/// that prints unsupported on filament (experiment JAITA 2020). Only surface that faces the plate hangs over.
/// </para>
/// <para>
/// <b>No limit enters.</b> Areas and supports are tabulated for every whole degree, bridges come with their span and islands with their rise, so that any limit can be
/// judged later. Surface within <see cref="RestingMm"/> of the plate rests on it and does not hang over.
/// </para>
/// <para>
/// <b>Method and tolerance.</b> Areas are sums over triangles, cut exactly at the resting height; an area counts as steeper than k° when it is so by
/// more than <see cref="AngleToleranceDegrees"/>, so that the rounding of coordinates does not tip a plane that was meant to be at the limit. The supports' volume is exact for columns that reach the plate;
/// where the part itself is below, tens of thousands of rays find how far down (<see cref="SupportColumns"/>): within 2 % of the volume of all columns. Surface inside other matter
/// (overlapping shells) is left out by the same rays. Islands and bridges: <see cref="Island"/>, <see cref="Bridge"/>. The same part in other triangles, or turned together with the pose: areas within 0.5 % of all that hangs over, volumes within those 2 %, spans within 1 % (tested). Time about linear in triangles, about 40 bytes a triangle
/// while it works. Deterministic; thread-safe. The mesh must be closed with its faces outward; of others nothing is promised.
/// </para>
/// </remarks>
public sealed record OverhangMeasures
{
    /// <summary>Surface no farther from the plate than this rests on it (mm): about a first layer.</summary>
    public const double RestingMm = 0.1;

    /// <summary>Planes within this of a limit count as at the limit, not beyond it (degrees).</summary>
    public const double AngleToleranceDegrees = 0.05;

    /// <summary>The limit that reports use when none is asked for: experiment JAITA 2020, from the vertical.</summary>
    public const double ReferenceDegrees = 45;

    /// <summary>At most so many bridges and islands are listed, the greatest first; their number is told in full.</summary>
    public const int MostPlaces = 12;

    /// <summary>Turns the file's coordinates into those of the printer, z away from the plate.</summary>
    public required Rotation Rotation { get; init; }

    /// <summary>From the plate to the highest point, mm.</summary>
    public required double HeightMm { get; init; }

    /// <summary>Footprint of what rests on the plate, seen from above (mm²).</summary>
    public required double RestingMm2 { get; init; }

    /// <summary>Surface facing the plate and steeper than 0°, 1°, … 89° from the vertical, without what rests (mm²).</summary>
    public required IReadOnlyList<double> AreaMm2 { get; init; }

    /// <summary>Volume of straight columns under the surface steeper than 0° … 89°, down to the plate or to the part below (mm³).</summary>
    public required IReadOnlyList<double> SupportVolumeMm3 { get; init; }

    /// <summary>Footprint of those columns where they stand on the part and not on the plate (mm²).</summary>
    public required IReadOnlyList<double> OnPartMm2 { get; init; }

    /// <summary>The bridges of at least <see cref="Bridge.LeastMm2"/>, the largest first, at most <see cref="MostPlaces"/>.</summary>
    public required IReadOnlyList<Bridge> Bridges { get; init; }

    /// <summary>How many bridges there are.</summary>
    public required int BridgeCount { get; init; }

    /// <summary>The islands that rise at least <see cref="Island.LeastRiseMm"/>, the longest first, at most <see cref="MostPlaces"/>.</summary>
    public required IReadOnlyList<Island> Islands { get; init; }

    /// <summary>How many islands there are.</summary>
    public required int IslandCount { get; init; }

    /// <summary>Overhanging area at any limit, in mm².</summary>
    /// <param name="degrees">From the vertical; between whole degrees the table is read along a straight line.</param>
    public double AreaSteeperThan(double degrees) => Read(AreaMm2, degrees);

    /// <summary>Support volume at any limit, in mm³, when every overhang is supported.</summary>
    public double SupportVolumeAt(double degrees) => Read(SupportVolumeMm3, degrees);

    /// <summary>Surface that supports touch at any limit: what hangs over, and where columns stand on the part (mm²).</summary>
    public double ContactAt(double degrees) => Read(AreaMm2, degrees) + Read(OnPartMm2, degrees);

    /// <summary>What hangs over the plate in the given orientation.</summary>
    /// <param name="tree">Of a closed mesh with its faces outward.</param>
    /// <param name="rotation">From the file's pose to the printer's; the identity is the file's own pose.</param>
    /// <param name="progress">Told the share done, from any thread.</param>
    /// <exception cref="OperationCanceledException"><paramref name="cancel"/> was asked for.</exception>
    public static OverhangMeasures Of(TriangleTree tree, Rotation rotation, IProgress<double>? progress = null, CancellationToken cancel = default) =>
        new OverhangSurface(tree, cancel).Measure(rotation, progress, cancel);

    private static double Read(IReadOnlyList<double> table, double degrees)
    {
        if (double.IsNaN(degrees) || degrees >= 90 || table.Count == 0) return 0;
        var (low, part) = ((int)Math.Floor(Math.Max(0, degrees)), Math.Max(0, degrees) % 1);
        var here = low < table.Count ? table[low] : 0;
        var next = low + 1 < table.Count ? table[low + 1] : 0;
        return here + ((next - here) * part);
    }
}

/// <summary>A near-flat underside held on opposite sides.</summary>
/// <remarks>
/// Connected surface less than 10° from horizontal. Its outline seen from above is crossed by parallel lines in some 40 directions; a line is held where matter goes on downward at both its
/// ends. Of the directions that hold nearly as much area as the best (four fifths), the one with the shortest lines is taken: filament would be laid that way. Span within 1 % of the outline's.
/// </remarks>
/// <param name="SpanMm">The longest held line.</param>
/// <param name="AreaMm2">Held on both sides; the rest of the underside is a ledge.</param>
/// <param name="SupportVolumeMm3">Of the columns under the held area: saved where the span prints unsupported.</param>
/// <param name="At">The middle of the longest line, in the file's coordinates.</param>
public sealed record Bridge(double SpanMm, double AreaMm2, double SupportVolumeMm3, Vec3 At)
{
    /// <summary>Smaller undersides are not looked at (mm²).</summary>
    public const double LeastMm2 = 1;
}

/// <summary>Matter that starts in mid-air: a lowest place of the part with nothing just below.</summary>
/// <remarks>
/// Found exactly on the surface: vertices are taken in by height and joined along edges; a place where a new piece begins is a lowest place, and the height at which it joins an older piece ends its
/// life (the elder rule of persistent homology: Edelsbrunner, Letscher, Zomorodian, "Topological Persistence and Simplification", Discrete and Computational Geometry 28, 2002). A ray tells
/// whether matter is below (the floor of a cup, a place inside another shell). Where a piece joins the rest only by running through another shell, the
/// height is that of the first of some hundred of its vertices found inside it.
/// </remarks>
/// <param name="HeightMm">From the plate to its lowest point.</param>
/// <param name="RiseMm">From there to where it joins matter that started lower; its whole height where it never does.</param>
/// <param name="AreaMm2">Its section <see cref="LeastRiseMm"/> above the lowest point: about a first layer.</param>
/// <param name="OverPart">True when the part itself is below, so that a support from the plate cannot go straight up.</param>
/// <param name="At">The lowest point, in the file's coordinates.</param>
public sealed record Island(double HeightMm, double RiseMm, double AreaMm2, bool OverPart, Vec3 At)
{
    /// <summary>Lowest places that join others sooner are the surface's roughness, not islands (mm): the thickest layer of resin, the thinnest common one of filament.</summary>
    public const double LeastRiseMm = 0.1;
}
