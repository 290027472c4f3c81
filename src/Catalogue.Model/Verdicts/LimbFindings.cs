using Catalogue.Geometry.Limbs;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>Whether a limb survives a finger and a fall, in a process that breaks rather than bends.</summary>
/// <remarks>
/// <para>
/// Finger: a cantilever with a force at its tip, σ = F · L · c / I (any strength-of-materials handbook). Fall: the part drops from a table, its body stops dead, and all the energy of what is beyond the section goes
/// into bending a uniform cantilever of that section as long as the way to its centroid: ½ F² d³ / (3 E I) = m g h, so σ = c · √(6 E m g h / (I d)) (impact on an elastic bar, same handbooks); on
/// the safe side, the floor and the rest of the part take their share.
/// </para>
/// <para>
/// A material is taken to stand its modulus (middle of the published range) times the least published strain at break: right for what breaks without yielding, and only such processes
/// are judged (<see cref="BrittleBelowPercent"/>). Force and height are common practice.
/// </para>
/// </remarks>
public static class LimbFindings
{
    /// <summary>What a finger does without meaning to, N (common practice).</summary>
    public const double FingerN = 10;

    /// <summary>A table, m (common practice).</summary>
    public const double TableM = 0.75;

    /// <summary>Materials whose least elongation at break is below this, %, break; others bend out of the way (common practice).</summary>
    public const double BrittleBelowPercent = 10;

    /// <summary>Loads are rough and the fall is reckoned on the safe side: below this many times what the material stands it is only noted (common practice).</summary>
    public const double CareBeyond = 1.5;

    private const double Gravity = 9.81;
    private static readonly Sentence PushSource = $"cantilever, σ = F·L·c ÷ I (any strength-of-materials handbook); 10 N of finger (common practice)";
    private static readonly Sentence DropSource = $"energy of the fall into bending, σ = c·√(6·E·m·g·h ÷ (I·d)) (any strength-of-materials handbook); table of 0.75 m (common practice)";

    public static IEnumerable<Finding> Of(LimbMeasures limbs, Process process)
    {
        ArgumentNullException.ThrowIfNull(limbs);
        ArgumentNullException.ThrowIfNull(process);
        var material = process.Material;
        if (material.ElongationLowPercent >= BrittleBelowPercent) yield break;
        var stands = Stands(material);
        var fragile = limbs.Limbs.Where(l => Push(l) > stands || Drop(l, material) > stands).ToList();
        if (fragile.Count == 0) yield break;
        var worst = fragile.MaxBy(l => Math.Max(Push(l), Drop(l, material)))!;
        var byFinger = Push(worst) >= Drop(worst, material);
        var (section, stress) = byFinger ? (worst.Pushed, Push(worst)) : (worst.Dropped, Drop(worst, material));

        // Bending stress falls with the cube of the thickness under a force, with the thickness itself under a given energy.
        var thicker = section.ThicknessMm * (byFinger ? Math.Cbrt(stress / stands) : stress / stands);
        var more = fragile.Count > 1 ? S($"So it is with {fragile.Count} limbs.") : Sentence.Empty;
        var name = Sentence.FromWords(material.Name);
        yield return Rules.LimbFragile.Found(stress > CareBeyond * stands ? Severity.Care : Severity.Note,
            (byFinger
                ? S($"A limb is {section.ThicknessMm:0.0} mm thick where it is weakest, {section.LeverMm:0} mm from its tip: a finger that pushes its tip bends it beyond what {name} stands.")
                : $"A limb is {section.ThicknessMm:0.0} mm thick where it is weakest, {section.LeverMm:0} mm from its tip: a fall from a table bends it beyond what {name} stands.")
            + more + Remedy(Math.Ceiling(thicker * 10) / 10, process)) with
        {
            Measured = Math.Round(stress, 1),
            Limit = Math.Round(stands, 1),
            Unit = "MPa",
            At = section.At,
            Arithmetic =
                $"{(byFinger ? Pushed(section, stress) : Dropped(section, stress, material))}; {name} stands {Modulus(material):0} MPa × {material.ElongationLowPercent:0.#} % = {stands:0} MPa",
            Source = $"{(byFinger ? PushSource : DropSource)}; {name}: {Sentence.FromWords(material.Origin)}",
        };
    }

    /// <summary>Bending stress in MPa when a finger pushes the tip.</summary>
    public static double Push(Limb limb)
    {
        ArgumentNullException.ThrowIfNull(limb);
        return FingerN * limb.Pushed.PushScore;
    }

    /// <summary>Bending stress in MPa in a fall from a table.</summary>
    public static double Drop(Limb limb, Material material)
    {
        ArgumentNullException.ThrowIfNull(limb);
        ArgumentNullException.ThrowIfNull(material);
        var section = limb.Dropped;
        return section.BeyondMm3 > 0 ? section.DropScore * Math.Sqrt(6 * Modulus(material) * Energy(section, material) / section.BeyondMm3) : 0;
    }

    /// <summary>In MPa: the stress at which it breaks, were it elastic up to there.</summary>
    public static double Stands(Material material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return Modulus(material) * material.ElongationLowPercent / 100;
    }

    /// <summary>Middle of the published range, MPa.</summary>
    private static double Modulus(Material material) => (material.ModulusLowGPa + material.ModulusHighGPa) / 2 * 1000;

    /// <summary>What the material beyond the section falls with, N·mm: g/cm³ · mm³ is mg, times m/s² · m is µJ, a thousandth of a N·mm.</summary>
    private static double Energy(LimbSection section, Material material) =>
        (material.DensityLow + material.DensityHigh) / 2 * section.BeyondMm3 * Gravity * TableM / 1000;

    private static Sentence Pushed(LimbSection section, double stress) =>
        $"{FingerN:0} N × {section.LeverMm:0.0} mm ÷ {section.ModulusMm3:0.###} mm³ = {stress:0} MPa";

    private static Sentence Dropped(LimbSection section, double stress, Material material) =>
        $"what is beyond ({section.BeyondMm3 * (material.DensityLow + material.DensityHigh) / 2000:0.0} g) falls: {section.FibreMm:0.00} mm × √(6 × {Modulus(material):0} MPa × {Energy(section, material):0.0##} N·mm ÷ ({section.SecondMomentMm4:0.###} mm⁴ × {Math.Max(section.BeyondLeverMm, section.FibreMm):0.0} mm)) = {stress:0} MPa";

    private static Sentence Remedy(double thickMm, Process process) => ProcessCode.Category(process.Code) switch
    {
        "VPP" => S($"Make it {thickMm:0.0} mm thick there, or print it in a tough or flexible resin."),
        "MEX" => $"Make it {thickMm:0.0} mm thick there, or print it in a flexible filament.",
        _ => $"Make it {thickMm:0.0} mm thick there, or print it in a material that bends.",
    };
}
