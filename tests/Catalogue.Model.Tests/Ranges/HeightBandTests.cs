using Catalogue.Model.Ranges;
using Xunit;

namespace Catalogue.Model.Tests.Ranges;

public sealed class HeightBandTests
{
    [Theory]
    [InlineData("90-120", 90, 120)]
    [InlineData("-60", 0, 60)]
    [InlineData("200-", 200, double.PositiveInfinity)]
    [InlineData("62.5-75", 62.5, 75)]
    public void A_span_is_read_as_it_is_written(string code, double from, double to)
    {
        Assert.True(HeightBand.TryParse(code, out var band));
        Assert.Equal(new(from, to), band);
        Assert.Equal(code, band.Code);
    }

    [Theory, InlineData(null), InlineData(""), InlineData("-"), InlineData("90"), InlineData("120-90"), InlineData("90-90"), InlineData("a-b"), InlineData("1e3-"), InlineData("-5-10"), InlineData("NaN-")]
    public void What_is_no_span_is_refused(string? code) => Assert.False(HeightBand.TryParse(code, out _));

    [Theory, InlineData(0.5), InlineData(59.9), InlineData(60), InlineData(119.99), InlineData(120), InlineData(2000)]
    public void Every_height_is_in_exactly_one_of_the_usual_bands(double height) => Assert.Single(HeightBand.Usual, b => b.Holds(height));
}
