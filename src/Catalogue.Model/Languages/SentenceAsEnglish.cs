using System.Text.Json;
using System.Text.Json.Serialization;

namespace Catalogue.Model.Languages;

/// <summary>A sentence where programs read it: its English words, as a plain string.</summary>
public sealed class SentenceAsEnglish : JsonConverter<Sentence>
{
    public override Sentence Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => Sentence.FromWords(reader.GetString()!);

    public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(writer);
        ArgumentNullException.ThrowIfNull(value);
        writer.WriteStringValue(value.English);
    }
}
