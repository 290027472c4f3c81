using Catalogue.Model.Reports;
using Xunit;

namespace Catalogue.Model.Tests.Reports;

public sealed class ReportTests
{
    [Theory]
    [InlineData("VPP-rigid", ReportOutcome.Failed, ReportSymptom.Snapped, null)]
    [InlineData("VPP-rigid", ReportOutcome.Worked, ReportSymptom.None, null)]
    [InlineData("VPP-rigid", ReportOutcome.Failed, ReportSymptom.None, "symptom-missing")]
    [InlineData("VPP-rigid", ReportOutcome.Worked, ReportSymptom.Snapped, "symptom-unexpected")]
    [InlineData("my printer", ReportOutcome.Worked, ReportSymptom.None, "process-invalid")]
    public void A_failure_has_a_symptom_and_a_success_has_none(string process, ReportOutcome outcome, ReportSymptom symptom, string? refusal)
    {
        var text = new ReportText(process, outcome, symptom, ReportStage.Use);
        if (refusal is null) Assert.Equal(process, File(text).Process);
        else Assert.Equal(refusal, Assert.Throws<RuleBrokenException>(() => File(text)).Code);
    }

    private static Report File(ReportText text) => new(Guid.NewGuid(), Guid.NewGuid(), Guid.NewGuid(), text, DateTime.UtcNow);
}
