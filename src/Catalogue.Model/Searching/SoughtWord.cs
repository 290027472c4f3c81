namespace Catalogue.Model.Searching;

/// <summary>How a word of a text answers a word that is looked for; the smaller the better.</summary>
public enum Likeness : byte
{
    Same = 0,

    /// <summary>The text's word begins with it.</summary>
    Beginning = 1,

    /// <summary>It is somewhere within the text's word.</summary>
    Within = 2,

    /// <summary>One letter is wrong, missing, too many, or changed places with its neighbour.</summary>
    OneOff = 4,

    /// <summary>The same of the text's word as far as it was typed.</summary>
    BeginningOneOff = 5,

    TwoOff = 6,
    BeginningTwoOff = 7,
    None = 15,
}

/// <summary>A word that is looked for, ready to be held against many others.</summary>
/// <remarks>
/// How many letters may be wrong goes by its length: none below four, one below eight, two from there; none in a word with a digit, because M3 is not M2. Counted are
/// substitutions, insertions, deletions and swaps of neighbours (optimal string alignment; that such single slips are four of five misspellings: Damerau, Communications
/// of the ACM 7, 1964, from memory). Time: a few nanoseconds for most words, as many steps as both have letters for those that share nearly all of its letters.
/// </remarks>
public sealed class SoughtWord
{
    private const int LeastForWithin = 4;
    private const int LeastForOne = 4;
    private const int LeastForBeginning = 5;
    private const int LeastForTwo = 8;
    private const int MostLetters = 40;

    private readonly uint _letters;

    /// <param name="word">As <see cref="SearchWords"/> makes it.</param>
    public SoughtWord(string word)
    {
        ArgumentException.ThrowIfNullOrEmpty(word);
        Word = word;
        MostOff = word.Length is < LeastForOne or > MostLetters || word.AsSpan().ContainsAnyInRange('0', '9') ? 0 : word.Length < LeastForTwo ? 1 : 2;
        _letters = LettersOf(word);
    }

    public string Word { get; }

    /// <summary>How many letters may be wrong.</summary>
    public int MostOff { get; }

    /// <summary>As it is written: <see cref="Likeness.Same"/>, <see cref="Likeness.Beginning"/>, <see cref="Likeness.Within"/> or <see cref="Likeness.None"/>.</summary>
    public Likeness AsWritten(string known)
    {
        ArgumentNullException.ThrowIfNull(known);
        if (known.StartsWith(Word, StringComparison.Ordinal)) return known.Length == Word.Length ? Likeness.Same : Likeness.Beginning;
        return (Word.Length >= LeastForWithin || IsDense(Word[0])) && known.Contains(Word, StringComparison.Ordinal) ? Likeness.Within : Likeness.None;
    }

    /// <summary>The same, and with a few wrong letters where it is not there as written.</summary>
    public Likeness Nearly(string known)
    {
        if (AsWritten(known) is not Likeness.None and var written) return written;
        if (MostOff == 0 || known.Length < Word.Length - MostOff || uint.PopCount(_letters & ~LettersOf(known)) > MostOff) return Likeness.None;
        var (whole, beginning) = Distances(known);
        if (whole <= MostOff) return whole == 1 ? Likeness.OneOff : Likeness.TwoOff;
        if (Word.Length < LeastForBeginning || beginning > MostOff) return Likeness.None;
        return beginning == 1 ? Likeness.BeginningOneOff : Likeness.BeginningTwoOff;
    }

    /// <summary>How far it is from all of a word, and from the beginning that is nearest to it; more than <see cref="MostOff"/> where that is all that matters.</summary>
    private (int Whole, int Beginning) Distances(string known)
    {
        var columns = Math.Min(known.Length, Word.Length + MostOff) + 1;
        Span<int> rows = stackalloc int[3 * (MostLetters + 4)];
        var before = rows[..columns];
        var above = rows.Slice(columns, columns);
        var row = rows.Slice(2 * columns, columns);
        for (var j = 0; j < columns; j++) above[j] = j;
        for (var i = 1; i <= Word.Length; i++)
        {
            row[0] = i;
            var least = i;
            for (var j = 1; j < columns; j++)
            {
                var off = Math.Min(Math.Min(above[j], row[j - 1]) + 1, above[j - 1] + (Word[i - 1] == known[j - 1] ? 0 : 1));
                if (i > 1 && j > 1 && Word[i - 1] == known[j - 2] && Word[i - 2] == known[j - 1]) off = Math.Min(off, before[j - 2] + 1);
                row[j] = off;
                least = Math.Min(least, off);
            }

            if (least > MostOff) return (least, least);
            var free = before;
            before = above;
            above = row;
            row = free;
        }

        var beginning = int.MaxValue;
        foreach (var off in above) beginning = Math.Min(beginning, off);
        return (columns == known.Length + 1 ? above[^1] : int.MaxValue, beginning);
    }

    /// <summary>Which letters there are; each that the other lacks is a slip at least.</summary>
    private static uint LettersOf(string word)
    {
        var letters = 0u;
        foreach (var letter in word) letters |= 1u << (letter & 31);
        return letters;
    }

    /// <summary>Scripts in which a word is a sign or two and no space stands between words.</summary>
    private static bool IsDense(char letter) => letter >= '\u2E80';
}
