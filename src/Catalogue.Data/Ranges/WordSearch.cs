using Catalogue.Model.Searching;

namespace Catalogue.Data.Ranges;

/// <summary>A word of a question that no figure answers as it is written, and the words of the figures found that were taken for it, most frequent first.</summary>
public sealed record WordTaken(string Word, IReadOnlyList<string> For);

/// <summary>Which figures answer a question in words, and how well.</summary>
/// <remarks>
/// Every word of the question has to be answered by some word of the figure. As it is written first: as a whole word, as a word's beginning, or within one. Only when no
/// figure has all words so, a few wrong letters are forgiven (<see cref="SoughtWord"/>): a visitor who wrote it right is not shown what merely looks like it.
/// Each word is held against the vocabulary once, then figures are asked by number. Ten thousand figures: a millisecond or two.
/// </remarks>
internal sealed class WordSearch
{
    private const int MostTaken = 4;

    private readonly byte[]? _costs;

    private WordSearch(byte[]? costs, IReadOnlyList<WordTaken> taken) => (_costs, Taken) = (costs, taken);

    /// <summary>False when there are no words: then every figure is found.</summary>
    public bool IsAsked => _costs is not null;

    /// <summary>Where letters were forgiven; empty when the words are there as written.</summary>
    public IReadOnlyList<WordTaken> Taken { get; }

    public bool Finds(int figure) => _costs is null || _costs[figure] != byte.MaxValue;

    /// <summary>How far the figure's words are from the question's; 0 = they are the same and in its title. Ascending, the best come first.</summary>
    public int CostOf(int figure) => _costs?[figure] ?? 0;

    public static WordSearch Over(IReadOnlyList<IndexedFigure> figures, Vocabulary vocabulary, string? question)
    {
        var sought = SearchWords.Of(question).Distinct(StringComparer.Ordinal).Select(w => new SoughtWord(w)).ToArray();
        if (sought.Length == 0) return new(null, []);
        var words = vocabulary.Words;
        var likeness = new Likeness[sought.Length][];
        for (var s = 0; s < sought.Length; s++)
        {
            likeness[s] = new Likeness[words.Length];
            for (var w = 0; w < words.Length; w++) likeness[s][w] = sought[s].AsWritten(words[w]);
        }

        var costs = new byte[figures.Count];
        if (Weigh(figures, likeness, costs)) return new(costs, []);
        for (var s = 0; s < sought.Length; s++)
        {
            if (sought[s].MostOff == 0) continue;
            for (var w = 0; w < words.Length; w++) likeness[s][w] = sought[s].Nearly(words[w]);
        }

        return Weigh(figures, likeness, costs) ? new(costs, TakenFor(figures, sought, likeness, costs, words)) : new(costs, []);
    }

    /// <summary>Sets what each figure costs; true when one is found.</summary>
    private static bool Weigh(IReadOnlyList<IndexedFigure> figures, Likeness[][] likeness, byte[] costs)
    {
        var any = false;
        for (var f = 0; f < costs.Length; f++)
        {
            var cost = 0;
            foreach (var known in likeness)
            {
                var (anywhere, title) = (Best(known, figures[f].Words), Best(known, figures[f].TitleWords));
                if (anywhere == Likeness.None)
                {
                    cost = byte.MaxValue;
                    break;
                }

                cost = Math.Min(cost + Math.Min((2 * (int)anywhere) + 1, 2 * (int)title), byte.MaxValue - 1);
            }

            costs[f] = (byte)cost;
            any |= cost != byte.MaxValue;
        }

        return any;
    }

    /// <summary>Words that were read into the vocabulary after the question was put are not there yet.</summary>
    private static Likeness Best(Likeness[] known, int[] words)
    {
        var best = Likeness.None;
        foreach (var word in words)
            if (word < known.Length && known[word] < best) best = known[word];
        return best;
    }

    private static List<WordTaken> TakenFor(IReadOnlyList<IndexedFigure> figures, SoughtWord[] sought, Likeness[][] likeness, byte[] costs, ReadOnlySpan<string> words)
    {
        var taken = new List<WordTaken>();
        for (var s = 0; s < sought.Length; s++)
        {
            var times = new Dictionary<int, int>();
            for (var f = 0; f < costs.Length; f++)
            {
                if (costs[f] == byte.MaxValue) continue;
                var best = Best(likeness[s], figures[f].Words);
                if (best < Likeness.OneOff) continue;
                foreach (var word in figures[f].Words)
                    if (word < words.Length && likeness[s][word] == best) times[word] = times.GetValueOrDefault(word) + 1;
            }

            var counted = new List<(string Word, int Times)>();
            foreach (var (word, count) in times) counted.Add((words[word], count));
            if (counted.Count > 0) taken.Add(new(sought[s].Word, [.. counted.OrderByDescending(c => c.Times).ThenBy(c => c.Word, StringComparer.Ordinal).Take(MostTaken).Select(c => c.Word)]));
        }

        return taken;
    }
}
