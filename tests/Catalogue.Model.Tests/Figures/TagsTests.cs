using Catalogue.Model.Figures;
using Xunit;

namespace Catalogue.Model.Tests.Figures;

public sealed class TagsTests
{
    [Fact]
    public void Tags_are_parted_at_commas_and_lines_and_each_is_kept_once_in_small_letters() =>
        Assert.Equal(["sea", "night watch", "möwe"], Tags.Checked([" Sea,  Night \t watch,,", "SEA\nMöwe\r\n"]));

    [Fact]
    public void None_is_no_fault() => Assert.Empty(Tags.Checked(null));

    [Fact]
    public void Too_many_and_one_too_long_are_refused_with_what_there_was()
    {
        var many = Assert.Throws<RuleBrokenException>(() => Tags.Checked(Enumerable.Range(0, 13).Select(n => $"tag {n}")));
        Assert.Equal("tags-invalid", many.Code);
        Assert.Contains("13 tags; 12 is the most", many.Message, StringComparison.Ordinal);
        var tooLong = Assert.Throws<RuleBrokenException>(() => Tags.Checked([new string('x', 31)]));
        Assert.Contains("has 31 characters; 30 is the most", tooLong.Message, StringComparison.Ordinal);
        Assert.Equal(12, Tags.Checked(Enumerable.Range(0, 12).Select(n => $"tag {n}")).Length);
    }
}
