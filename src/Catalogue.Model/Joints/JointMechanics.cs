using Catalogue.Model.Figures;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;

namespace Catalogue.Model.Joints;

/// <summary>How a joint holds on one process: the formula, its values, and the finding they make.</summary>
/// <param name="Formula">In words a reader can check: “(ball Ø − mouth Ø) ÷ mouth Ø”.</param>
/// <param name="Arithmetic">The formula with its values and the result.</param>
/// <param name="Finding">What it means on the process; its severity decides.</param>
public sealed record JointMechanics(Sentence Formula, Sentence Arithmetic, Finding Finding)
{
    /// <summary>
    /// Of the strain that the material survives, a snap joint may use this much without a word, and nothing beyond
    /// <see cref="MostShareOfStrain"/> (common practice: 0.5 to 0.7).
    /// </summary>
    public const double UsualShareOfStrain = 0.6;

    public const double MostShareOfStrain = 0.7;

    /// <summary>A sleeve with more play than this, mm, leaves the glue to hold alone (common practice).</summary>
    internal const double MostGluedPlayMm = 0.5;

    /// <summary>A plug shorter than this share of its diameter leans in its sleeve (common practice).</summary>
    internal const double LeastPlugShare = 1;

    /// <summary>A hole made of flat facets is narrower than its name by this much (our own bound).</summary>
    internal const double FacetsMm = 0.05;

    private static readonly Sentence SnapSource = $"annular snap joint, strain = (ball Ø − mouth Ø) ÷ mouth Ø, at most 0.7 of the material’s (common practice)";
    private static readonly Sentence BeamSource = $"beam bent to a radius, strain = thickness ÷ (2 × radius) (any strength-of-materials handbook); at most 0.7 of the material’s (common practice)";

    /// <summary>Everything that can be computed of a joint from its dimensions, for a process it is used on. Pure; microseconds.</summary>
    /// <param name="joint">Dimensions that are missing leave out what needs them; where something has to stretch or bend, that it is not known is found instead.</param>
    /// <param name="process">Gives the material and the limits.</param>
    public static IReadOnlyList<JointMechanics> Of(JointSpec joint, Process process)
    {
        ArgumentNullException.ThrowIfNull(joint);
        ArgumentNullException.ThrowIfNull(process);
        return joint.Kind switch
        {
            JointKind.PopInBall => [.. Listed(Snap(joint, process), Play(joint, process, PlayWords.Ball))],
            JointKind.PlugInSleeve or JointKind.Glued => [.. Listed(Play(joint, process, PlayWords.Plug), Grip(joint))],
            JointKind.PressFit => [.. Listed(Press(joint, process))],
            JointKind.PinnedHinge => [.. Listed(Pin(joint, process))],
            JointKind.Retracting => [.. Listed(Bend(joint, process))],
            _ => [],
        };
    }

    /// <summary>The findings of all that can be computed, and the verdict they make.</summary>
    public static Judgement Judge(JointSpec joint, Process process) => Judgement.From(Of(joint, process).Select(m => m.Finding));

    private static IEnumerable<JointMechanics> Listed(params JointMechanics?[] all) => all.OfType<JointMechanics>();

    /// <summary>The socket's mouth has to stretch over the ball.</summary>
    private static JointMechanics? Snap(JointSpec joint, Process process)
    {
        if (joint is not { InnerDiameterMm: { } ball, MouthDiameterMm: { } mouth })
        {
            return Unknown($"(ball Ø − mouth Ø) ÷ mouth Ø", $"({Known(joint.InnerDiameterMm)} − {Known(joint.MouthDiameterMm)}) ÷ {Known(joint.MouthDiameterMm)}",
                $"{joint.Name}: the ball’s or the mouth’s diameter is not given, so nobody knows whether the socket survives the ball. Print the two parts first and try; the designer can add it.");
        }

        var strain = 100 * (ball - mouth) / mouth;
        Sentence formula = $"(ball Ø − mouth Ø) ÷ mouth Ø";
        Sentence arithmetic = $"({ball:0.###} − {mouth:0.###}) ÷ {mouth:0.###} = {strain:0.#} %";
        if (strain <= 0)
        {
            return new(formula, arithmetic, Rules.JointLoose.Found(Severity.Stop,
                $"{joint.Name}: the mouth of {mouth:0.##} mm does not hold a ball of {ball:0.##} mm; it falls out. Make the mouth narrower.") with
            {
                Measured = strain,
                Limit = 0,
                Unit = "%",
                Source = SnapSource,
            });
        }

        return new(formula, arithmetic, Strained(joint, process, strain, SnapSource,
            $"the socket has to stretch {strain:0.#} % over the ball", $"use a sleeve and glue there, or a wider mouth"));
    }

