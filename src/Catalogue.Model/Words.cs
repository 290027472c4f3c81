using System.Reflection;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Catalogue.Model;

/// <summary>The words that stand for the members of an enumeration in addresses, forms and JSON: <c>PopInBall</c> is <c>pop-in-ball</c>.</summary>
/// <remarks>A member may name another word with <see cref="JsonStringEnumMemberNameAttribute"/>.</remarks>
public static class Words
{
    /// <summary>The word of a member, such as <c>pop-in-ball</c>.</summary>
    public static string Of<T>(T value)
        where T : struct, Enum => Known<T>.ByValue[value];

    /// <summary>The same for people, with spaces: <c>pop in ball</c>.</summary>
    public static string Spoken<T>(T value)
        where T : struct, Enum => Of(value).Replace('-', ' ');

    /// <summary>All words, in the order of the members.</summary>
    public static IReadOnlyList<string> All<T>()
        where T : struct, Enum => [.. Known<T>.ByValue.Values];

    public static bool TryParse<T>(string? word, out T value)
        where T : struct, Enum
    {
        value = default;
        return word is not null && Known<T>.ByWord.TryGetValue(word, out value);
    }

    private static class Known<T>
        where T : struct, Enum
    {
        public static readonly Dictionary<T, string> ByValue = Enum.GetValues<T>().ToDictionary(v => v, WordOf);
        public static readonly Dictionary<string, T> ByWord = ByValue.ToDictionary(p => p.Value, p => p.Key, StringComparer.Ordinal);

        private static string WordOf(T value) =>
            typeof(T).GetField(value.ToString())!.GetCustomAttribute<JsonStringEnumMemberNameAttribute>()?.Name
            ?? JsonNamingPolicy.KebabCaseLower.ConvertName(value.ToString());
    }
}
