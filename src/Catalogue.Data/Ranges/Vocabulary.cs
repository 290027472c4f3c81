using System.Collections.Concurrent;
using Catalogue.Model.Searching;

namespace Catalogue.Data.Ranges;

/// <summary>
/// The words of the range, each kept once with a number, so that a figure's text is a few numbers and a search looks at each word once, not at every text.
/// </summary>
/// <remarks>Only grows; a full reading of the range begins a new one. Thread-safe.</remarks>
internal sealed class Vocabulary
{
    private readonly ConcurrentDictionary<string, int> _numbers = new(StringComparer.Ordinal);
    private readonly Lock _growing = new();
    private string[] _words = new string[256];
    private int _count;

    /// <summary>The numbers of the words of a text, each once, in ascending order.</summary>
    public int[] NumbersOf(string text)
    {
        var numbers = new SortedSet<int>();
        foreach (var word in SearchWords.Of(text)) numbers.Add(_numbers.TryGetValue(word, out var number) ? number : Add(word));
        return [.. numbers];
    }

    /// <summary>All words up to now, by their numbers.</summary>
    public ReadOnlySpan<string> Words
    {
        get
        {
            lock (_growing) return _words.AsSpan(0, _count);
        }
    }

    private int Add(string word)
    {
        lock (_growing)
        {
            if (_numbers.TryGetValue(word, out var number)) return number;
            if (_count == _words.Length) Array.Resize(ref _words, 2 * _count); // Who reads keeps the old array: nothing in it changes.
            _words[_count] = word;
            return _numbers[word] = _count++;
        }
    }
}
