using System.Globalization;
using Catalogue.Geometry.Fit;
using Xunit;

namespace Catalogue.Geometry.Tests.Fit;

public sealed class BuildVolumeTests
{
    [Theory]
    [InlineData("64x114x152", 64, 114, 152, false)]
    [InlineData(" 63.5 × 114.3 X 152.4 ", 63.5, 114.3, 152.4, false)]
    [InlineData("200x300", 200, 200, 300, true)]
    public void A_volume_is_read_from_text(string text, double width, double depth, double height, bool round)
    {
        var volume = BuildVolume.Parse(text);
        Assert.Equal((width, depth, height, round), (volume.Width, volume.Depth, volume.Height, volume.IsRound));
        Assert.Equal(volume, BuildVolume.Parse(volume.ToString()));
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("64")]
    [InlineData("64x114x152x3")]
    [InlineData("64x-1x3")]
    [InlineData("64x0x3")]
    [InlineData("64xNaNx3")]
    [InlineData("1e9x2x3")]
    [InlineData("64,5x2x3")]
    [InlineData("64x114xinf")]
    public void Text_that_is_no_volume_is_refused_with_an_example(string? text)
    {
        Assert.False(BuildVolume.TryParse(text, out _));
        Assert.Contains("64x114x152", Assert.Throws<FormatException>(() => BuildVolume.Parse(text)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Text_does_not_depend_on_the_reader_s_language()
    {
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
        try
        {
            Assert.Equal("63.5x114.3x152.4", BuildVolume.Parse("63.5x114.3x152.4").ToString());
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void A_margin_is_kept_free_on_every_side()
    {
        var volume = BuildVolume.Rectangular(64, 114, 152).WithMargin(2);
        Assert.Equal((60, 110, 148), (volume.UsableWidth, volume.UsableDepth, volume.UsableHeight));
    }
}
