using Catalogue.Model.Processes;

namespace Catalogue.Model.Reports;

public enum ReportOutcome
{
    Worked,
    WorkedWithCare,
    Failed,
}

/// <summary>When it happened.</summary>
public enum ReportStage
{
    Printing,
    Cleaning,
    Assembly,
    Use,
}

public enum ReportSymptom
{
    None,
    CameLoose,
    Warped,
    DetailLost,
    Snapped,
    Cracked,
    TrappedLiquid,
    TooTight,
    TooLoose,
    HoleBlocked,
    DoesNotFitPrinter,
    LayersParted,
    SupportScars,
    Fused,
    Other,
}

/// <summary>What happened when somebody printed a revision of a part.</summary>
public sealed class Report
{
    private Report()
    {
    }

    /// <param name="id">The report's own key, so that handing it in twice is once; null = a new one.</param>
    public Report(Guid figureId, Guid partId, Guid revisionId, ReportText text, DateTime now, Guid? id = null)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!ProcessCode.IsValid(text.Process))
            throw new RuleBrokenException("process-invalid", $"“{text.Process}” is not a process code like “VPP-rigid”. Your report was not kept; choose the process you printed on.");
        if (text.Outcome == ReportOutcome.Failed && text.Symptom == ReportSymptom.None)
            throw new RuleBrokenException("symptom-missing", $"A failure needs a word on what happened. Your report was not kept; choose what you saw.");
        if (text.Outcome == ReportOutcome.Worked && text.Symptom != ReportSymptom.None)
            throw new RuleBrokenException("symptom-unexpected", $"A print that worked has no symptom. Your report was not kept; choose “it failed” if something went wrong.");
        if (text.LayerHeightMm is not (null or (> 0 and <= 2)))
            throw new RuleBrokenException("layer-height-invalid", $"A layer height is above 0 and at most 2 mm. Your report was not kept.");
        Id = id ?? Guid.CreateVersion7();
        FigureId = figureId;
        PartId = partId;
        RevisionId = revisionId;
        Process = text.Process;
        Outcome = text.Outcome;
        Symptom = text.Symptom;
        Stage = text.Stage;
        Printer = Text.Optional(text.Printer, $"The printer and its settings", 300);
        LayerHeightMm = text.LayerHeightMm;
        Note = Text.Optional(text.Note, $"The note", 4_000);
        ReportedBy = Text.Optional(text.ReportedBy, $"The name", 80);
        ReportedAt = now;
    }

    public Guid Id { get; private set; }
    public Guid FigureId { get; private set; }
    public Guid PartId { get; private set; }
    public Guid RevisionId { get; private set; }
    public string Process { get; private set; } = "";
    public ReportOutcome Outcome { get; private set; }
    public ReportSymptom Symptom { get; private set; }
    public ReportStage Stage { get; private set; }
    public string Printer { get; private set; } = "";
    public double? LayerHeightMm { get; private set; }
    public string Note { get; private set; } = "";
    public string ReportedBy { get; private set; } = "";
    public DateTime ReportedAt { get; private set; }

    /// <summary>The revision that answers this report, once a designer says so.</summary>
    public Guid? AnsweredByRevisionId { get; private set; }

    public string Answer { get; private set; } = "";
    public DateTime? AnsweredAt { get; private set; }

    public void AnswerWith(string answer, Guid? revisionId, DateTime now)
    {
        Answer = Text.Required(answer, $"The answer", 2_000);
        AnsweredByRevisionId = revisionId;
        AnsweredAt = now;
    }
}

/// <summary>What a reporter says.</summary>
public sealed record ReportText(string Process, ReportOutcome Outcome, ReportSymptom Symptom, ReportStage Stage)
{
    /// <summary>The printer and its settings, in the reporter's own words.</summary>
    public string? Printer { get; init; }

    public double? LayerHeightMm { get; init; }
    public string? Note { get; init; }
    public string? ReportedBy { get; init; }
}
