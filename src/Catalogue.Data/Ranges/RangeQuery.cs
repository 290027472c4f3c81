using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>What a visitor asks of the range.</summary>
public sealed record RangeQuery
{
    public const int LargestPage = 200;

    /// <summary>Words that must all occur in title, summary, part names or hardware.</summary>
    public string? Words { get; init; }

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
}

/// <summary>A figure with its verdict for the printer asked about; null when none was.</summary>
/// <param name="Process">The process the verdict is for: the printer's, or, when only a volume was asked about, the one that suits best.</param>
public sealed record RangeItem(IndexedFigure Figure, string? Process, FigureVerdict? Verdict);

public sealed record RangePage(IReadOnlyList<RangeItem> Items, int Total, int Page, int Size)
{
    /// <summary>How many of the figures found have each verdict, whichever verdicts were asked for; empty without a printer.</summary>
    public IReadOnlyDictionary<Verdict, int> Counts { get; init; } = new Dictionary<Verdict, int>();

    public int Pages => Math.Max(1, (Total + Size - 1) / Size);
}

/// <summary>The whole range on several processes for one volume.</summary>
public sealed record RangeMatrix(IReadOnlyList<string> Processes, IReadOnlyList<MatrixRow> Rows);

public sealed record MatrixRow(IndexedFigure Figure, IReadOnlyList<MatrixCell> Cells);

public sealed record MatrixCell(string Process, FigureVerdict Verdict);
