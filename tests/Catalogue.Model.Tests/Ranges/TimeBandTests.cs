using Catalogue.Model.Ranges;
using Xunit;

namespace Catalogue.Model.Tests.Ranges;

public sealed class TimeBandTests
{
    [Theory]
    [InlineData("4-8", 4, 8)]
    [InlineData("-2", 0, 2)]
    [InlineData("32-", 32, double.PositiveInfinity)]
    [InlineData("0.5-1.5", 0.5, 1.5)]
    public void A_span_is_read_as_it_is_written(string code, double from, double to)
    {
        Assert.True(TimeBand.TryParse(code, out var band));
        Assert.Equal(new(from, to), band);
        Assert.Equal(code, band.Code);
    }

    [Theory, InlineData(null), InlineData("-"), InlineData("8"), InlineData("8-4"), InlineData("soon")]
    public void What_is_no_span_is_refused(string? code) => Assert.False(TimeBand.TryParse(code, out _));

    [Theory, InlineData(0), InlineData(1.99), InlineData(2), InlineData(31.9), InlineData(32), InlineData(500)]
    public void Every_time_is_in_exactly_one_of_the_usual_bands(double hours) => Assert.Single(TimeBand.Usual, b => b.Holds(hours));

    [Fact]
    public void A_time_that_is_not_known_is_in_none() => Assert.DoesNotContain(TimeBand.Usual, b => b.Holds(double.NaN));
}
