using Catalogue.Geometry.Liquids;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>What a part keeps inside: liquid resin in cavities, pools and under the film, powder in cavities. Filament keeps nothing.</summary>
/// <remarks>
/// Cavities are the part's own fault, however it lies, and ask for care. A sealed one is no stop: the print comes out, heavy, and may leak or crack later.
/// Pools and suction are of the file's own pose, often not the one a part is printed in, so they are notes. Openings pass from nine tenths of the
/// limit, because a round hole made of flat facets is narrower than its name.
/// </remarks>
public static class LiquidFindings
{
    internal const double Facets = 0.9;

    /// <summary>A hollow of less can be emptied by a shake or a rinse, so what drains it is only noted (mm³; our own bound).</summary>
    internal const double ShakenOutMm3 = 50;

    /// <summary>Below this one way out is enough for liquid and air in turn (mm³; our own bound).</summary>
    internal const double OneWayMm3 = 1000;

    /// <summary>Pools below this, and suction below <see cref="WorthTellingMm2"/>, are not spoken of (our own bounds).</summary>
    internal const double WorthTellingMm3 = 50;

    internal const double WorthTellingMm2 = 25;

    public static IEnumerable<Finding> Of(TrappedLiquid liquid, Process process)
    {
        ArgumentNullException.ThrowIfNull(liquid);
        ArgumentNullException.ThrowIfNull(process);
        var isVat = ProcessCode.Category(process.Code) == "VPP";
        if (!isVat && ProcessCode.Category(process.Code) != "PBF") yield break;
        if (Sealed(liquid, process, isVat) is { } closed) yield return closed;
        if (process.Limit(LimitKey.DrainDiameter) is { } drain)
            foreach (var finding in Drains(liquid, process, drain, isVat)) yield return finding;
        if (!isVat) yield break;
        if (Pools(liquid) is { } pools) yield return pools;
        if (Suction(liquid) is { } suction) yield return suction;
    }

    private static Finding? Sealed(TrappedLiquid liquid, Process process, bool isVat)
    {
        var voids = liquid.Cavities.Where(c => c.Sealed).ToList();
        if (voids.Count == 0) return null;
        var largest = voids[0];
        var total = voids.Sum(v => v.VolumeMm3);
        Sentence what = (voids.Count == 1, isVat) switch
        {
            (true, true) => S($"A void of {Volume(total)} is closed on all sides: the liquid in it is never cured nor drained, weighs, and may leak or crack the part later."),
            (true, false) => $"A void of {Volume(total)} is closed on all sides: the powder in it never comes out.",
            (false, true) => $"{voids.Count} voids, {Volume(total)} together, are closed on all sides: the liquid in it is never cured nor drained, weighs, and may leak or crack the part later.",
            (false, false) => $"{voids.Count} voids, {Volume(total)} together, are closed on all sides: the powder in it never comes out.",
        };
        return Rules.LiquidSealed.Found(Severity.Care, what + Advice(largest, process)) with
        {
            Measured = Math.Round(total, 2),
            Limit = 0,
            Unit = "mm³",
            At = largest.Drain?.At ?? largest.At,
            Source = process.Limit(LimitKey.DrainDiameter) is { } drain ? Sentence.FromWords(drain.Origin) : Rules.LiquidSealed.Origin,
        };
    }

    /// <summary>Cavities with ways out that are too narrow or too few; such as are joined by wide ways count as one.</summary>
    private static IEnumerable<Finding> Drains(TrappedLiquid liquid, Process process, ProcessLimit drain, bool isVat)
    {
        var count = (int)Math.Ceiling(process.Limit(LimitKey.DrainCount)?.Value ?? 1);
        foreach (var cavity in Joined(liquid.Cavities, Facets * drain.Value))
        {
            var (volume, place) = (cavity.Sum(c => c.VolumeMm3), cavity.MaxBy(c => c.VolumeMm3)!);
            var outward = cavity.SelectMany(c => c.Openings).Where(o => o.Beyond < 0 || !cavity.Contains(liquid.Cavities[o.Beyond])).ToList();
            var widest = outward.Count > 0 ? outward.Max(o => o.DiameterMm) : 0;
            if (widest < Facets * drain.Value)
            {
                var most = outward.Count == 0 ? liquid.FinestOpeningMm : widest;
                yield return Rules.LiquidDrain.Found(volume < ShakenOutMm3 ? Severity.Note : Severity.Care,
                    (isVat
                        ? S($"A hollow of {Volume(volume)} has no way out wider than {most:0.0} mm; liquid needs {drain.Value:0.#} mm to come out.")
                        : $"A hollow of {Volume(volume)} has no way out wider than {most:0.0} mm; powder needs {drain.Value:0.#} mm to come out.")
                    + Advice(place, process)) with
                {
                    Measured = Math.Round(widest, 2),
                    Limit = drain.Value,
                    Unit = "mm",
                    At = outward.Count > 0 ? outward.MaxBy(o => o.DiameterMm)!.At : place.At,
                    Source = Sentence.FromWords(drain.Origin),
                };
                continue;
            }

            // A wide way counts as often as its area holds the limit's: a bottle's neck lets air in beside what runs out.
            var enough = outward.Where(o => o.Beyond < 0 && o.DiameterMm >= Facets * drain.Value).Sum(o => Math.Max(1, Math.Floor(Math.Pow(o.DiameterMm / drain.Value, 2))));
            if (enough >= count || enough == 0) continue;
            yield return Rules.LiquidVent.Found(volume < OneWayMm3 ? Severity.Note : Severity.Care,
                (isVat
                    ? S($"A hollow of {Volume(volume)} has {enough:0} way out of {drain.Value:0.#} mm, {count} are wanted: where liquid runs out, air has to come in.")
                    : $"A hollow of {Volume(volume)} has {enough:0} way out of {drain.Value:0.#} mm, {count} are wanted: where powder runs out, air has to come in.")
                + Advice(place, process)) with
            {
                Measured = enough,
                Limit = count,
                Unit = "openings",
                At = place.Vent?.At ?? place.At,
                Source = Sentence.FromWords(process.Limit(LimitKey.DrainCount)?.Origin ?? drain.Origin),
            };
        }
    }

