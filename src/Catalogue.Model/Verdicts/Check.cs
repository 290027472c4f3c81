using System.Text.Json;
using Catalogue.Geometry.Details;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Thickness;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>One check as verdicts see it: the measurements it goes by, the limits it asks and the findings it makes of them.</summary>
/// <param name="Name">Stable: stored measurements are kept by it.</param>
/// <param name="Limits">The keys of all limits it asks; another limit changes none of its findings.</param>
/// <param name="Codes">The codes of all findings it makes, in their order; no other check makes them.</param>
/// <param name="Find">The findings on a process. Pure; microseconds.</param>
/// <param name="PartOf">The part of the measurements that it goes by.</param>
public sealed record Check(
    string Name, IReadOnlyList<string> Limits, IReadOnlyList<string> Codes, Func<CheckedFacts, Process, IEnumerable<Finding>> Find, Func<CheckedFacts, CheckedFacts> PartOf)
{
    /// <summary>All checks that judge by limits or material, in the order of their findings.</summary>
    public static IReadOnlyList<Check> All { get; } =
    [
        new("walls", [LimitKey.WallSupported, LimitKey.WallFree, LimitKey.LimbWidth], ["wall.thin", "wall.thin-free", "wall.edge", "limb.thin"],
            (f, process) => f.Walls is { } walls ? ThicknessFindings.Of(walls, f.SelfIntersections == 0, process) : [],
            f => new() { Walls = f.Walls, SelfIntersections = f.SelfIntersections }),
        new("gaps", [LimitKey.Clearance], ["gap.narrow", "gap.slot", "gap.groove"],
            (f, process) => f.Gaps is { } gaps ? GapFindings.Of(gaps, process) : [],
            f => new() { Gaps = f.Gaps }),
        new("overhangs", [LimitKey.OverhangAngle, LimitKey.BridgeLength, LimitKey.LayerHeightMax], ["overhang.area", "overhang.bridge", "overhang.island"],
            (f, process) => f.Overhangs is { } overhangs ? OverhangFindings.Of(overhangs, f.VolumeMm3, process) : [],
            f => new() { Overhangs = f.Overhangs, VolumeMm3 = f.VolumeMm3 }),
        new("holes", [LimitKey.HoleDiameter, LimitKey.WallSupported, LimitKey.Accuracy], ["hole.narrow", "hole.thin-wall", "hole.thin-floor", "hole.rod"],
            (f, process) => f.Holes is { } holes ? HoleFindings.Of(holes, process) : [],
            f => new() { Holes = f.Holes }),
        new("limbs", [], ["limb.fragile"],
            (f, process) => f.Limbs is { } limbs ? LimbFindings.Of(limbs, process) : [],
            f => new() { Limbs = f.Limbs }),
        new("liquid", [LimitKey.DrainDiameter, LimitKey.DrainCount], ["liquid.sealed", "liquid.drain", "liquid.vent", "liquid.pool", "liquid.suction"],
            (f, process) => f.Liquid is { } liquid ? LiquidFindings.Of(liquid, process) : [],
            f => new() { Liquid = f.Liquid }),
        new("details", [LimitKey.DetailHeight, LimitKey.DetailWidth], ["detail.lost", "detail.closed"],
            (f, process) => f.Details is { } details ? DetailFindings.Of(details, process) : [],
            f => new() { Details = f.Details }),
    ];

    internal int CodeOrder(string code)
    {
        for (var i = 0; i < Codes.Count; i++)
            if (Codes[i] == code) return i;
        return Codes.Count;
    }

    /// <summary>The checks that a limit concerns; none when it is asked by joints alone.</summary>
    public static IEnumerable<Check> Asking(string limit) => All.Where(c => c.Limits.Contains(limit));
}

/// <summary>The measurements that checks judge by limits: all of a mesh, or those of one check.</summary>
public sealed record CheckedFacts
{
    private static readonly JsonSerializerOptions Format = new() { IgnoreReadOnlyProperties = true };

    public WallMeasures? Walls { get; init; }
    public GapMeasures? Gaps { get; init; }
    public OverhangMeasures? Overhangs { get; init; }
    public PinHoles? Holes { get; init; }
    public LimbMeasures? Limbs { get; init; }
    public TrappedLiquid? Liquid { get; init; }
    public DetailMeasures? Details { get; init; }
    public int SelfIntersections { get; init; }
    public double VolumeMm3 { get; init; }

    public static CheckedFacts Of(MeshFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        return new()
        {
            Walls = facts.Walls,
            Gaps = facts.Gaps,
            Overhangs = facts.Overhangs,
            Holes = facts.Holes,
            Limbs = facts.Limbs,
            Liquid = facts.Liquid,
            Details = facts.Details,
            SelfIntersections = facts.SelfIntersections,
            VolumeMm3 = facts.VolumeMm3,
        };
    }

    public byte[] ToJson() => JsonSerializer.SerializeToUtf8Bytes(this, Format);

    /// <summary>Reads what <see cref="ToJson"/> wrote, or the same fields out of a whole <see cref="MeshFacts"/>.</summary>
    public static CheckedFacts FromJson(ReadOnlySpan<byte> json) => JsonSerializer.Deserialize<CheckedFacts>(json, Format)!;
}
