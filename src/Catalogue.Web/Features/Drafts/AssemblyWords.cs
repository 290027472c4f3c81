using Catalogue.Model;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>What a designer says of a piece of hardware.</summary>
/// <param name="Quantity">1 when absent.</param>
/// <param name="Processes">The processes it is needed on; absent or empty = all.</param>
/// <param name="Parts">The slugs of the parts it goes with; absent or empty = the whole figure.</param>
internal sealed record HardwareWords(
    HardwareKind? Kind, string? Name, int? Quantity, string? Size, double? DiameterMm, double? CutLengthMm, string? Substitutes, string? Caution,
    bool? Optional, IReadOnlyList<string>? Processes, IReadOnlyList<string>? Parts)
{
    public HardwareNeed AddTo(Figure figure, DateTime now) => figure.AddHardware(Spec(), now, PartsOf(figure));

    public HardwareNeed ApplyTo(Figure figure, HardwareNeed need, DateTime now)
    {
        figure.ChangeHardware(need, Spec(), now, PartsOf(figure));
        return need;
    }

    private HardwareSpec Spec() => new(AssemblyWords.Stated(Kind), Name ?? "", Quantity ?? 1)
    {
        Size = Size,
        DiameterMm = DiameterMm,
        CutLengthMm = CutLengthMm,
        Substitutes = Substitutes,
        Caution = Caution,
        IsOptional = Optional ?? false,
        Processes = Processes ?? [],
    };

    private List<Part> PartsOf(Figure figure) => [.. (Parts ?? []).Distinct().Select(figure.PartOf)];
}

/// <summary>What a designer says of a joint. Dimensions in mm.</summary>
/// <param name="InnerDiameterMm">The ball, the plug or the pin.</param>
/// <param name="OuterDiameterMm">The socket, the sleeve or the hole.</param>
/// <param name="MouthDiameterMm">The narrowest opening a ball has to pass.</param>
internal sealed record JointWords(
    JointKind? Kind, string? Name, string? FirstPart, string? SecondPart, double? InnerDiameterMm, double? OuterDiameterMm, double? MouthDiameterMm,
    double? LengthMm, string? Note, IReadOnlyList<string>? Processes)
{
    public Joint AddTo(Figure figure, DateTime now) => figure.AddJoint(Spec(), figure.PartOf(FirstPart), figure.PartOf(SecondPart), now);

    public Joint ApplyTo(Figure figure, Joint joint, DateTime now)
    {
        figure.ChangeJoint(joint, Spec(), figure.PartOf(FirstPart), figure.PartOf(SecondPart), now);
        return joint;
    }

    private JointSpec Spec() => new(AssemblyWords.Stated(Kind), Name ?? "")
    {
        InnerDiameterMm = InnerDiameterMm,
        OuterDiameterMm = OuterDiameterMm,
        MouthDiameterMm = MouthDiameterMm,
        LengthMm = LengthMm,
        Note = Note,
        Processes = Processes ?? [],
    };
}

/// <summary>What a designer says of an assembly step.</summary>
/// <param name="Body">Markdown.</param>
/// <param name="Processes">The processes it applies to; absent or empty = all.</param>
/// <param name="OnlyWith">The slug of the member of a choice it applies to; absent = whichever is built.</param>
/// <param name="Parts">The slugs of the parts it names.</param>
/// <param name="Hardware">The ids of the hardware it names.</param>
/// <param name="Position">Its place among the steps, from 1.</param>
internal sealed record StepWords(
    string? Title, string? Body, IReadOnlyList<string>? Processes, string? OnlyWith, IReadOnlyList<string>? Parts, IReadOnlyList<Guid>? Hardware, int? Position)
{
    public Step AddTo(Figure figure, DateTime now)
    {
        var step = figure.AddStep(Spec(figure), now, PartsOf(figure), HardwareOf(figure));
        if (Position is { } position) figure.MoveStep(step, position, now);
        return step;
    }

    public Step ApplyTo(Figure figure, Step step, DateTime now)
    {
        figure.ChangeStep(step, Spec(figure), now, PartsOf(figure), HardwareOf(figure));
        if (Position is { } position) figure.MoveStep(step, position, now);
        return step;
    }

    private StepSpec Spec(Figure figure) => new(Title ?? "", Body ?? "")
    {
        Processes = Processes ?? [],
        OnlyWithChoiceMember = string.IsNullOrWhiteSpace(OnlyWith) ? null : figure.PartOf(OnlyWith),
    };

    private List<Part> PartsOf(Figure figure) => [.. (Parts ?? []).Distinct().Select(figure.PartOf)];

    private List<HardwareNeed> HardwareOf(Figure figure) => [.. (Hardware ?? []).Distinct().Select(figure.HardwareOf)];
}

internal static class AssemblyWords
{
    public static TKind Stated<TKind>(TKind? kind)
        where TKind : struct, Enum => kind ?? throw new RuleBrokenException("kind-missing",
            $"The kind is missing. Nothing was changed; it is one of: {string.Join(", ", Words.All<TKind>())}.");
}
