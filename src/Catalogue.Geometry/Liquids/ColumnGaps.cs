using System.Runtime.CompilerServices;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>The empty stretches between, below and above the material of each column, numbered column after column from the lowest.</summary>
/// <remarks>A column of n stretches of material has n + 1 gaps; the first begins at −∞, the last ends at +∞. O(columns + stretches).</remarks>
internal sealed class ColumnGaps
{
    private readonly int[] _columnOf;

    public ColumnGaps(SolidColumns columns)
    {
        Columns = columns;
        var count = columns.Width * columns.Depth;
        Count = count + columns.SpanCount;
        (From, To, _columnOf) = (new float[Count], new float[Count], new int[Count]);
        var gap = 0;
        for (var column = 0; column < count; column++)
        {
            var from = float.NegativeInfinity;
            foreach (var span in columns.Spans(column))
            {
                (From[gap], To[gap], _columnOf[gap++]) = (from, span.Bottom, column);
                from = span.Top;
            }

            (From[gap], To[gap], _columnOf[gap++]) = (from, float.PositiveInfinity, column);
        }
    }

    public SolidColumns Columns { get; }

    public int Count { get; }

    public float[] From { get; }

    public float[] To { get; }

    public int ColumnOf(int gap) => _columnOf[gap];

    /// <summary>The number of the first gap of a column; also one past the last of the column before.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public int First(int column) => Columns.Starts[column] + column;

    /// <summary>The columns beside a column, in at most four numbers; −1 stands for the outside of the grid.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Beside(int column, Span<int> beside)
    {
        var (i, j) = (column % Columns.Width, column / Columns.Width);
        beside[0] = i > 0 ? column - 1 : -1;
        beside[1] = i < Columns.Width - 1 ? column + 1 : -1;
        beside[2] = j > 0 ? column - Columns.Width : -1;
        beside[3] = j < Columns.Depth - 1 ? column + Columns.Width : -1;
    }

    /// <summary>The gap of a column that holds a height; −1 when it lies in material there.</summary>
    public int At(int column, double height)
    {
        for (var gap = First(column); gap < First(column + 1); gap++)
            if (height >= From[gap] && height <= To[gap]) return gap;
        return -1;
    }
}
