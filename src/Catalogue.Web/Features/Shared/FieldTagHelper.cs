using System.Globalization;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Mvc.Rendering;
using Microsoft.AspNetCore.Mvc.ViewFeatures;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace Catalogue.Web.Features.Shared;

/// <summary>What a field takes.</summary>
public enum FieldKind
{
    Text,
    Number,
    Area,
    Password,
}

/// <summary>
/// <c>&lt;field for="Form.Title" label="Title" note="…" /&gt;</c>: a label, a note, the control with what was sent, and what is wrong
/// with it, tied together for those who hear the page. With <c>choices</c> it is a list to choose from.
/// </summary>
[HtmlTargetElement("field", Attributes = "for", TagStructure = TagStructure.NormalOrSelfClosing)]
public sealed class FieldTagHelper : TagHelper
{
    public ModelExpression For { get; set; } = null!;
    public string Label { get; set; } = "";
    public string? Note { get; set; }
    public FieldKind Kind { get; set; }
    public int Rows { get; set; } = 5;
    public int? Maxlength { get; set; }
    public bool Required { get; set; }

    /// <summary>Not said to be optional: the page tells when it may be empty.</summary>
    public bool Unmarked { get; set; }
    public string? Autocomplete { get; set; }

    /// <summary>Offered while typing; anything else may be typed as well.</summary>
    public IEnumerable<string>? Suggestions { get; set; }

    /// <summary>The only values there are.</summary>
    public IEnumerable<SelectListItem>? Choices { get; set; }

    [ViewContext, HtmlAttributeNotBound]
    public ViewContext ViewContext { get; set; } = null!;

    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(output);
        var name = ViewContext.ViewData.TemplateInfo.GetFullHtmlFieldName(For.Name);
        var id = TagBuilder.CreateSanitizedId(name, "-");
        ViewContext.ViewData.ModelState.TryGetValue(name, out var state);
        var error = state?.Errors.FirstOrDefault()?.ErrorMessage is { } message ? Known(message) : null;
        var value = state?.AttemptedValue ?? Convert.ToString(For.Model, CultureInfo.InvariantCulture) ?? "";

        output.TagName = "div";
        output.TagMode = TagMode.StartTagAndEndTag;
        output.Attributes.SetAttribute("class", "field");
        output.Content.AppendHtml($"""<label for="{id}">{Encode(Label)}{(Required || Unmarked ? "" : $" <span class=\"soft\">{Encode(T($"(optional)"))}</span>")}</label>""");
        if (Note is not null) output.Content.AppendHtml($"""<span class="field-note" id="{id}-note">{Encode(Note)}</span>""");
        output.Content.AppendHtml(Control(id, name, value, error));
        if (Suggestions is not null)
            output.Content.AppendHtml($"""<datalist id="{id}-list">{string.Concat(Suggestions.Select(s => $"<option value=\"{Encode(s)}\"></option>"))}</datalist>""");
        if (!string.IsNullOrEmpty(error)) output.Content.AppendHtml($"""<span class="field-error" id="{id}-error">{Encode(error)}</span>""");
    }

    private TagBuilder Control(string id, string name, string value, string? error)
    {
        var control = new TagBuilder(Choices is not null ? "select" : Kind == FieldKind.Area ? "textarea" : "input");
        control.Attributes["id"] = id;
        control.Attributes["name"] = name;
        if (Required && Choices?.FirstOrDefault()?.Value is not { Length: > 0 }) control.Attributes["required"] = "required"; // A list without an empty line always has an answer.
        if (Maxlength is { } max) control.Attributes["maxlength"] = max.ToString(CultureInfo.InvariantCulture);
        if (Autocomplete is not null) control.Attributes["autocomplete"] = Autocomplete;
        var describedBy = string.Join(' ', new[] { error is null ? null : id + "-error", Note is null ? null : id + "-note" }.OfType<string>());
        if (describedBy.Length > 0) control.Attributes["aria-describedby"] = describedBy;
        if (error is not null) control.Attributes["aria-invalid"] = "true";
        if (Choices is not null)
        {
            foreach (var choice in Choices) control.InnerHtml.AppendHtml(Option(choice, value));
        }
        else if (Kind == FieldKind.Area)
        {
            control.Attributes["rows"] = Rows.ToString(CultureInfo.InvariantCulture);
            control.InnerHtml.AppendHtml("\n").Append(value);
        }
        else
        {
            control.TagRenderMode = TagRenderMode.SelfClosing;
            control.Attributes["type"] = Kind == FieldKind.Password ? "password" : "text";
            if (Kind != FieldKind.Password) control.Attributes["value"] = value;
            if (Suggestions is not null) control.Attributes["list"] = id + "-list";
            if (Kind == FieldKind.Number)
            {
                control.Attributes["inputmode"] = "decimal";
                control.AddCssClass("input-number");
            }
        }

        return control;
    }

    private static TagBuilder Option(SelectListItem choice, string value)
    {
        var option = new TagBuilder("option");
        option.Attributes["value"] = choice.Value ?? choice.Text;
        if ((choice.Value ?? choice.Text) == value) option.Attributes["selected"] = "selected";
        option.InnerHtml.Append(choice.Text);
        return option;
    }

    private static string Encode(string text) => HtmlEncoder.Default.Encode(text);
}
