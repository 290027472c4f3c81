using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>Finds where upright columns cross a surface, and makes stretches of material of it.</summary>
/// <remarks>
/// Every triangle is cut by the planes y = const of the rows, giving a stretch of line with the direction of the surface, and that by the columns.
/// An edge is cut in the same order of its ends whichever triangle asks, and a coordinate belongs to the half-open cell that one monotone function
/// gives it. So the stretches of a row join to closed loops exactly, and the crossings of a column cancel exactly, however
/// the surface lies to the grid: through vertices, along edges, upright walls.
/// </remarks>
internal sealed class SolidColumnsBuilder
{
    /// <summary>The grid is off the middle of the part by this share of the pitch, so that what is symmetric does not fall on it.</summary>
    private const double Offset = 0.0173;

    private readonly TriangleMesh _mesh;
    private readonly Rotation _rotation;
    private readonly CancellationToken _cancel;
    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _z;
    private readonly Vec3 _min;
    private readonly Vec3 _max;

    public SolidColumnsBuilder(TriangleMesh mesh, Rotation rotation, CancellationToken cancel)
    {
        (_mesh, _rotation, _cancel) = (mesh, rotation, cancel);
        var n = mesh.VertexCount;
        (_x, _y, _z) = (new double[n], new double[n], new double[n]);
        var (min, max) = (new Vec3(double.MaxValue, double.MaxValue, double.MaxValue), new Vec3(double.MinValue, double.MinValue, double.MinValue));
        for (var v = 0; v < n; v++)
        {
            var p = rotation.Apply(mesh.Vertex(v));
            (_x[v], _y[v], _z[v]) = (p.X, p.Y, p.Z);
            min = new(Math.Min(min.X, p.X), Math.Min(min.Y, p.Y), Math.Min(min.Z, p.Z));
            max = new(Math.Max(max.X, p.X), Math.Max(max.Y, p.Y), Math.Max(max.Z, p.Z));
        }

        (_min, _max) = n > 0 ? (min, max) : (Vec3.Zero, Vec3.Zero);
    }

    /// <summary>Heights closer than this are the same: what rounding of coordinates leaves of faces that touch.</summary>
    public static double Resolution(double height) => Math.Max(4e-6 * height, 1e-9);

    public SolidColumns Build(double finestPitch, ColumnBudget budget)
    {
        var grid = Grid(PitchWithin(finestPitch, budget));
        var parts = Crossings(grid);
        _cancel.ThrowIfCancellationRequested();
        var (starts, crossings) = ByColumn(parts, grid.Width * grid.Depth);
        _cancel.ThrowIfCancellationRequested();
        var (byParity, open) = SortColumns(starts, crossings);
        var (spanStarts, spans) = Stretches(starts, crossings, byParity);
        return new(_rotation, grid, _min.Z, _max.Z - _min.Z, spanStarts, spans, byParity, open);
    }

    /// <summary>The finest pitch not below the wish at which neither columns, crossings nor rows cut through triangles exceed the budget.</summary>
    private double PitchWithin(double finest, ColumnBudget budget)
    {
        double area = 0, rise = 0;
        var indices = _mesh.Indices;
        for (var i = 0; i < indices.Length; i += 3)
        {
            var (a, b, c) = (indices[i], indices[i + 1], indices[i + 2]);
            area += Math.Abs(((_x[b] - _x[a]) * (_y[c] - _y[a])) - ((_x[c] - _x[a]) * (_y[b] - _y[a])));
            rise += Math.Max(_y[a], Math.Max(_y[b], _y[c])) - Math.Min(_y[a], Math.Min(_y[b], _y[c]));
        }

        var (w, d) = (_max.X - _min.X, _max.Y - _min.Y);
        var pitch = Math.Max(finest, Math.Sqrt(area / 2 / budget.Crossings));
        pitch = Math.Max(pitch, rise / (20.0 * budget.Crossings));
        // (w / p + 2) (d / p + 2) ≤ columns, solved for p.
        double free = Math.Max(budget.Columns - 4, 1);
        return Math.Max(pitch, ((w + d) + Math.Sqrt(((w + d) * (w + d)) + (free * w * d))) / free);
    }

    private ColumnGrid Grid(double pitch)
    {
        var (width, depth) = ((int)Math.Ceiling((_max.X - _min.X) / pitch) + 1, (int)Math.Ceiling((_max.Y - _min.Y) / pitch) + 1);
        return new(pitch, width, depth,
            ((_min.X + _max.X) / 2) + (((-0.5 * (width - 1)) + Offset) * pitch),
            ((_min.Y + _max.Y) / 2) + (((-0.5 * (depth - 1)) + (1.7 * Offset)) * pitch));
    }

