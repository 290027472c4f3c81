using Catalogue.Geometry.Details;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Inspections;

namespace Catalogue.Model.Scaling;

/// <summary>What an inspection of the same mesh at another size would find, from what was found at its drawn size: no mesh is read.</summary>
/// <remarks>
/// <para>
/// Lengths grow with the scale, areas with its square, volumes with its cube, second moments of area with its fourth power; counts, angles and places among
/// each other stay. A ladder of limits is read at the limit divided by the scale: for a step between two, the next one above, as for a limit between two steps.
/// </para>
/// <para>
/// Against a real inspection (tested): lengths, areas and volumes to 0.1 % where the checks measure exactly; where they sample (thickness, reach, supports over the part, limbs, relief), as near as a turned mesh is.
/// Not the same: the checks' own absolute floors (0.1 mm of resting surface and island, 1 mm² of bridge, 0.1 mm² of speck, 3 mm of limb, 12 mm of
/// hole) lie elsewhere on a scaled mesh. What lies beyond the ladders' ends is told by <see cref="ScaleReach"/>.
/// </para>
/// </remarks>
public static class ScaledFacts
{
    /// <param name="facts">As drawn.</param>
    /// <param name="scale">What every length is multiplied by, above 0.</param>
    /// <param name="smallPart">Whether it goes into the small-parts cylinder at that size: the gauge does not scale, so it has to be asked.</param>
    /// <returns>Without fit profile, hull and repair, which are of the file.</returns>
    public static MeshFacts Scaled(this MeshFacts facts, double scale, bool smallPart)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(scale);
        return facts with
        {
            CrossingAt = facts.CrossingAt * scale,
            Size = facts.Size * scale,
            VolumeMm3 = facts.VolumeMm3 * Cube(scale),
            AreaMm2 = facts.AreaMm2 * Square(scale),
            TroubleAt = facts.TroubleAt * scale,
            SmallPart = smallPart,
            Walls = facts.Walls is { } walls ? Scaled(walls, scale) : null,
            Gaps = facts.Gaps is { } gaps
                ? new(gaps.MinMm * scale, Ladder(gaps.Gaps, GapMeasures.GapSteps, scale))
                : null,
            Overhangs = facts.Overhangs is { } overhangs ? Scaled(overhangs, scale) : null,
            Holes = facts.Holes is { } holes ? Scaled(holes, scale) : null,
            Limbs = facts.Limbs is { } limbs ? new() { Limbs = [.. limbs.Limbs.Select(l => Scaled(l, scale))] } : null,
            Liquid = facts.Liquid is { } liquid ? Scaled(liquid, scale) : null,
            Details = facts.Details is { } details ? Scaled(details, scale) : null,
            Repair = null,
            FitProfile = [],
            Hull = [],
        };
    }

    private static double Square(double scale) => scale * scale;

    private static double Cube(double scale) => scale * scale * scale;

    private static WallMeasures Scaled(WallMeasures walls, double scale) => new(
        walls.Samples, walls.OpposedAreaMm2 * Square(scale), walls.Distribution is { } d ? Scaled(d, scale) : null,
        Ladder(walls.Walls, WallMeasures.WallSteps, scale), Ladder(walls.Limbs, WallMeasures.LimbSteps, scale));

    private static ThicknessDistribution Scaled(ThicknessDistribution d, double scale) => d with
    {
        MinMm = d.MinMm * scale,
        P01Mm = d.P01Mm * scale,
        P05Mm = d.P05Mm * scale,
        MedianMm = d.MedianMm * scale,
    };

    /// <summary>The same steps again, each with what was found below the drawn step that it comes from.</summary>
    private static List<ThinStep> Ladder(IReadOnlyList<ThinStep> found, IReadOnlyList<double> ladder, double scale)
    {
        var steps = new List<ThinStep>();
        foreach (var step in ladder)
        {
            var drawn = ladder.FirstOrDefault(s => s >= step / scale * (1 - 1e-9), ladder[^1]);
            if (found.FirstOrDefault(s => s.BelowMm == drawn) is not { } below) continue;
            steps.Add(new(step, below.Count, below.AreaMm2 * Square(scale), [.. below.Regions.Select(r => r with
            {
                MinMm = r.MinMm * scale,
                TypicalMm = r.TypicalMm * scale,
                AreaMm2 = r.AreaMm2 * Square(scale),
                ReachMm = r.ReachMm * scale,
                At = r.At * scale,
            })]));
        }

        return steps;
    }

    private static OverhangMeasures Scaled(OverhangMeasures o, double scale)
    {
        var islands = o.Islands.Select(i => i with { HeightMm = i.HeightMm * scale, RiseMm = i.RiseMm * scale, AreaMm2 = i.AreaMm2 * Square(scale), At = i.At * scale })
            .Where(i => i.RiseMm >= Island.LeastRiseMm).ToList();
        return o with
        {
            HeightMm = o.HeightMm * scale,
            RestingMm2 = o.RestingMm2 * Square(scale),
            AreaMm2 = [.. o.AreaMm2.Select(a => a * Square(scale))],
            SupportVolumeMm3 = [.. o.SupportVolumeMm3.Select(v => v * Cube(scale))],
            OnPartMm2 = [.. o.OnPartMm2.Select(a => a * Square(scale))],
            Bridges =
            [
                .. o.Bridges.Select(b => b with { SpanMm = b.SpanMm * scale, AreaMm2 = b.AreaMm2 * Square(scale), SupportVolumeMm3 = b.SupportVolumeMm3 * Cube(scale), At = b.At * scale }),
            ],
            Islands = islands,
            IslandCount = islands.Count == o.Islands.Count ? o.IslandCount : islands.Count,
        };
    }

    private static PinHoles Scaled(PinHoles holes, double scale) => holes with
    {
        Holes =
        [
            .. holes.Holes.Select(h => h with
            {
                DiameterMm = h.DiameterMm * scale,
                ClearMm = h.ClearMm * scale,
                DepthMm = h.DepthMm * scale,
                Mouth = h.Mouth * scale,
                Center = h.Center * scale,
                WallMm = h.WallMm * scale,
                FloorMm = h.FloorMm * scale,
            }).Where(h => h.DiameterMm <= PinHoles.MostDiameterMm),
        ],
        Pegs =
        [
            .. holes.Pegs.Select(p => p with { DiameterMm = p.DiameterMm * scale, LengthMm = p.LengthMm * scale, Tip = p.Tip * scale, Center = p.Center * scale })
                .Where(p => p.DiameterMm <= PinHoles.MostDiameterMm),
        ],
    };

    private static Limb Scaled(Limb limb, double scale) => limb with { Tip = limb.Tip * scale, Pushed = Scaled(limb.Pushed, scale), Dropped = Scaled(limb.Dropped, scale) };

    /// <summary>So a push strains it by the inverse square of the scale, and a fall by the same at every scale.</summary>
    private static LimbSection Scaled(LimbSection section, double scale) => section with
    {
        At = section.At * scale,
        AreaMm2 = section.AreaMm2 * Square(scale),
        SecondMomentMm4 = section.SecondMomentMm4 * Square(Square(scale)),
        FibreMm = section.FibreMm * scale,
        ThicknessMm = section.ThicknessMm * scale,
        LeverMm = section.LeverMm * scale,
        BeyondMm3 = section.BeyondMm3 * Cube(scale),
        BeyondLeverMm = section.BeyondLeverMm * scale,
    };

    private static TrappedLiquid Scaled(TrappedLiquid liquid, double scale) => liquid with
    {
        PitchMm = liquid.PitchMm * scale,
        FinestOpeningMm = liquid.FinestOpeningMm * scale,
        Cavities =
        [
            .. liquid.Cavities.Select(c => c with
            {
                VolumeMm3 = c.VolumeMm3 * Cube(scale),
                At = c.At * scale,
                Openings = [.. c.Openings.Select(o => o with { DiameterMm = o.DiameterMm * scale, At = o.At * scale })],
                SkinMm = c.SkinMm * scale,
                SkinAt = c.SkinAt * scale,
                Drain = Scaled(c.Drain, scale),
                Vent = Scaled(c.Vent, scale),
            }),
        ],
        Pools = [.. liquid.Pools.Select(p => p with { VolumeMm3 = p.VolumeMm3 * Cube(scale), DepthMm = p.DepthMm * scale, At = p.At * scale, Drain = Scaled(p.Drain, scale) })],
        SuctionCups =
        [
            .. liquid.SuctionCups.Select(c => c with
            {
                AreaMm2 = c.AreaMm2 * Square(scale),
                LastsMm = c.LastsMm * scale,
                VolumeMm3 = c.VolumeMm3 * Cube(scale),
                At = c.At * scale,
                Vent = Scaled(c.Vent, scale),
            }),
        ],
        PooledMm3 = liquid.PooledMm3 * Cube(scale),
        SuctionMm2 = liquid.SuctionMm2 * Square(scale),
        SuctionLastsMm = liquid.SuctionLastsMm * scale,
    };

    private static Drilling? Scaled(Drilling? drilling, double scale) =>
        drilling is null ? null : drilling with { At = drilling.At * scale, WallMm = drilling.WallMm * scale };

    /// <summary>Sizes of relief are read at any size that is not above the limit, so the tables simply move.</summary>
    private static DetailMeasures Scaled(DetailMeasures details, double scale) => new()
    {
        Low = [.. details.Low.Select(s => Scaled(s, scale))],
        Ridges = [.. details.Ridges.Select(s => Scaled(s, scale))],
        Grooves = [.. details.Grooves.Select(s => Scaled(s, scale))],
    };

    private static DetailStep Scaled(DetailStep step, double scale) => new(
        step.BelowMm * scale, step.Count, step.AreaMm2 * Square(scale), step.LengthMm * scale,
        [.. step.Largest.Select(f => f with { WidthMm = f.WidthMm * scale, HeightMm = f.HeightMm * scale, AreaMm2 = f.AreaMm2 * Square(scale), LengthMm = f.LengthMm * scale, At = f.At * scale })]);
}