    /// <summary>A retracting part bends over its seat; the seat's diameter is the joint's outer one.</summary>
    private static JointMechanics? Bend(JointSpec joint, Process process)
    {
        if (joint is not { InnerDiameterMm: { } thickness, OuterDiameterMm: { } seat })
        {
            return Unknown($"thickness ÷ seat Ø", $"{Known(joint.InnerDiameterMm)} ÷ {Known(joint.OuterDiameterMm)}",
                $"{joint.Name}: how thick it is where it bends, or the seat’s diameter, is not given, so nobody knows whether it survives the bend. Print the two parts first and try; the designer can add it.");
        }

        var strain = 100 * thickness / seat;
        return new($"thickness ÷ seat Ø", $"{thickness:0.###} ÷ {seat:0.###} = {strain:0.#} %", Strained(joint, process, strain, BeamSource,
            $"{thickness:0.##} mm of material bend {strain:0.#} % over a seat of Ø {seat:0.##} mm", $"print it in a material that bends, make it thinner or the seat wider"));
    }

    private static JointMechanics Unknown(Sentence formula, Sentence arithmetic, Sentence why) => new(formula, arithmetic, Rules.JointUnknown.Found(Severity.Note, why));

    private static Sentence Known(double? mm) => mm is { } given ? S($"{given:0.###}") : $"?";

    private static Finding Strained(JointSpec joint, Process process, double strain, Sentence source, Sentence what, Sentence remedy)
    {
        var material = process.Material;
        var name = Sentence.FromWords(material.Name);
        var survived = Survived(material);
        var share = strain / survived;
        var limit = survived * MostShareOfStrain;
        var severity = share > MostShareOfStrain ? Severity.Stop : share > UsualShareOfStrain ? Severity.Care : Severity.Note;
        return Rules.JointStrain.Found(severity, severity switch
        {
            Severity.Stop => S($"{joint.Name}: {what}; {name} survives about {survived:0.#} % and should use {limit:0.#} % at most: it cracks; {remedy}."),
            Severity.Care => $"{joint.Name}: {what}; near the {limit:0.#} % that {name} should use at most: warm it before and go slowly.",
            _ => $"{joint.Name}: {what}; {name} takes {limit:0.#} %.",
        }) with
        {
            Measured = Math.Round(strain, 2),
            Limit = Math.Round(limit, 2),
            Unit = "%",
            Source = $"{source}; elongation of {name}: {Sentence.FromWords(material.Origin)}",
        };
    }

    /// <summary>The middle of the published range of elongation, %.</summary>
    public static double Survived(Material material)
    {
        ArgumentNullException.ThrowIfNull(material);
        return (material.ElongationLowPercent + material.ElongationHighPercent) / 2;
    }

    /// <summary>The play that two printed pieces have, less what the process may miss on each.</summary>
    private static JointMechanics? Play(JointSpec joint, Process process, PlayWords words)
    {
        if (joint is not { InnerDiameterMm: { } plug, OuterDiameterMm: { } hole } || process.Limit(LimitKey.Accuracy) is not { } accuracy) return null;
        var play = hole - plug;
        var missed = accuracy.Value / 100 * (plug + hole);
        var least = play - missed;
        var moves = joint.Kind == JointKind.PopInBall;
        var (rule, severity, judged) = play <= 0
            ? (Rules.JointTight, Severity.Stop, words.DoesNotGoIn(Least(process)))
            : least < 0 ? (Rules.JointTight, Severity.Care, words.Sand)
            : play > MostGluedPlayMm && !moves ? (Rules.JointLoose, Severity.Care, words.Wobbles)
            : (Rules.JointPlay, Severity.Note, $"that goes together.");
        return new(words.Formula(accuracy.Value),
            $"{hole:0.###} − {plug:0.###} = {play:0.0##} mm; less {missed:0.0##} mm = {least:0.0##} mm",
            rule.Found(severity, $"{joint.Name}: {play:0.0#} mm of play, of which printing may take {missed:0.0#} mm; {judged}") with
            {
                Measured = Math.Round(least, 3),
                Limit = 0,
                Unit = "mm",
                Source = Sentence.FromWords(accuracy.Origin),
            });
    }

