using System.Globalization;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Catalogue.Web.Features.Shared;

/// <summary><c>&lt;moment of="…" /&gt;</c>: a time in UTC, for people and for programs.</summary>
[HtmlTargetElement("moment", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class MomentTagHelper : TagHelper
{
    public DateTime Of { get; set; }

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        output.TagName = "time";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("datetime", Of.ToString("yyyy-MM-ddTHH:mm:ssZ", CultureInfo.InvariantCulture));
        output.Content.SetContent(Language.Current.Moment(Of) + " UTC");
    }
}