    private static IEnumerable<List<Cavity>> Joined(IReadOnlyList<Cavity> cavities, double widthMm)
    {
        var seen = new bool[cavities.Count];
        for (var first = 0; first < cavities.Count; first++)
        {
            if (seen[first] || cavities[first].Sealed) continue;
            var group = new List<int> { first };
            seen[first] = true;
            for (var at = 0; at < group.Count; at++)
            {
                foreach (var opening in cavities[group[at]].Openings)
                {
                    if (opening.Beyond < 0 || opening.DiameterMm < widthMm || seen[opening.Beyond]) continue;
                    seen[opening.Beyond] = true;
                    group.Add(opening.Beyond);
                }
            }

            yield return [.. group.Select(c => cavities[c])];
        }
    }

    private static Finding? Pools(TrappedLiquid liquid)
    {
        if (liquid.PooledMm3 < WorthTellingMm3 || liquid.Pools.Count == 0) return null;
        var largest = liquid.Pools[0];
        return Rules.LiquidPool.Found(Severity.Note,
            S($"Printed as the file lies, {Volume(liquid.PooledMm3)} of liquid stay in hollows open toward the platform, up to {largest.DepthMm:0.0} mm deep.")
            + (largest.Drain is { } drain ? S($"Turn the part, or drill through {drain.WallMm:0.0} mm at {Place.Of(drain.At)}.") : $"Turn the part so that they open downward or sideways.")) with
        {
            Measured = Math.Round(liquid.PooledMm3, 2),
            Limit = 0,
            Unit = "mm³",
            At = largest.At,
            Source = $"common practice; the file's own pose",
        };
    }

    private static Finding? Suction(TrappedLiquid liquid)
    {
        if (liquid.SuctionMm2 < WorthTellingMm2 || liquid.SuctionCups.Count == 0) return null;
        var largest = liquid.SuctionCups.MaxBy(c => c.AreaMm2)!;
        return Rules.LiquidSuction.Found(Severity.Note,
            S($"Printed as the file lies, the film seals up to {liquid.SuctionMm2:0} mm² over {liquid.SuctionLastsMm:0.0} mm of layers and pulls at the part with each.")
            + (largest.Vent is { } vent ? S($"Turn the part, or let air in through {vent.WallMm:0.0} mm of wall at {Place.Of(vent.At)}.") : $"Turn the part so that the hollow opens sideways.")) with
        {
            Measured = Math.Round(liquid.SuctionMm2, 2),
            Limit = 0,
            Unit = "mm²",
            At = largest.At,
            Source = $"separation force: Polymers 2023, 15, 2716; the file's own pose",
        };
    }

    /// <summary>Where to open a cavity: its lowest end, and its highest for the air.</summary>
    private static Sentence Advice(Cavity cavity, Process process)
    {
        var width = process.Limit(LimitKey.DrainDiameter) is { } drain ? S($"{drain.Value:0.#} mm") : $"a few millimetres";
        return (cavity.Drain, cavity.Vent, process.Limit(LimitKey.DrainCount)?.Value ?? 1) switch
        {
            ({ } low, { } high, > 1) => S($"Open it by {width} through {low.WallMm:0.0} mm of wall at {Place.Of(low.At)}, and at its other end through {high.WallMm:0.0} mm at {Place.Of(high.At)}."),
            ({ } low, _, _) => $"Open it by {width} through {low.WallMm:0.0} mm of wall at {Place.Of(low.At)}.",
            (null, { } high, _) => $"Open it by {width} through {high.WallMm:0.0} mm of wall at {Place.Of(high.At)}.",
            _ => $"Open it by {width}, or fill it.",
        };
    }

    private static Sentence Volume(double mm3) => mm3 < 100 ? S($"{mm3:0.#} mm³") : $"{mm3 / 1000:0.0#} cm³";
}
