using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace Catalogue.Model.Languages;

/// <summary>A sentence in a column of plain text: as <see cref="SentenceJson"/> writes it where it has holes, else its words alone, as they also stand in rows of before there were sentences.</summary>
public static class StoredSentence
{
    private const string Start = "[[\"";
    private static readonly JsonSerializerOptions Format = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <param name="most">Characters that there is room for; a sentence that needs more is kept in English, cut off.</param>
    public static string Write(Sentence sentence, int most = int.MaxValue)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        var text = sentence.Pieces switch
        {
            [] => "",
            [{ With.Count: 0 } only] => string.Format(CultureInfo.InvariantCulture, only.Key),
            _ => JsonSerializer.Serialize(sentence, Format),
        };
        if (text.Length <= most) return text;
        var english = sentence.English;
        return english.Length <= most ? english : english[..(most - 1)] + "…";
    }

    public static Sentence Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!text.StartsWith(Start, StringComparison.Ordinal)) return Sentence.FromWords(text);
        try
        {
            return JsonSerializer.Deserialize<Sentence>(text, Format)!;
        }
        catch (JsonException)
        {
            return Sentence.FromWords(text);
        }
    }
}
