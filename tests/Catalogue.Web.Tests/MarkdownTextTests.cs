using System.Text.RegularExpressions;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Tests;

public sealed class MarkdownTextTests
{
    // WCAG 2.2, technique G141: headings do not skip a level.
    [Theory]
    [InlineData("# a\n\n## b\n\n### c", "3 4 5")]
    [InlineData("## a\n\n## b", "3 3")]
    [InlineData("# a\n\n#### b\n\n# c", "3 4 3")]
    [InlineData("###### a", "3")]
    [InlineData("### a\n\n# b", "3 3")]
    public void Headings_of_a_text_begin_below_the_pages_own_and_skip_no_level(string markdown, string levels) =>
        Assert.Equal(levels, string.Join(' ', Regex.Matches(Html(markdown), "<h([1-6])").Select(m => m.Groups[1].Value)));

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("[x](javascript:alert(1))")]
    [InlineData("![x](https://example.org/a.png)")]
    [InlineData("<a href=\"x\" onclick=\"alert(1)\">x</a>")]
    public void Nothing_in_a_text_can_run_or_call_elsewhere(string markdown)
    {
        var html = Html(markdown);
        Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("href=\"javascript", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("<img", html, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotMatch("<[^>]*onclick", html);
    }

    [Fact]
    public void A_description_is_the_words_alone() =>
        Assert.Equal("The Players perform on wet sand.", MarkdownText.Plain("**The Players** perform\non _wet_ sand."));

    private static string Html(string markdown)
    {
        using var writer = new StringWriter();
        new MarkdownText().Html(markdown).WriteTo(writer, System.Text.Encodings.Web.HtmlEncoder.Default);
        return writer.ToString();
    }
}
