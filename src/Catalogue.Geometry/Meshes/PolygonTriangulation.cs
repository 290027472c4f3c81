namespace Catalogue.Geometry.Meshes;

/// <summary>Cuts a polygon in space, convex or not, into triangles that use all its corners and no other points.</summary>
/// <remarks>
/// <para>
/// Ears are clipped from the polygon seen along its (Newell) normal's largest axis, so that the signs of areas are those of
/// the coordinates as given. Corners on a straight edge get triangles with area; slits that join a hole to the outline may
/// touch themselves. A polygon that crosses itself, or is folded seen from there, is still cut into n − 2 triangles; the answer then
/// says that they may overlap.
/// </para>
/// <para>
/// Reflex corners are kept in a grid, so that work is near O(n) for shapes of this world; it is cut off at <see cref="TestsPerCorner"/>
/// tests a corner, after which the rest is cut without looking, and said to be. Buffers are kept for the next polygon; not thread-safe.
/// Source: G. H. Meisters, "Polygons have ears", Amer. Math. Monthly 82 (1975); M. Newell's normal in Sutherland, Sproull and
/// Schumacker, ACM Computing Surveys 6 (1974) (from memory).
/// </para>
/// </remarks>
public sealed class PolygonTriangulation
{
    /// <summary>A polygon may not have more corners.</summary>
    public const int MostCorners = 1 << 16;

    private const int TestsPerCorner = 400;

    private double[] _x = [], _y = [];
    private int[] _next = [], _previous = [];
    private bool[] _reflex = [];
    private int[] _cellStart = [], _cellMembers = [];
    private int _side;
    private double _minX, _minY, _scaleX, _scaleY;
    private long _testsLeft;

    /// <summary>Cuts the polygon.</summary>
    /// <param name="corners">3 to <see cref="MostCorners"/> corners in order, either way round.</param>
    /// <param name="triangles">3 · (n − 2) corner numbers, running the way the polygon does.</param>
    /// <returns>False when the polygon crosses itself or is folded, so that triangles may overlap or face both ways.</returns>
    /// <exception cref="ArgumentException">Too few or too many corners, or the wrong room for triangles.</exception>
    public bool Cut(ReadOnlySpan<Vec3> corners, Span<int> triangles)
    {
        var n = corners.Length;
        if (n is < 3 or > MostCorners) throw new ArgumentException("A polygon has 3 to 65536 corners.", nameof(corners));
        if (triangles.Length != 3 * (n - 2)) throw new ArgumentException("There are n − 2 triangles.", nameof(triangles));
        if (n == 3)
        {
            (triangles[0], triangles[1], triangles[2]) = (0, 1, 2);
            return true;
        }

        Project(corners);
        FillGrid(n);
        _testsLeft = (long)TestsPerCorner * n;
        return Clip(n, triangles);
    }

    /// <summary>Counter-clockwise coordinates in the plane seen along the largest axis of the normal.</summary>
    private void Project(ReadOnlySpan<Vec3> corners)
    {
        var n = corners.Length;
        if (_x.Length < n)
        {
            var size = Math.Max(n, 64);
            (_x, _y, _next, _previous, _reflex, _cellMembers) = (new double[size], new double[size], new int[size], new int[size], new bool[size], new int[size]);
        }

        var normal = Vec3.Zero;
        for (var i = 1; i + 1 < n; i++) normal += Vec3.Cross(corners[i] - corners[0], corners[i + 1] - corners[0]);
        var (ax, ay, az) = (Math.Abs(normal.X), Math.Abs(normal.Y), Math.Abs(normal.Z));
        for (var i = 0; i < n; i++)
        {
            var p = corners[i];
            (_x[i], _y[i]) = az >= ax && az >= ay
                ? (normal.Z >= 0 ? p.X : -p.X, p.Y)
                : ax >= ay ? (normal.X >= 0 ? p.Y : -p.Y, p.Z) : (normal.Y >= 0 ? p.Z : -p.Z, p.X);
            _next[i] = i + 1 == n ? 0 : i + 1;
            _previous[i] = i == 0 ? n - 1 : i - 1;
        }

        for (var i = 0; i < n; i++) _reflex[i] = Area(_previous[i], i, _next[i]) <= 0;
    }

