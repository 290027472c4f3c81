using System.Collections.Frozen;
using System.Globalization;
using System.Reflection;
using System.Resources;
using Catalogue.Geometry.Formats;

namespace Catalogue.Model.Languages;

/// <summary>A language the interface speaks: its words, from the rooms' <c>Texts.*.resx</c>, and how it writes numbers.</summary>
/// <remarks>
/// <see cref="CultureInfo.CurrentUICulture"/> tells who reads which; <see cref="CultureInfo.CurrentCulture"/> stays invariant throughout, because what programs read (addresses, styles,
/// JSON, CSV) must not change with the reader. So only sentences, lengths, amounts and dates are written by language.
/// </remarks>
public sealed class Language
{
    private static readonly Lock Adding = new();
    private static volatile Assembly[] _rooms = [typeof(MeshFormatException).Assembly, typeof(Language).Assembly];
    private volatile FrozenDictionary<string, string>? _texts;

    private readonly string _day;
    private readonly (string Before, string After) _quotes;

    private Language(string code, string name, CultureInfo numbers, string day, (string Before, string After) quotes) =>
        (Code, Name, Numbers, _day, _quotes) = (code, name, numbers, day, quotes);

    /// <summary>What the source is written in; its resource files may say it in other words still.</summary>
    public static Language English { get; } = new("en", "English", CultureInfo.InvariantCulture, "d MMMM yyyy", ("“", "”"));

    public static Language German { get; } = new("de", "Deutsch", CultureInfo.GetCultureInfo("de"), "d. MMMM yyyy", ("„", "“"));

    /// <summary>Every text in brackets: shows in a test what is not said through <see cref="Sentence"/>. Not offered to anybody.</summary>
    public static Language Bracketed { get; } = new("qps-ploc", "⟦⟧", CultureInfo.InvariantCulture, "d MMMM yyyy", ("“", "”"));

    public static IReadOnlyList<Language> All { get; } = [English, German];

    /// <summary>Of who reads.</summary>
    public static Language Current
    {
        get
        {
            var code = CultureInfo.CurrentUICulture.Name;
            return code.Length == 0 ? English : Of(code) ?? English;
        }
    }

    /// <summary>As in <c>lang</c> attributes.</summary>
    public string Code { get; }

    /// <summary>In its own words.</summary>
    public string Name { get; }

    /// <summary>How numbers and dates are written.</summary>
    public CultureInfo Numbers { get; }

    public CultureInfo Culture => CultureInfo.GetCultureInfo(Code);

    /// <summary>A day as it is written: <c>29 November 2026</c>, <c>29. November 2026</c>.</summary>
    public string Day(DateTime at) => at.ToString(_day, Numbers);

    /// <summary>A moment of a day, shorter: <c>29 Nov 2026, 14:05</c>.</summary>
    public string Moment(DateTime at) => at.ToString(_day.Replace("MMMM", "MMM", StringComparison.Ordinal) + ", HH:mm", Numbers);

    /// <summary>Words that are somebody's own, in this language's quotation marks.</summary>
    public string Quoted(string words) => _quotes.Before + words + _quotes.After;

    /// <summary>By a tag such as <c>de</c> or <c>de-AT</c>; null when the interface does not speak it.</summary>
    public static Language? Of(string? tag)
    {
        if (string.IsNullOrEmpty(tag)) return null;
        if (tag.Equals(Bracketed.Code, StringComparison.OrdinalIgnoreCase)) return Bracketed;
        var main = tag.IndexOf('-', StringComparison.Ordinal) is > 0 and var at ? tag[..at] : tag;
        return All.FirstOrDefault(l => l.Code.Equals(main, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>Takes in the texts of a room above this one.</summary>
    public static void Include(Assembly room)
    {
        lock (Adding)
        {
            if (_rooms.Contains(room)) return;
            _rooms = [.. _rooms, room];
            foreach (var language in All) language._texts = null;
        }
    }

    /// <summary>The words for a key; the key itself where there are none.</summary>
    public string Find(string key)
    {
        if (this == Bracketed) return "⟦" + key + "⟧";
        return (_texts ??= Read(Code)).GetValueOrDefault(key, key);
    }

    private static FrozenDictionary<string, string> Read(string code)
    {
        var ending = code == English.Code ? ".Texts.resources" : $".Texts.{code}.resources";
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var room in _rooms)
        {
            foreach (var name in room.GetManifestResourceNames().Where(n => n.EndsWith(ending, StringComparison.Ordinal)))
            {
                using var reader = new ResourceReader(room.GetManifestResourceStream(name)!);
                foreach (System.Collections.DictionaryEntry entry in reader) texts.TryAdd((string)entry.Key, (string)entry.Value!);
            }
        }

        return texts.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
