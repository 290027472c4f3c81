using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>How far every place in and around a part is from its material: cubes in the frame of the columns, up to <see cref="WidestMm"/> wide ways.</summary>
/// <remarks>
/// Distances are exact along z (from the columns) and from cube to cube along x and y, a wall being taken half a cube before the first cube that is
/// material: about half a cube's error, enough to find where a way is narrowest, not how narrow. The square of a distance is the least over x and y of
/// sums of squares, so it is built one axis after the other (as in Felzenszwalb and Huttenlocher, "Distance Transforms of Sampled Functions",
/// Theory of Computing 8, 2012), here by plain minimum over a bounded window. One byte a cube afterwards, 4 while it is built.
/// </remarks>
internal sealed class ClearanceGrid
{
    /// <summary>Ways wider than this are not told apart: no drain is.</summary>
    public const double WidestMm = 12;

    public const int MostCubes = 4_000_000;
    public const byte Wide = 255;

    /// <summary>Empty cubes around the part's box, the outermost of which stand for the outside.</summary>
    private const int Pad = 2;

    private readonly SolidColumns _columns;
    private readonly int _stride;
    private readonly int _offset;

    private ClearanceGrid(SolidColumns columns, int stride)
    {
        _columns = columns;
        _stride = stride;
        _offset = stride / 2;
        Size = stride * columns.PitchMm;
        Width = ((columns.Width + stride - 1) / stride) + (2 * Pad);
        Depth = ((columns.Depth + stride - 1) / stride) + (2 * Pad);
        Height = (int)Math.Ceiling(columns.HeightMm / Size) + (2 * Pad);
        Clearance = new byte[Width * Depth * Height];
    }

    /// <summary>Side of a cube, mm.</summary>
    public double Size { get; }

    public int Width { get; }

    public int Depth { get; }

    public int Height { get; }

    /// <summary>Per cube, z fastest, then x, then y: 0 in material, else 1 to 255 (= half of <see cref="WidestMm"/> or more).</summary>
    public byte[] Clearance { get; }

    /// <summary>Steps in the numbers of cubes to the six beside one.</summary>
    public int[] Beside => [-1, 1, -Height, Height, -Height * Width, Height * Width];

    public static double Diameter(byte clearance) => clearance * (WidestMm / Wide);

    /// <summary>The clearance of a length, as a byte.</summary>
    public static byte Byte(double clearance) => (byte)Math.Clamp(clearance * (2 * Wide / WidestMm), 1, Wide);

    public static ClearanceGrid Of(SolidColumns columns, CancellationToken cancel)
    {
        var stride = Math.Max(1, (int)Math.Round(0.3 / columns.PitchMm));
        var (x, y, z) = (columns.Width * columns.PitchMm, columns.Depth * columns.PitchMm, columns.HeightMm);
        while (true)
        {
            var size = stride * columns.PitchMm;
            if (((x / size) + 5.0) * ((y / size) + 5.0) * ((z / size) + 5.0) <= MostCubes) break;
            stride++;
        }

        var grid = new ClearanceGrid(columns, stride);
        grid.Fill(cancel);
        return grid;
    }

    /// <summary>The middle of a cube, (x, y, height) of the turned frame.</summary>
    public Vec3 Middle(int cube)
    {
        var (column, k) = (cube / Height, cube % Height);
        var (i, j) = (column % Width, column / Width);
        return new(
            _columns.X(((i - Pad) * _stride) + _offset), _columns.Y(((j - Pad) * _stride) + _offset), (k - Pad + 0.5) * Size);
    }

    /// <summary>The cube a place of the turned frame is in; −1 outside.</summary>
    public int CubeAt(Vec3 p)
    {
        var i = (int)Math.Round((p.X - _columns.X(_offset)) / Size) + Pad;
        var j = (int)Math.Round((p.Y - _columns.Y(_offset)) / Size) + Pad;
        var k = (int)Math.Floor(p.Z / Size) + Pad;
        return i >= 0 && i < Width && j >= 0 && j < Depth && k >= 0 && k < Height ? (((j * Width) + i) * Height) + k : -1;
    }

