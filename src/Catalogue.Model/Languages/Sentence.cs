using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Json.Serialization;

namespace Catalogue.Model.Languages;

/// <summary>
/// Something said to people, in whatever language they read: <c>Sentence s = $"A wall is only {mm:0.00} mm thick."</c>. What stands in the source is English and at once the key of its
/// translations, so the source reads as it is shown; the holes keep their values and are written when somebody reads.
/// </summary>
/// <remarks>
/// <para>Made from interpolated strings only, also where there is no hole (<c>$"Show"</c>): a text that came about in another way has no key, and the compiler refuses it.</para>
/// <para>A whole sentence each: another language puts the pieces in another order. Two whole sentences may follow one another (<c>+</c>). A hole may hold a sentence.</para>
/// <para>Stored as its key and values (<see cref="SentenceJson"/>), so that what was found years ago is read in a language that was added today.</para>
/// </remarks>
[InterpolatedStringHandler]
[JsonConverter(typeof(SentenceJson))]
public sealed class Sentence : IEquatable<Sentence>, IFormattable
{
    private readonly StringBuilder? _building;
    private readonly List<object?>? _with;
    private IReadOnlyList<SentencePiece>? _pieces;

    /// <summary>Called by the compiler.</summary>
    public Sentence(int literalLength, int formattedCount)
    {
        _building = new(literalLength + (formattedCount * 4));
        _with = new(formattedCount);
    }

    internal Sentence(IReadOnlyList<SentencePiece> pieces) => _pieces = pieces;

    /// <summary>Says nothing.</summary>
    public static Sentence Empty { get; } = new([]);

    internal IReadOnlyList<SentencePiece> Pieces => _pieces ??= _building!.Length == 0 ? [] : [new(_building.ToString(), [.. _with!])];

    public bool IsEmpty => Pieces.Count == 0;

    /// <summary>As it stands in the source: for programs, logs and tests.</summary>
    public string English => In(Language.English);

    /// <summary>Called by the compiler.</summary>
    public void AppendLiteral(string value)
    {
        ArgumentNullException.ThrowIfNull(value);
        _building!.Append(value.Contains('{', StringComparison.Ordinal) || value.Contains('}', StringComparison.Ordinal)
            ? value.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal)
            : value);
    }

    /// <summary>Called by the compiler.</summary>
    public void AppendFormatted(object? value, string? format = null)
    {
        _building!.Append('{').Append(_with!.Count);
        if (format is not null) _building.Append(':').Append(format);
        _building.Append('}');
        _with.Add(value);
    }

    /// <summary>In a language; in English where that language has no words for it.</summary>
    public string In(Language language)
    {
        ArgumentNullException.ThrowIfNull(language);
        return Pieces switch
        {
            [] => "",
            [var one] => one.In(language),
            var several => string.Join(' ', several.Select(p => p.In(language))),
        };
    }

    /// <summary>In the language of who reads, its own words as they are, and what stands in its holes written by <paramref name="hole"/> when it is no part of the text: for markup.</summary>
    /// <param name="hole">Gets the value and the words it would be written as.</param>
    public string Filled(Func<object?, string, string> hole)
    {
        ArgumentNullException.ThrowIfNull(hole);
        return string.Join(' ', Pieces.Select(p => p.Filled(Language.Current, hole)));
    }

    /// <summary>In the language of who reads (<see cref="Language.Current"/>).</summary>
    public override string ToString() => In(Language.Current);

    public string ToString(string? format, IFormatProvider? formatProvider) => ToString();

    /// <summary>One sentence after another, a space between; each is translated by itself.</summary>
    public static Sentence operator +(Sentence left, Sentence right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return left.IsEmpty ? right : right.IsEmpty ? left : new([.. left.Pieces, .. right.Pieces]);
    }

    public static Sentence Add(Sentence left, Sentence right) => left + right;

    public bool Equals(Sentence? other) => other is not null && English == other.English;

    public override bool Equals(object? obj) => Equals(obj as Sentence);

    public override int GetHashCode() => English.GetHashCode(StringComparison.Ordinal);

    /// <summary>What the mesh readers say of a file: their room knows no sentences and leaves each text with what goes into its holes.</summary>
    public static Sentence FromReader(FormattableString said)
    {
        ArgumentNullException.ThrowIfNull(said);
        return new([new(said.Format, [.. said.GetArguments().Select(a => a is FormattableString inner ? FromReader(inner) : a)])]);
    }

    /// <summary>Words that came from data, such as where a limit comes from: translated where they are somebody’s key, as they are where a host wrote other ones.</summary>
    public static Sentence FromWords(string words)
    {
        var sentence = new Sentence(words.Length, 0);
        sentence.AppendLiteral(words);
        return sentence;
    }
}

/// <summary>One text and what goes into its holes.</summary>
/// <param name="Key">A composite format, <c>A wall is only {0:0.00} mm thick.</c></param>
internal sealed record SentencePiece(string Key, IReadOnlyList<object?> With)
{
    public string In(Language language) => Written(language, static (value, language) => value is Sentence inner ? inner.In(language) : value);

    public string Filled(Language language, Func<object?, string, string> hole) => Written(language, (value, language) => new Hole(value, hole));

    private string Written(Language language, Func<object?, Language, object?> put)
    {
        var format = language.Find(Key);
        if (With.Count == 0 && !format.Contains('{', StringComparison.Ordinal) && !format.Contains('}', StringComparison.Ordinal)) return format;
        var values = new object?[With.Count];
        for (var i = 0; i < values.Length; i++) values[i] = put(With[i], language);
        return string.Format(language.Numbers, format, values);
    }

    private sealed class Hole(object? value, Func<object?, string, string> written) : IFormattable
    {
        public string ToString(string? format, IFormatProvider? formatProvider) =>
            written(value, value is IFormattable formattable ? formattable.ToString(format, formatProvider) : Convert.ToString(value, formatProvider) ?? "");
    }
}
