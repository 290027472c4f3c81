using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Catalogue.Web.Features.Shared;

/// <summary>
/// <c>&lt;term of="@Term.Pool" /&gt;</c>: a word that opens its explanation on the spot, by the browser's own means (<c>popover</c>): with mouse, finger and keyboard, without a script. On paper it is the
/// word alone.
/// </summary>
[HtmlTargetElement("term", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class TermTagHelper(Visitor visitor) : TagHelper
{
    public Term Of { get; set; } = Term.Verdict;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        var id = $"term-{Of.Code}-{NextNumber()}";
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", "term");
        output.Content.AppendHtml($"<button type=\"button\" class=\"term-word\" popovertarget=\"{id}\">");
        output.Content.Append(T(Of.Name));
        output.Content.AppendHtml($"</button><span id=\"{id}\" class=\"term-means\" popover><strong>");
        output.Content.Append(T(Of.Name));
        output.Content.AppendHtml("</strong> ");
        output.Content.Append(T(Of.Means));
        output.Content.AppendHtml(" <span class=\"soft\">");
        output.Content.Append(T(Of.Example));
        output.Content.AppendHtml("</span> ");
        output.Content.AppendHtml(visitor.Anchor("/words#" + Of.Code, $"All words"));
        output.Content.AppendHtml("</span>");
    }

    private int NextNumber() => visitor.Terms++;
}
