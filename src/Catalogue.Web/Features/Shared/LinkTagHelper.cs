using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Catalogue.Web.Features.Shared;

/// <summary><c>&lt;a to="/figures/x"&gt;</c>: a link within the site that keeps the visitor's printer and the path the site is served under.</summary>
[HtmlTargetElement("a", Attributes = "to")]
public sealed class LinkTagHelper(Visitor visitor) : TagHelper
{
    public string To { get; set; } = "/";

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.Attributes.SetAttribute("href", visitor.Link(To));
    }
}
