using Catalogue.Model.Verdicts;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Catalogue.Web.Features.Shared;

/// <summary><c>&lt;verdict of="…" /&gt;</c>: the word and the shape of a verdict. <c>large</c> for the one a page is about.</summary>
[HtmlTargetElement("verdict", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class VerdictTagHelper : TagHelper
{
    public Verdict Of { get; set; }

    public bool Large { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", $"verdict verdict-{Of.Code()}{(Large ? " verdict-large" : "")}");
        output.Content.SetHtmlContent(Shapes.Of(Of));
        output.Content.Append(Of.Words());
    }
}

/// <summary><c>&lt;severity of="…" /&gt;</c>: the shape of a finding's severity, and its word for those who hear the page.</summary>
[HtmlTargetElement("severity", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class SeverityTagHelper : TagHelper
{
    public Severity Of { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Content.SetHtmlContent(Shapes.Of(Of));
        output.Content.AppendHtml($"""<span class="aside-voice">{Words}: </span>""");
    }

    private string Words => Of switch
    {
        Severity.Stop => T($"Stands in the way"),
        Severity.Care => T($"Take care"),
        _ => T($"Note"),
    };
}

/// <summary><c>&lt;shape of="…" /&gt;</c>: a verdict's shape alone, its word for those who hear the page; for places where the word would not fit.</summary>
[HtmlTargetElement("shape", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class ShapeTagHelper : TagHelper
{
    public Verdict Of { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.TagName = "span";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", $"shape shape-{Of.Code()}");
        output.Attributes.SetAttribute("title", Of.Words());
        output.Content.SetHtmlContent(Shapes.Of(Of));
        output.Content.AppendHtml($"""<span class="aside-voice">{Of.Words()}: </span>""");
    }
}
