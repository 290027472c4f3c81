using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Html;

namespace Catalogue.Web.Features.Shared;

/// <summary>Sentences with emphasis and links in them; imported on every page.</summary>
public static class Markup
{
    /// <summary>
    /// A sentence whose own words are HTML: <c>@H($"Lay &lt;strong&gt;{name}&lt;/strong&gt; down.")</c>. What stands in its holes is encoded, unless it is HTML itself, such as a link
    /// (<see cref="Visitor.Anchor"/>) or another sentence of this kind.
    /// </summary>
    public static IHtmlContent H(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        return new HtmlString(sentence.Filled(static (value, words) => value is IHtmlContent html ? Written(html) : HtmlEncoder.Default.Encode(words)));
    }

    private static string Written(IHtmlContent html)
    {
        using var writer = new StringWriter();
        html.WriteTo(writer, HtmlEncoder.Default);
        return writer.ToString();
    }
}