    private static double Least(Process process) => process.Limit(LimitKey.Clearance)?.Value ?? 0.2;

    /// <summary>A glued plug should go in about as deep as it is thick.</summary>
    private static JointMechanics? Grip(JointSpec joint)
    {
        if (joint is not { InnerDiameterMm: { } plug, LengthMm: { } length }) return null;
        var share = length / plug;
        return new($"length ÷ plug Ø", $"{length:0.###} ÷ {plug:0.###} = {share:0.##}", share < LeastPlugShare
            ? Rules.JointShort.Found(Severity.Note, $"{joint.Name}: the plug goes in {length:0.#} mm, less than its {plug:0.#} mm of thickness; hold it straight until the glue has set.") with
            {
                Measured = Math.Round(share, 3),
                Limit = LeastPlugShare,
                Unit = "",
                Source = Rules.JointShort.Origin,
            }
            : Rules.JointGrip.Found(Severity.Note, $"{joint.Name}: the plug goes in {length:0.#} mm, enough to keep it straight.") with
            {
                Measured = Math.Round(share, 3),
                Limit = LeastPlugShare,
                Unit = "",
                Source = Rules.JointGrip.Origin,
            });
    }

    /// <summary>A press fit holds by stretching its hole; with play it is a push fit that has to be glued.</summary>
    private static JointMechanics? Press(JointSpec joint, Process process)
    {
        if (joint is not { InnerDiameterMm: { } peg, OuterDiameterMm: { } hole })
        {
            return Unknown($"(peg Ø − hole Ø + what printing may add) ÷ hole Ø", $"({Known(joint.InnerDiameterMm)} − {Known(joint.OuterDiameterMm)} + …) ÷ {Known(joint.OuterDiameterMm)}",
                $"{joint.Name}: the peg’s or the hole’s diameter is not given, so nobody knows whether the hole survives the peg. Print the two parts first and try; the designer can add it.");
        }

        if (process.Limit(LimitKey.Accuracy) is not { } accuracy) return null;
        var over = peg - hole;
        var missed = accuracy.Value / 100 * (peg + hole);
        if (over + missed <= 0) return Play(joint, process, PlayWords.Peg);
        var strain = 100 * (over + missed) / hole;
        return new($"(peg Ø − hole Ø + what printing may add) ÷ hole Ø", $"({peg:0.###} − {hole:0.###} + {missed:0.0##}) ÷ {hole:0.###} = {strain:0.#} %",
            Strained(joint, process, strain, $"hoop strain of a pressed hole (any strength-of-materials handbook); at most 0.7 of the material’s (common practice)",
                $"the hole may have to stretch {strain:0.#} % over the peg", $"sand the peg or drill the hole first"));
    }

    /// <summary>The rod has to go into the printed hole. Reaming is part of putting a hinge together, so only a hole drawn narrower than its rod asks for care.</summary>
    private static JointMechanics? Pin(JointSpec joint, Process process)
    {
        if (joint is not { InnerDiameterMm: { } rod, OuterDiameterMm: { } hole }) return null;
        var passage = RodPassage.Of(hole, rod, process);
        var severity = hole < rod - FacetsMm ? Severity.Care : Severity.Note;
        return new($"hole Ø − {RodPassage.MostShrinkMm:0.#}…{RodPassage.LeastShrinkMm:0.#} mm", $"{passage.Arithmetic}; rod {rod:0.###} mm",
            Rules.JointPin.Found(severity, $"{joint.Name}: {passage.Advice}.") with
            {
                Measured = Math.Round(passage.AsPrinted.Least, 3),
                Limit = rod,
                Unit = "mm",
                Source = Rules.JointPin.Origin,
            });
    }
}
