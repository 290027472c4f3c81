using System.Collections.Concurrent;

namespace Catalogue.Data.Ranges;

/// <summary>
/// The words of the range, each kept once with a number, so that a figure's text is a few numbers and a search looks at each word once, not at every text.
/// </summary>
/// <remarks>
/// Only grows; a full reading of the range begins a new one. Thread-safe. A search takes as long as it takes to look for the wanted letters in every
/// word: under a millisecond for some ten thousand words.
/// </remarks>
internal sealed class Vocabulary
{
    private readonly ConcurrentDictionary<string, int> _numbers = new(StringComparer.Ordinal);
    private readonly List<string> _words = [];

    /// <summary>The numbers of the words of a text, each once, in ascending order.</summary>
    public int[] NumbersOf(string text)
    {
        var numbers = new SortedSet<int>();
        foreach (var word in WordsOf(text)) numbers.Add(_numbers.TryGetValue(word, out var number) ? number : Add(word));
        return [.. numbers];
    }

    /// <summary>Per word of the question, which words of the range contain it.</summary>
    public WordSearch Search(string? question)
    {
        var wanted = WordsOf(question ?? "");
        if (wanted.Length == 0) return new([]);
        string[] known;
        lock (_words) known = [.. _words];
        return new([.. wanted.Distinct(StringComparer.Ordinal).Select(w => Array.ConvertAll(known, k => k.Contains(w, StringComparison.Ordinal)))]);
    }

    private static string[] WordsOf(string text) => text.ToLowerInvariant().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);

    private int Add(string word)
    {
        lock (_words)
        {
            if (_numbers.TryGetValue(word, out var number)) return number;
            _words.Add(word);
            return _numbers[word] = _words.Count - 1;
        }
    }
}

/// <summary>A question in words, ready to be put to any number of figures.</summary>
/// <param name="Hits">Per word that must occur: true for each word of the vocabulary that contains it.</param>
internal sealed record WordSearch(IReadOnlyList<bool[]> Hits)
{
    /// <summary>True when every word of the question occurs in some word of the figure.</summary>
    public bool Finds(IndexedFigure figure)
    {
        foreach (var hit in Hits)
            if (!Array.Exists(figure.Words, n => n < hit.Length && hit[n])) return false;
        return true;
    }
}
