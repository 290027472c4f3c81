using System.Text.Encodings.Web;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Web.Features.Languages;
using Microsoft.AspNetCore.Html;
using Microsoft.AspNetCore.WebUtilities;

namespace Catalogue.Web.Features.Shared;

/// <summary>
/// What this request knows of who reads: their printer and whether they want inches. The link says it first, the browser's cookie second, so
/// that a shared link shows the same to everybody.
/// </summary>
public sealed class Visitor
{
    public const string PrinterCookie = "catalogue.printer";
    public const string UnitCookie = "catalogue.unit";
    private readonly HttpContext _http;

    public Visitor(IHttpContextAccessor accessor)
    {
        ArgumentNullException.ThrowIfNull(accessor);
        _http = accessor.HttpContext ?? throw new InvalidOperationException("A visitor exists only within a request.");
        (Kept, KeptAlso) = FromCookie(_http.Request.Cookies[PrinterCookie]);
        try
        {
            Linked = PrinterLink.Read(_http.Request.Query);
            if (Linked is not null) LinkedAlso = PrinterLink.ReadAlso(_http.Request.Query, Linked);
        }
        catch (RuleBrokenException broken)
        {
            LinkProblem = broken.Said.ToString();
        }

        var unit = _http.Request.Query["unit"].ToString();
        Inches = unit.Length > 0 ? unit == "inch" : _http.Request.Cookies[UnitCookie] == "inch";
    }

    /// <summary>The printer the browser keeps.</summary>
    public Printer? Kept { get; }

    /// <summary>What else the browser knows that they print with.</summary>
    public IReadOnlyList<Printer> KeptAlso { get; }

    /// <summary>The printer the address names.</summary>
    public Printer? Linked { get; }

    /// <summary>What else the address names.</summary>
    public IReadOnlyList<Printer> LinkedAlso { get; } = [];

    /// <summary>Why the printer in the address could not be understood.</summary>
    public string? LinkProblem { get; }

    /// <summary>The printer this page is for; <see cref="Printer.Unknown"/> when there is none.</summary>
    public Printer Printer => Linked ?? Kept ?? Printer.Unknown;

    /// <summary>What else they print with; for figures that need a second process.</summary>
    public IReadOnlyList<Printer> Also => Linked is not null ? LinkedAlso : KeptAlso;

    /// <summary>True when the address names another printer than the browser keeps.</summary>
    public bool IsVisiting => Linked is not null && (Linked != (Kept ?? Printer.Unknown) || !LinkedAlso.SequenceEqual(KeptAlso));

    public bool Inches { get; }

    public Lengths Lengths => new(Inches);

    /// <summary>Words explained on this page so far: each explanation has an address of its own.</summary>
    internal int Terms { get; set; }

    /// <summary>The address of a page of this site, below the path it is served under, with the printer and unit of this request.</summary>
    /// <param name="path">Begins with a slash; may hold a query and a fragment of its own.</param>
    public string Link(string path) => Link(path, Printer);

    /// <summary>This page in another language; the browser keeps it from there on.</summary>
    public string InLanguage(Language language)
    {
        ArgumentNullException.ThrowIfNull(language);
        var rest = _http.Request.Query.Where(q => q.Key != ReaderLanguage.QueryName).SelectMany(q => q.Value, (q, value) => KeyValuePair.Create(q.Key, value));
        return _http.Request.PathBase + _http.Request.Path + QueryString.Create(rest.Append(KeyValuePair.Create(ReaderLanguage.QueryName, (string?)language.Code)));
    }

    /// <summary>A link within a sentence: <c>H($"By the numbers of {Visitor.Anchor("/processes", $"these processes")}.")</c>.</summary>
    public IHtmlContent Anchor(string path, Sentence words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return new HtmlString($"<a href=\"{HtmlEncoder.Default.Encode(Link(path))}\">{HtmlEncoder.Default.Encode(words.ToString())}</a>");
    }

    /// <summary>The same with another printer; with other ones besides, or those of this request when it is this request's printer.</summary>
    public string Link(string path, Printer printer, IReadOnlyList<Printer>? also = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        var (rest, fragment) = path.IndexOf('#', StringComparison.Ordinal) is >= 0 and var at ? (path[..at], path[at..]) : (path, "");
        var query = QueryOf(printer, also);
        if (query.Length > 0) rest += (rest.Contains('?', StringComparison.Ordinal) ? '&' : '?') + query;
        return _http.Request.PathBase + rest + fragment;
    }

    /// <summary>Lets the browser keep a printer, or forget it.</summary>
    public void Keep(Printer? printer, IReadOnlyList<Printer> also, bool inches)
    {
        Write(PrinterCookie, printer is null ? null : WithAlso(printer, also));
        Write(UnitCookie, inches ? "inch" : null);
    }

    /// <summary>The printer and the unit as a query, without a question mark; empty when there is nothing to say.</summary>
    public string QueryOf(Printer printer, IReadOnlyList<Printer>? also = null)
    {
        ArgumentNullException.ThrowIfNull(printer);
        var query = WithAlso(printer, also ?? (printer == Printer ? Also : []));
        if (query.Length == 0 && Kept is not null) query = "process="; // No printer, on purpose.
        if (!Inches) return query;
        return query.Length > 0 ? query + "&unit=inch" : "unit=inch";
    }

    /// <summary>The query of a printer and the others besides it.</summary>
    public static string WithAlso(Printer printer, IReadOnlyList<Printer> also) =>
        also.Count > 0 && !printer.IsUnknown ? printer.Query() + "&" + PrinterLink.QueryAlso(also, printer) : printer.Query();

    private void Write(string cookie, string? value)
    {
        var options = new CookieOptions
        {
            HttpOnly = true,
            IsEssential = true,
            SameSite = SameSiteMode.Lax,
            Secure = _http.Request.IsHttps,
            Path = _http.Request.PathBase.HasValue ? _http.Request.PathBase.Value : "/",
            MaxAge = TimeSpan.FromDays(400),
        };
        if (value is null) _http.Response.Cookies.Delete(cookie, options);
        else _http.Response.Cookies.Append(cookie, value, options);
    }

    private static (Printer? Printer, IReadOnlyList<Printer> Also) FromCookie(string? cookie)
    {
        if (string.IsNullOrEmpty(cookie) || cookie.Length > 400) return (null, []);
        try
        {
            var query = new QueryCollection(QueryHelpers.ParseQuery(cookie));
            var printer = PrinterLink.Read(query);
            return (printer, printer is null ? [] : PrinterLink.ReadAlso(query, printer));
        }
        catch (RuleBrokenException)
        {
            // A cookie somebody else wrote: as good as none.
            return (null, []);
        }
    }
}
