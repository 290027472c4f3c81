using Catalogue.Model.Reports;
using Catalogue.Model.Verdicts;
using Xunit;

namespace Catalogue.Model.Tests.Reports;

public sealed class FailureShareTests
{
    // Wilson 95 %, published values: 4/20, 0/10, 10/10, 1/1, 81/263 (shared trade facts, statistics).
    [Theory]
    [InlineData(4, 20, .080658, .416017)]
    [InlineData(0, 10, 0, .277533)]
    [InlineData(10, 10, .722467, 1)]
    [InlineData(1, 1, .206549, 1)]
    [InlineData(81, 263, .255289, .366210)]
    public void The_interval_is_that_of_the_tables(int failed, int total, double low, double high)
    {
        var share = new FailureShare(failed, total);
        Assert.Equal(low, share.Low, 2e-6);
        Assert.Equal(high, share.High, 2e-6);
    }

    // One in sixty accuses nobody, nor does one in one; 9 of 14 does.
    [Theory, InlineData(1, 60, false), InlineData(1, 1, false), InlineData(2, 2, false), InlineData(2, 3, true), InlineData(9, 14, true), InlineData(4, 20, false)]
    public void A_part_asks_for_care_only_when_its_failures_are_surely_many(int failed, int total, bool care)
    {
        Assert.Equal(care, new FailureShare(failed, total).AsksForCare);
        Assert.Equal(care ? Severity.Care : Severity.Note, ReportFindings.Of(new(failed, total))!.Severity);
    }

    [Fact]
    public void The_sentence_has_count_and_interval()
    {
        Assert.Contains("9 of 14 prints", ReportFindings.Of(new(9, 14))!.Message.English, StringComparison.Ordinal);
        Assert.Contains("39–84 %", ReportFindings.Of(new(9, 14))!.Message.English, StringComparison.Ordinal);
        Assert.Null(ReportFindings.Of(new(0, 14)));
    }
}