    /// <summary>All crossings, in pieces: each of a stretch of triangles.</summary>
    private List<Crossing>[] Crossings(ColumnGrid grid)
    {
        var cut = new Cut(_x, _y, _z, grid, _min.Z);
        const int Piece = 1 << 14;
        var pieces = new List<Crossing>[(_mesh.TriangleCount + Piece - 1) / Piece];
        var next = -1;
        Fork.Join(() =>
        {
            int piece;
            while ((piece = Interlocked.Increment(ref next)) < pieces.Length)
            {
                _cancel.ThrowIfCancellationRequested();
                var found = new List<Crossing>(Piece);
                var last = Math.Min((piece + 1) * Piece, _mesh.TriangleCount);
                for (var t = piece * Piece; t < last; t++)
                {
                    var corners = _mesh.Indices.Slice(3 * t, 3);
                    cut.Triangle(corners[0], corners[1], corners[2], found);
                }

                pieces[piece] = found;
            }
        });
        return pieces;
    }

    private static (int[] Starts, Crossing[] Crossings) ByColumn(List<Crossing>[] pieces, int columns)
    {
        var starts = new int[columns + 1];
        foreach (var piece in pieces)
            foreach (var c in piece) starts[c.Column + 1]++;
        for (var i = 0; i < columns; i++) starts[i + 1] += starts[i];
        var sorted = new Crossing[starts[columns]];
        var next = starts.AsSpan(0, columns).ToArray();
        for (var p = 0; p < pieces.Length; p++)
        {
            foreach (var c in pieces[p]) sorted[next[c.Column]++] = c;
            pieces[p] = [];
        }

        return (starts, sorted);
    }

    /// <summary>Puts the crossings of each column in order of height, entries before exits where they meet.</summary>
    private (bool ByParity, int OpenColumns) SortColumns(int[] starts, Crossing[] crossings)
    {
        var (unbalanced, open) = (0, 0);
        InRanges(starts.Length - 1, (first, last) =>
        {
            for (var column = first; column < last; column++)
            {
                var mine = crossings.AsSpan(starts[column], starts[column + 1] - starts[column]);
                if (mine.Length > 1) mine.Sort();
                var winding = 0;
                foreach (var c in mine) winding += c.Sign;
                if (winding != 0) Interlocked.Increment(ref unbalanced);
                if (mine.Length % 2 != 0) Interlocked.Increment(ref open);
            }
        });
        return (unbalanced > 0, open);
    }

    private (int[] Starts, SolidSpan[] Spans) Stretches(int[] starts, Crossing[] crossings, bool byParity)
    {
        var columns = starts.Length - 1;
        var resolution = (float)Resolution(_max.Z - _min.Z);
        var counts = new int[columns + 1];
        var scratch = new SolidSpan[(crossings.Length + 1) / 2];
        InRanges(columns, (first, last) =>
        {
            for (var column = first; column < last; column++)
            {
                // A column of k crossings has at most k / 2 stretches, so they fit before the next column's.
                var mine = crossings.AsSpan(starts[column], starts[column + 1] - starts[column]);
                counts[column + 1] = Fill(mine, byParity, resolution, scratch.AsSpan((starts[column] + 1) / 2, mine.Length / 2));
            }
        });
        for (var i = 0; i < columns; i++) counts[i + 1] += counts[i];
        var spans = new SolidSpan[counts[columns]];
        for (var column = 0; column < columns; column++)
            scratch.AsSpan((starts[column] + 1) / 2, counts[column + 1] - counts[column]).CopyTo(spans.AsSpan(counts[column]));
        return (counts, spans);
    }

    private static int Fill(ReadOnlySpan<Crossing> crossings, bool byParity, float resolution, Span<SolidSpan> spans)
    {
        var count = 0;
        var inside = 0;
        var bottom = 0f;
        foreach (var c in crossings)
        {
            var before = inside;
            inside = byParity ? 1 - inside : inside + c.Sign;
            if (before == 0)
            {
                bottom = c.Height;
            }
            else if (inside == 0)
            {
                if (count > 0 && bottom - spans[count - 1].Top <= resolution) spans[count - 1] = spans[count - 1] with { Top = c.Height };
                else if (c.Height - bottom > resolution) spans[count++] = new(bottom, c.Height);
            }
        }

        return count;
    }

