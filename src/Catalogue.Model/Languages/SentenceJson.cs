using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Catalogue.Model.Languages;

/// <summary>
/// A sentence as it is stored: a text without holes is its words; else <c>[["A wall is only {0:0.00} mm thick.", 0.83], …]</c>, one array for each text that follows another, a sentence in a
/// hole written in the same way.
/// </summary>
public sealed class SentenceJson : JsonConverter<Sentence>
{
    public override Sentence Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        if (reader.TokenType == JsonTokenType.String) return Sentence.FromWords(reader.GetString()!);
        if (reader.TokenType != JsonTokenType.StartArray) throw new JsonException("A sentence is a text or an array of texts.");
        var pieces = new List<SentencePiece>();
        while (reader.Read() && reader.TokenType == JsonTokenType.StartArray)
        {
            if (!reader.Read() || reader.TokenType != JsonTokenType.String) throw new JsonException("Each text of a sentence begins with its key.");
            var key = reader.GetString()!;
            var with = new List<object?>();
            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray) with.Add(Value(ref reader, options));
            pieces.Add(new(key, with));
        }

        return reader.TokenType == JsonTokenType.EndArray ? new(pieces) : throw new JsonException("A sentence ends where its array ends.");
    }

    public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(value);
        if (value.Pieces is [{ With.Count: 0 } only])
        {
            writer.WriteStringValue(string.Format(CultureInfo.InvariantCulture, only.Key));
            return;
        }

        writer.WriteStartArray();
        foreach (var piece in value.Pieces)
        {
            writer.WriteStartArray();
            writer.WriteStringValue(piece.Key);
            foreach (var with in piece.With) WriteValue(writer, with, options);
            writer.WriteEndArray();
        }

        writer.WriteEndArray();
    }

    private static object? Value(ref Utf8JsonReader reader, JsonSerializerOptions options) => reader.TokenType switch
    {
        JsonTokenType.Number => reader.TryGetInt32(out var whole) ? whole : reader.GetDouble(),
        JsonTokenType.Null => null,
        JsonTokenType.StartArray => JsonSerializer.Deserialize<Sentence>(ref reader, options),
        JsonTokenType.String => reader.GetString(),
        _ => throw new JsonException("A hole holds a number, a word or a sentence."),
    };

    private void WriteValue(Utf8JsonWriter writer, object? value, JsonSerializerOptions options)
    {
        switch (value)
        {
            case null: writer.WriteNullValue(); break;
            case Sentence { Pieces: [{ With.Count: 0 } only] }:
                // Always an array here, to be told from a word that is nobody's key.
                writer.WriteStartArray();
                writer.WriteStartArray();
                writer.WriteStringValue(only.Key);
                writer.WriteEndArray();
                writer.WriteEndArray();
                break;
            case Sentence inner: Write(writer, inner, options); break;
            case int whole: writer.WriteNumberValue(whole); break;
            case long whole: writer.WriteNumberValue(whole); break;
            case double number when double.IsFinite(number): writer.WriteNumberValue(number); break;
            case float number when float.IsFinite(number): writer.WriteNumberValue(number); break;
            default: writer.WriteStringValue(Convert.ToString(value, CultureInfo.InvariantCulture)); break;
        }
    }
}