    private void FillGrid(int n)
    {
        var reflex = 0;
        var (maxX, maxY) = (double.NegativeInfinity, double.NegativeInfinity);
        (_minX, _minY) = (double.PositiveInfinity, double.PositiveInfinity);
        for (var i = 0; i < n; i++)
        {
            if (!_reflex[i]) continue;
            reflex++;
            (_minX, _minY) = (Math.Min(_minX, _x[i]), Math.Min(_minY, _y[i]));
            (maxX, maxY) = (Math.Max(maxX, _x[i]), Math.Max(maxY, _y[i]));
        }

        _side = Math.Clamp((int)Math.Sqrt(reflex), 1, 256);
        (_scaleX, _scaleY) = (maxX > _minX ? _side / (maxX - _minX) : 0, maxY > _minY ? _side / (maxY - _minY) : 0);
        if (_cellStart.Length < (_side * _side) + 1) _cellStart = new int[(_side * _side) + 1];
        else Array.Clear(_cellStart, 0, (_side * _side) + 1);
        for (var i = 0; i < n; i++)
            if (_reflex[i]) _cellStart[CellOf(i)]++;
        for (int c = 0, sum = 0; c <= _side * _side; c++)
        {
            sum += _cellStart[c];
            _cellStart[c] = sum;
        }

        for (var i = n - 1; i >= 0; i--)
            if (_reflex[i]) _cellMembers[--_cellStart[CellOf(i)]] = i;
    }

    private bool Clip(int n, Span<int> triangles)
    {
        var clean = true;
        var written = 0;
        var at = 0;
        var strictness = 0;
        var nearby = 0;
        for (int left = n, tried = 0; left > 3;)
        {
            if (IsEar(at, strictness))
            {
                var (before, after) = (_previous[at], _next[at]);
                (triangles[written], triangles[written + 1], triangles[written + 2]) = (before, at, after);
                written += 3;
                left--;
                _next[before] = after;
                _previous[after] = before;
                _reflex[at] = false;
                _reflex[before] &= Area(_previous[before], before, after) <= 0;
                _reflex[after] &= Area(before, after, _next[after]) <= 0;

                // Skipping one keeps a round outline from being cut into a fan of slivers. Where ears are rare, as in a spiral, the
                // next one is beside the last: a long search is followed by as many cuts on the spot.
                nearby = Math.Max(nearby - 1, tried > 8 ? tried : 0);
                at = nearby > 0 ? before : _next[after];
                tried = 0;
                continue;
            }

            at = _next[at];
            if (++tried < left && (_testsLeft >= 0 || strictness == 2)) continue;

            // No ear is left, or the time for finding one is used up: from here on the polygon is only cut up, in linear time.
            clean = false;
            tried = 0;
            strictness = _testsLeft < 0 ? 2 : strictness + 1;
        }

        (triangles[written], triangles[written + 1], triangles[written + 2]) = (_previous[at], at, _next[at]);
        return clean && Area(_previous[at], at, _next[at]) >= 0;
    }

    /// <summary>Whether the corner can be cut off: 0 = turns left and nothing lies in it; 1 = turns left; 2 = in any case.</summary>
    private bool IsEar(int corner, int strictness)
    {
        if (strictness == 2) return true;
        _testsLeft--;
        var (a, b, c) = (_previous[corner], corner, _next[corner]);
        if (_reflex[b] || Area(a, b, c) <= 0) return false;
        if (strictness == 1) return true;
        var (minX, maxX) = (Math.Min(_x[a], Math.Min(_x[b], _x[c])), Math.Max(_x[a], Math.Max(_x[b], _x[c])));
        var (minY, maxY) = (Math.Min(_y[a], Math.Min(_y[b], _y[c])), Math.Max(_y[a], Math.Max(_y[b], _y[c])));
        var (firstX, lastX) = (Cell((minX - _minX) * _scaleX), Cell((maxX - _minX) * _scaleX));
        for (int row = Cell((minY - _minY) * _scaleY), lastRow = Cell((maxY - _minY) * _scaleY); row <= lastRow; row++)
        {
            var end = _cellStart[(row * _side) + lastX + 1];
            for (var m = _cellStart[(row * _side) + firstX]; m < end; m++)
            {
                _testsLeft--;
                var p = _cellMembers[m];
                if (!_reflex[p] || p == a || p == c || _x[p] < minX || _x[p] > maxX || _y[p] < minY || _y[p] > maxY) continue;
                if (Area(a, b, p) < 0 || Area(b, c, p) < 0 || Area(c, a, p) < 0) continue;
                if (!Same(p, a) && !Same(p, b) && !Same(p, c)) return false;
            }

            _testsLeft--;
        }

        return true;
    }

    private bool Same(int i, int j) => _x[i] == _x[j] && _y[i] == _y[j];

    private int CellOf(int i) => (Cell((_y[i] - _minY) * _scaleY) * _side) + Cell((_x[i] - _minX) * _scaleX);

    private int Cell(double offset) => (int)Math.Clamp(offset, 0, _side - 1);

    /// <summary>Twice the signed area; the sign is exact for single-precision input of like magnitude.</summary>
    private double Area(int a, int b, int c)
    {
        double ux = _x[b] - _x[a], uy = _y[b] - _y[a], vx = _x[c] - _x[a], vy = _y[c] - _y[a];
        double first = ux * vy, second = uy * vx;
        return first - second + (Math.FusedMultiplyAdd(ux, vy, -first) - Math.FusedMultiplyAdd(uy, vx, -second));
    }
}
