using System.Globalization;
using Catalogue.Demo.Scenario;
using Catalogue.Model;
using Catalogue.Model.Figures;
using Catalogue.Model.Reports;

namespace Catalogue.Web.Demo;

/// <summary>From the demo's words to the catalogue's entities: the one place where they meet.</summary>
internal static class DemoTranslation
{
    /// <summary>A draft with everything but its meshes.</summary>
    public static Figure Draft(DemoFigure demo, DateTime now)
    {
        var figure = new Figure(demo.Slug, TextOf(demo), now);
        var choices = demo.Choices.ToDictionary(c => c.Slug, c => figure.AddChoice(c.Slug, c.Name, now));
        var parts = new Dictionary<string, Part>();
        foreach (var piece in demo.Parts)
        {
            var role = piece.Role == DemoCodes.Optional ? PartRole.Optional : PartRole.Required;
            var part = parts[piece.Slug] = figure.AddPart(piece.Slug, piece.Name, piece.Quantity, role, now, piece.Description);
            if (piece.Choice is { } choice) part.Join(choices[choice], now);
            part.Place([.. piece.Poses.Select(p => new Pose(p.Position.X, p.Position.Y, p.Position.Z, p.Rotation.ToRowMajor()))], now);
            foreach (var variant in piece.Variants) part.AddVariant(variant.Slug, variant.Name, [.. variant.Processes], now);
        }

        foreach (var choice in demo.Choices) choices[choice.Slug].MakeDefault(parts[choice.DefaultPart], now);
        foreach (var joint in demo.Joints) figure.AddJoint(JointOf(joint), parts[joint.PartA], parts[joint.PartB], now);
        var hardware = demo.Hardware.ToDictionary(
            h => h.Slug, h => figure.AddHardware(HardwareOf(h), now, h.ForPart is { } part ? [parts[part]] : null));
        foreach (var step in demo.Steps.OrderBy(s => s.Number))
        {
            var member = step.ForPart is { } part && parts[part].Role == PartRole.ChoiceMember ? parts[part] : null;
            figure.AddStep(new(step.Title, step.Text) { Processes = step.Processes, OnlyWithChoiceMember = member }, now,
                [.. step.Parts.Select(p => parts[p])], [.. step.Hardware.Select(h => hardware[h])]);
        }

        return figure;
    }

    public static ReportText ReportOf(DemoReport report) => new(
        report.Process,
        Word<ReportOutcome>(report.Outcome),
        report.Symptom is null ? ReportSymptom.None : Word<ReportSymptom>(report.Symptom),
        report.Stage is null ? ReportStage.Use : Word<ReportStage>(report.Stage))
    {
        Printer = SettingsOf(report.Settings),
        LayerHeightMm = report.Settings.LayerMm,
        Note = report.Note,
        ReportedBy = report.Reporter,
    };

    private static FigureText TextOf(DemoFigure demo) => new()
    {
        Title = demo.Title,
        Summary = demo.Summary,
        Tags = demo.Tags,
        Story = demo.Story,
        PaintingNotes = demo.Painting,
        ReferenceNote = demo.ReferenceNote,
        HeightMm = demo.HeightMm,
        ScaleDenominator = demo.Scale,
        Licence = demo.Licence,
        Credits = string.Join('\n', demo.Credits.Select(c => $"- {c.Name}: {c.Role}")),
        Cautions = string.Join('\n', demo.Cautions.Select(c => "- " + c)),
    };

    private static JointSpec JointOf(DemoJoint joint)
    {
        var inner = joint.BallMm ?? joint.SleeveMm ?? joint.PinMm ?? joint.BendThicknessMm;
        return new(Word<JointKind>(joint.Kind), joint.Name)
        {
            InnerDiameterMm = inner,
            OuterDiameterMm = joint.HoleMm ?? 2 * joint.BendRadiusMm ?? (joint.ClearanceMm is { } gap && inner is { } held ? held + gap : null),
            MouthDiameterMm = joint.MouthMm,
            LengthMm = joint.LengthMm,
            Note = joint.Note is not null ? joint.Note : joint.BendRadiusMm is { } radius
                ? string.Create(CultureInfo.InvariantCulture, $"Bends {joint.BendThicknessMm} mm of material over a radius of {radius} mm.")
                : null,
            Processes = joint.Processes,
        };
    }

    private static HardwareSpec HardwareOf(DemoHardware hardware) => new(Word<HardwareKind>(hardware.Kind), hardware.Name, hardware.Quantity)
    {
        Size = hardware.Size,
        DiameterMm = hardware.DiameterMm,
        CutLengthMm = hardware.CutLengthMm,
        Substitutes = hardware.Substitutes,
        Caution = hardware.Caution,
        Processes = hardware.Processes,
    };

    private static string SettingsOf(DemoSettings s) => string.Create(CultureInfo.InvariantCulture,
        $"{s.Material}; {s.VolumeMm.X:0.#} × {s.VolumeMm.Y:0.#} × {s.VolumeMm.Z:0.#} mm; {s.Orientation}; {s.Supports}");

    private static T Word<T>(string word)
        where T : struct, Enum => Words.TryParse<T>(word.Replace(' ', '-'), out var value)
            ? value
            : throw new InvalidOperationException($"The demo says “{word}”, which is not a {typeof(T).Name}.");
}
