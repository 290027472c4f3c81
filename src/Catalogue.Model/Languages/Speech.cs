namespace Catalogue.Model.Languages;

/// <summary>Says things; imported everywhere, because everything that people read goes through it.</summary>
public static class Speech
{
    /// <summary>What the reader reads: <c>T($"{count} figures")</c>.</summary>
    public static string T(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        return sentence.ToString();
    }

    /// <summary>A sentence as such, where the compiler needs telling: <c>S($"…")</c>.</summary>
    public static Sentence S(Sentence sentence) => sentence;

    /// <summary>Words that came from data, such as the name of a built-in process, translated where they are somebody's key and as they are where a host wrote other ones.</summary>
    public static string Known(string words)
    {
        ArgumentNullException.ThrowIfNull(words);
        return Language.Current.Find(words);
    }
}
