using System.Text.Json;
using System.Text.Json.Serialization;
using Catalogue.Model;

namespace Catalogue.Web.Api;

/// <summary>Enumerations as the words of <see cref="Words"/>, in both directions; numbers are not taken.</summary>
internal sealed class WordConverter : JsonConverterFactory
{
    public override bool CanConvert(Type typeToConvert) => typeToConvert.IsEnum;

    public override JsonConverter? CreateConverter(Type typeToConvert, JsonSerializerOptions options) =>
        (JsonConverter)Activator.CreateInstance(typeof(Of<>).MakeGenericType(typeToConvert))!;

    private sealed class Of<T> : JsonConverter<T>
        where T : struct, Enum
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            var word = reader.TokenType == JsonTokenType.String ? reader.GetString() : null;
            return Words.TryParse<T>(word, out var value)
                ? value
                : throw new JsonException($"“{word ?? "(not a text)"}” is not one of: {string.Join(", ", Words.All<T>())}.");
        }

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteStringValue(Words.Of(value));
    }
}
