using Catalogue.Geometry.Fit;
using Catalogue.Model.Figures;
using Catalogue.Model.Printers;
using Catalogue.Model.Ranges;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>What a visitor asks of the range.</summary>
public sealed record RangeQuery
{
    public const int LargestPage = 200;

    /// <summary>Words that must all be answered by title, summary, tags, part names or hardware, see <see cref="WordSearch"/>.</summary>
    public string? Words { get; init; }

    /// <summary>Only figures with a height in one of these; empty = all.</summary>
    public IReadOnlyList<HeightBand> Heights { get; init; } = [];

    /// <summary>Only figures that keep the printer busy for one of these times as their files lie; empty = all. Without a process no time is known, and this is ignored.</summary>
    public IReadOnlyList<TimeBand> Times { get; init; } = [];

    /// <summary>Only figures that take one of these kinds of hardware; null stands for those that take none; empty = all.</summary>
    public IReadOnlyList<HardwareKind?> Needs { get; init; } = [];

    /// <summary>Only figures under one of these licences; empty = all.</summary>
    public IReadOnlyList<string> Licences { get; init; } = [];

    /// <summary>Only figures with one of these tags, as they are kept; empty = all.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    public Printer Printer { get; init; } = Printer.Unknown;

    /// <summary>Only figures with one of these verdicts; empty = all. Without a printer no figure has a verdict, and this is ignored.</summary>
    public IReadOnlySet<Verdict> Verdicts { get; init; } = new HashSet<Verdict>();

    public RangeOrder Order { get; init; }

    /// <summary>From 1.</summary>
    public int Page { get; init; } = 1;

    public int Size { get; init; } = 24;
}

/// <summary>How the range is ordered.</summary>
public enum RangeOrder
{
    Title,

    /// <summary>What suits the printer first.</summary>
    Verdict,
    Newest,
    Height,

    /// <summary>What keeps the printer busy for the shortest time first; by title where no process is asked about.</summary>
    Time,

    /// <summary>What answers the words best first; of equals, what suits the printer.</summary>
    Match,
}

/// <summary>A figure with its verdict for the printer asked about; null when none was.</summary>
/// <param name="Process">The process the verdict is for: the printer's, or, when only a volume was asked about, the one that suits best.</param>
public sealed record RangeItem(IndexedFigure Figure, string? Process, FigureVerdict? Verdict)
{
    /// <summary>What the material costs on that process, in the host's currency, supports apart; null where that is not known, or the figure does not suit.</summary>
    public double? MaterialPrice { get; init; }

    /// <summary>Hours that the printer is busy with it as its files lie: supports apart, resin and powder all on one plate; null where that is not known, or the figure does not suit.</summary>
    public double? PrintHours { get; init; }
}

public sealed record RangePage(IReadOnlyList<RangeItem> Items, int Total, int Page, int Size)
{
    /// <summary>How many of the figures found have each verdict, whichever verdicts were asked for; empty without a printer.</summary>
    public IReadOnlyDictionary<Verdict, int> Counts { get; init; } = new Dictionary<Verdict, int>();

    /// <summary>
    /// Figures found whose verdict is open: a part of them is so close to the limit that only a long search can tell, and that was not made for figures not
    /// shown. They are in none of the counts; looking again settles more of them.
    /// </summary>
    public int Open { get; init; }

    /// <summary>False when figures that are open might have the verdicts asked for: the total counts those that surely have.</summary>
    public bool IsTotalExact { get; init; } = true;

    /// <summary>What the figures found could be narrowed down by.</summary>
    public RangeFacets Facets { get; init; } = RangeFacets.None;

    /// <summary>Words that no figure has as they were written, with those that were taken for them.</summary>
    public IReadOnlyList<WordTaken> Taken { get; init; } = [];

    public int Pages => Math.Max(1, (Total + Size - 1) / Size);
}

/// <summary>What is asked of the matrix.</summary>
public sealed record MatrixQuery
{
    public BuildVolume? Volume { get; init; }

    /// <summary>The columns; empty = all processes.</summary>
    public IReadOnlyCollection<string> Processes { get; init; } = [];

    /// <summary>The processes that the range promises.</summary>
    public IReadOnlyCollection<string> Promised { get; init; } = [];

    /// <summary>Words that must all be answered by title, summary, tags, part names or hardware, see <see cref="WordSearch"/>.</summary>
    public string? Words { get; init; }

    /// <summary>Only figures that do not keep the promise.</summary>
    public bool OnlyGaps { get; init; }

    /// <summary>Only figures that have this verdict on <see cref="VerdictOn"/>; null = any.</summary>
    public Verdict? Verdict { get; init; }

    /// <summary>Null = on at least one of the columns.</summary>
    public string? VerdictOn { get; init; }

    public RangeOrder Order { get; init; }

    /// <summary>A process whose worst verdicts come first, instead of <see cref="Order"/>.</summary>
    public string? WorstOn { get; init; }

    /// <summary>From 1.</summary>
    public int Page { get; init; } = 1;

    /// <summary>Null = every row.</summary>
    public int? Size { get; init; }
}

/// <summary>The range on several processes for one volume: the rows asked for, and counts over the whole range.</summary>
/// <param name="Total">How many figures the filters leave.</param>
public sealed record RangeMatrix(IReadOnlyList<string> Processes, IReadOnlyList<MatrixRow> Rows, int Total)
{
    /// <summary>Figures of the whole range.</summary>
    public int InRange { get; init; }

    /// <summary>Figures of the range with a verdict that is still open, see <see cref="RangePage.Open"/>.</summary>
    public int Open { get; init; }

    /// <summary>Figures that suit, with or without care, on every promised process.</summary>
    public int Kept { get; init; }

    /// <summary>Per column how many figures of the range have which verdict.</summary>
    public IReadOnlyList<IReadOnlyDictionary<Verdict, int>> Counts { get; init; } = [];
}

public sealed record MatrixRow(IndexedFigure Figure, IReadOnlyList<MatrixCell> Cells);

public sealed record MatrixCell(string Process, FigureVerdict Verdict);