    private void InRanges(int columns, Action<int, int> work)
    {
        const int Piece = 1 << 13;
        var next = -1;
        Fork.Join(() =>
        {
            int first;
            while ((first = Interlocked.Increment(ref next) * Piece) < columns)
            {
                _cancel.ThrowIfCancellationRequested();
                work(first, Math.Min(first + Piece, columns));
            }
        });
    }

    /// <summary>A column passes the surface: into material (+1) or out of it (−1), going up.</summary>
    private readonly record struct Crossing(int Column, float Height, int Sign) : IComparable<Crossing>
    {
        public int CompareTo(Crossing other)
        {
            var byHeight = Height.CompareTo(other.Height);
            return byHeight != 0 ? byHeight : other.Sign.CompareTo(Sign);
        }
    }

    /// <summary>Cuts triangles by rows and columns.</summary>
    private readonly struct Cut(double[] x, double[] y, double[] z, ColumnGrid grid, double baseZ)
    {
        private readonly double _perPitch = 1 / grid.Pitch;

        /// <summary>The first row at or behind y. One monotone function for all: its value decides, not where the row really stands.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private int Row(double at) => (int)Math.Ceiling((at - grid.Y0) * _perPitch);

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private int Column(double at) => (int)Math.Ceiling((at - grid.X0) * _perPitch);

        public void Triangle(int a, int b, int c, List<Crossing> found)
        {
            var (ra, rb, rc) = (Row(y[a]), Row(y[b]), Row(y[c]));
            var first = Math.Max(Math.Min(ra, Math.Min(rb, rc)), 0);
            var last = Math.Min(Math.Max(ra, Math.Max(rb, rc)), grid.Depth);
            if (first >= last) return;
            // Most small triangles lie between two columns.
            var left = Column(Math.Min(x[a], Math.Min(x[b], x[c])));
            if (left >= Column(Math.Max(x[a], Math.Max(x[b], x[c])))) return;
            for (var row = first; row < last; row++)
            {
                // A corner is behind a row when the row is before its first one: row < Row(y).
                bool behindA = row < ra, behindB = row < rb, behindC = row < rc;
                var (fromX, fromZ, toX, toZ) = (0.0, 0.0, 0.0, 0.0);
                if (behindA != behindB) Edge(a, b, row, behindB, ref fromX, ref fromZ, ref toX, ref toZ);
                if (behindB != behindC) Edge(b, c, row, behindC, ref fromX, ref fromZ, ref toX, ref toZ);
                if (behindC != behindA) Edge(c, a, row, behindA, ref fromX, ref fromZ, ref toX, ref toZ);
                var (firstColumn, lastColumn) = (Column(fromX), Column(toX));
                if (firstColumn == lastColumn) continue;
                // Seen from above the surface runs counter-clockwise where it faces up: there a column leaves the material.
                var sign = -1;
                if (firstColumn > lastColumn)
                {
                    (firstColumn, lastColumn, sign) = (lastColumn, firstColumn, 1);
                    (fromX, fromZ, toX, toZ) = (toX, toZ, fromX, fromZ);
                }

                var slope = 1 / (toX - fromX);
                for (var column = Math.Max(firstColumn, 0); column < lastColumn && column < grid.Width; column++)
                {
                    var share = Math.Clamp((grid.X0 + (column * grid.Pitch) - fromX) * slope, 0, 1);
                    found.Add(new((row * grid.Width) + column, (float)(fromZ + (share * (toZ - fromZ)) - baseZ), sign));
                }
            }
        }

        /// <summary>Where the edge passes the row: the way in of the triangle's stretch of line if the edge runs forward, its way out if backward.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        private void Edge(int p, int q, int row, bool goesBack, ref double fromX, ref double fromZ, ref double toX, ref double toZ)
        {
            var (lower, upper) = goesBack ? (p, q) : (q, p);
            var share = Math.Clamp((grid.Y0 + (row * grid.Pitch) - y[lower]) / (y[upper] - y[lower]), 0, 1);
            var atX = Math.Clamp(x[lower] + (share * (x[upper] - x[lower])), Math.Min(x[lower], x[upper]), Math.Max(x[lower], x[upper]));
            var atZ = z[lower] + (share * (z[upper] - z[lower]));
            if (goesBack) (toX, toZ) = (atX, atZ);
            else (fromX, fromZ) = (atX, atZ);
        }
    }
}
