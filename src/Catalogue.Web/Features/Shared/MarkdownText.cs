using Ganss.Xss;
using Markdig;
using Markdig.Syntax;
using Microsoft.AspNetCore.Html;

namespace Catalogue.Web.Features.Shared;

/// <summary>Markdown from designers as HTML that cannot do harm: CommonMark with tables, raw HTML shown as text, the result sanitised once more.</summary>
/// <remarks>Headings begin at h3, so that a text never competes with the page it stands on. Thread-safe.</remarks>
public sealed class MarkdownText
{
    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .DisableHtml().UsePipeTables().UseAutoLinks().UseEmphasisExtras().Build();

    private readonly HtmlSanitizer _sanitizer = CreateSanitizer();

    public IHtmlContent Html(string? markdown)
    {
        if (string.IsNullOrWhiteSpace(markdown)) return HtmlString.Empty;
        var document = Markdown.Parse(markdown, Pipeline);
        FitHeadings([.. document.Descendants<HeadingBlock>()]);
        return new HtmlString(_sanitizer.Sanitize(document.ToHtml(Pipeline)));
    }

    /// <summary>The words alone, on one line, for descriptions of a page.</summary>
    public static string Plain(string? markdown) =>
        string.Join(' ', Markdown.ToPlainText(markdown ?? "", Pipeline).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>The text's highest heading becomes h3, and none is more than one step below the one before it, whatever its writer skipped.</summary>
    private static void FitHeadings(IReadOnlyList<HeadingBlock> headings)
    {
        var (before, highest) = (2, headings.Count == 0 ? 1 : headings.Min(h => h.Level));
        foreach (var heading in headings)
            before = heading.Level = Math.Min(Math.Min(heading.Level - highest + 3, before + 1), 6);
    }

    private static HtmlSanitizer CreateSanitizer()
    {
        var sanitizer = new HtmlSanitizer(new HtmlSanitizerOptions
        {
            AllowedTags = new HashSet<string>
            {
                "p", "br", "hr", "h1", "h2", "h3", "h4", "h5", "h6", "ul", "ol", "li", "blockquote", "pre", "code", "em", "strong", "del", "sub", "sup",
                "ins", "mark", "a", "img", "table", "thead", "tbody", "tr", "th", "td",
            },
            AllowedAttributes = new HashSet<string> { "href", "src", "alt", "title", "start" },
            AllowedSchemes = new HashSet<string> { "http", "https", "mailto" },
            UriAttributes = new HashSet<string> { "href", "src" },
        });

        // Pictures from elsewhere would tell other hosts who reads here; the content policy would not show them anyway.
        sanitizer.PostProcessNode += (_, e) =>
        {
            if (e.Node is AngleSharp.Html.Dom.IHtmlImageElement image) image.Remove();
            if (e.Node is AngleSharp.Html.Dom.IHtmlAnchorElement anchor) anchor.SetAttribute("rel", "nofollow noopener");
        };
        return sanitizer;
    }
}