    private void Fill(CancellationToken cancel)
    {
        var field = new float[Clearance.Length];
        const float Cap = (float)(WidestMm * WidestMm / 4);
        Array.Fill(field, Cap);
        InParallel(Depth, j =>
        {
            cancel.ThrowIfCancellationRequested();
            for (var i = 0; i < Width; i++)
            {
                var (fine, row) = (((i - Pad) * _stride) + _offset, ((j - Pad) * _stride) + _offset);
                if (fine >= 0 && fine < _columns.Width && row >= 0 && row < _columns.Depth)
                    AlongZ(_columns.Spans(fine, row), field.AsSpan(((j * Width) + i) * Height, Height));
            }
        });
        InParallel(Depth, j => Across(field, j * Width * Height, Height, Width, cancel));
        InParallel(Width, i => Across(field, i * Height, Width * Height, Depth, cancel));
        InParallel(Depth, j =>
        {
            for (var c = j * Width * Height; c < (j + 1) * Width * Height; c++)
                Clearance[c] = field[c] <= 0 ? (byte)0 : field[c] >= Cap ? Wide : Byte(Math.Sqrt(field[c]));
        });
    }

    private void AlongZ(ReadOnlySpan<SolidSpan> spans, Span<float> squares)
    {
        for (var s = 0; s < spans.Length; s++)
        {
            var (first, last) = (Cube(spans[s].Bottom), Cube(spans[s].Top));
            // A plate between two middles is put on the nearest, so that nothing leaks through it.
            if (first >= last) (first, last) = (Nearest(spans[s]), Nearest(spans[s]) + 1);
            squares[first..last].Clear();
            var below = s > 0 ? Cube(spans[s - 1].Top) : 0;
            for (var k = first - 1; k >= below && Set(squares, k, spans[s].Bottom - Middle(k)); k--)
            {
            }

            var above = s < spans.Length - 1 ? Cube(spans[s + 1].Bottom) : squares.Length;
            for (var k = last; k < above && Set(squares, k, Middle(k) - spans[s].Top); k++)
            {
            }
        }

        int Cube(double height) => (int)Math.Ceiling((height / Size) - 0.5) + Pad;
        int Nearest(SolidSpan span) => (int)Math.Floor((span.Bottom + span.Top) / 2 / Size) + Pad;
        double Middle(int k) => (k - Pad + 0.5) * Size;

        static bool Set(Span<float> squares, int k, double distance)
        {
            var square = (float)Math.Max(distance * distance, 1e-6);
            if (square >= squares[k]) return false;
            squares[k] = square;
            return true;
        }
    }

    /// <summary>Takes the least over one axis: <paramref name="count"/> columns of cubes, <paramref name="step"/> apart.</summary>
    private void Across(float[] field, int first, int step, int count, CancellationToken cancel)
    {
        cancel.ThrowIfCancellationRequested();
        const float Cap = (float)(WidestMm * WidestMm / 4);
        var line = new float[count * Height];
        var near = new bool[count];
        for (var i = 0; i < count; i++)
        {
            var column = field.AsSpan(first + (i * step), Height);
            column.CopyTo(line.AsSpan(i * Height));
            near[i] = column.IndexOfAnyExcept(Cap) >= 0;
        }

        var reach = (int)Math.Ceiling((WidestMm / 2 / Size) + 0.5);
        for (var i = 0; i < count; i++)
        {
            var column = field.AsSpan(first + (i * step), Height);
            for (var other = Math.Max(0, i - reach); other <= Math.Min(count - 1, i + reach); other++)
            {
                if (other == i || !near[other]) continue;
                var away = (Math.Abs(other - i) - 0.5) * Size;
                Least(column, line.AsSpan(other * Height, Height), (float)(away * away));
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Least(Span<float> into, ReadOnlySpan<float> from, float more)
    {
        var wide = MemoryMarshal.Cast<float, Vector<float>>(into);
        var wideFrom = MemoryMarshal.Cast<float, Vector<float>>(from);
        var added = new Vector<float>(more);
        for (var v = 0; v < wide.Length; v++) wide[v] = Vector.Min(wide[v], wideFrom[v] + added);
        for (var k = wide.Length * Vector<float>.Count; k < into.Length; k++) into[k] = Math.Min(into[k], from[k] + more);
    }

    private static void InParallel(int count, Action<int> work)
    {
        var next = -1;
        Fork.Join(() =>
        {
            int mine;
            while ((mine = Interlocked.Increment(ref next)) < count) work(mine);
        });
    }
}
