using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Health;

/// <summary>Which closed shell lies in which, and so what each encloses: material, a void, or material the wrong way round.</summary>
/// <remarks>
/// A ray goes up from the highest point of each shell, which can only meet other shells. If the first surface it meets
/// is left from inside, that shell is the parent; if entered from outside, both lie in the same parent, which is known
/// already because that shell reaches higher. Only shells whose box holds the other's box count. Rays that meet an edge
/// exactly are decided as if moved by (ε, ε²): simulation of simplicity (Edelsbrunner and Mücke, ACM TOG 9, 1990).
/// Shells must not cross each other, which is another check's business; when they do, the answer is a guess.
/// O(m) for one shell; else a grid of the rays' feet keeps it near O(m + s), at worst O(m · s).
/// </remarks>
internal static class ShellNesting
{
    /// <summary>Sets kind, parent and depth of every closed shell.</summary>
    public static void Nest(TriangleMesh mesh, ReadOnlySpan<int> shellOf, Shell[] shells, CancellationToken cancel)
    {
        var usable = new List<int>();
        for (var s = 0; s < shells.Length; s++)
            if (EnclosesSomething(shells[s])) usable.Add(s);

        var parents = new int[shells.Length];
        Array.Fill(parents, -1);
        usable.Sort((a, b) => shells[b].At.Z != shells[a].At.Z ? shells[b].At.Z.CompareTo(shells[a].At.Z) : a.CompareTo(b));
        if (usable.Count > 1)
        {
            var hits = FirstHits(mesh, shellOf, shells, usable, cancel);
            foreach (var s in usable)
            {
                var (_, hit, leaving) = hits[s];
                if (hit >= 0) parents[s] = leaving ? hit : parents[hit];
            }
        }

        var inside = new (int Winding, bool Flipped)[shells.Length];
        foreach (var s in usable)
        {
            var parent = parents[s];
            var (winding, flipped) = parent < 0 ? (0, false) : inside[parent];
            var outward = shells[s].VolumeMm3 > 0;
            ShellKind kind;
            (kind, inside[s]) = winding <= 0
                ? outward ? (ShellKind.Solid, (1, false)) : (ShellKind.InsideOut, (1, true))
                : outward == flipped
                    ? flipped ? (ShellKind.InsideOut, (winding - 1, true)) : (ShellKind.Void, (winding - 1, false))
                    : outward ? (ShellKind.SolidInSolid, (winding + 1, false)) : (ShellKind.Void, (winding - 1, false));
            shells[s] = shells[s] with { Kind = kind, Parent = parent, Depth = parent < 0 ? 0 : shells[parent].Depth + 1 };
        }
    }

    /// <summary>Closed, oriented, and with more inside than rounding: a folded sheet has none.</summary>
    private static bool EnclosesSomething(in Shell shell) =>
        shell.Closed && shell.Oriented && Math.Abs(shell.VolumeMm3) > 1e-12 * Math.Pow(shell.AreaMm2, 1.5);

    private static (double Z, int Shell, bool Leaving)[] FirstHits(
        TriangleMesh mesh, ReadOnlySpan<int> shellOf, Shell[] shells, List<int> usable, CancellationToken cancel)
    {
        var hits = new (double Z, int Shell, bool Leaving)[shells.Length];
        Array.Fill(hits, (double.PositiveInfinity, -1, false));
        var isUsable = new bool[shells.Length];
        foreach (var s in usable) isUsable[s] = true;
        var feet = new FootGrid(shells, usable);
        var tests = 0L;
        for (var t = 0; t < shellOf.Length; t++)
        {
            var shell = shellOf[t];
            if (shell < 0 || !isUsable[shell]) continue;
            var (a, b, c) = mesh.Triangle(t);
            foreach (var row in feet.Rows(Math.Min(a.Y, Math.Min(b.Y, c.Y)), Math.Max(a.Y, Math.Max(b.Y, c.Y))))
            {
                foreach (var s in feet.Feet(row, Math.Min(a.X, Math.Min(b.X, c.X)), Math.Max(a.X, Math.Max(b.X, c.X))))
                {
                    if ((++tests & 0xFFFFF) == 0) cancel.ThrowIfCancellationRequested();
                    if (s == shell || !Holds(shells[shell].Bounds, shells[s].Bounds)) continue;
                    if (!MeetsAbove(a, b, c, shells[s].At, out var z, out var up) || z >= hits[s].Z) continue;
                    hits[s] = (z, shell, up == shells[shell].VolumeMm3 > 0);
                }
            }
        }

        return hits;
    }

    private static bool Holds(in BoundingBox outer, in BoundingBox inner) =>
        outer.Min.X <= inner.Min.X && outer.Min.Y <= inner.Min.Y && outer.Min.Z <= inner.Min.Z
        && outer.Max.X >= inner.Max.X && outer.Max.Y >= inner.Max.Y && outer.Max.Z >= inner.Max.Z;

    /// <summary>Whether the upward ray from <paramref name="p"/> meets the triangle strictly above it; at which height, and whether its normal points up.</summary>
    private static bool MeetsAbove(Vec3 a, Vec3 b, Vec3 c, Vec3 p, out double z, out bool up)
    {
        (z, up) = (0, false);
        if (Math.Max(a.Z, Math.Max(b.Z, c.Z)) <= p.Z) return false;
        var left = IsLeft(a, b, p, out var weightC);
        if (IsLeft(b, c, p, out var weightA) != left || IsLeft(c, a, p, out var weightB) != left) return false;
        var sum = weightA + weightB + weightC;
        if (sum == 0) return false;
        z = ((weightA * a.Z) + (weightB * b.Z) + (weightC * c.Z)) / sum;
        up = left;
        return z > p.Z;
    }

    /// <summary>Whether p, moved by (ε, ε²), is left of the line from a to b seen from above. The sign is exact for single-precision input of like magnitude.</summary>
    private static bool IsLeft(Vec3 a, Vec3 b, Vec3 p, out double determinant)
    {
        double ax = a.X - p.X, ay = a.Y - p.Y, bx = b.X - p.X, by = b.Y - p.Y;
        double first = ax * by, second = ay * bx;
        determinant = first - second
            + (Math.FusedMultiplyAdd(ax, by, -first) - Math.FusedMultiplyAdd(ay, bx, -second));
        if (determinant != 0) return determinant > 0;
        return a.Y != b.Y ? a.Y > b.Y : b.X > a.X;
    }

    /// <summary>The highest points of the shells, seen from above, in square cells.</summary>
    private sealed class FootGrid
    {
        private readonly Shell[] _shells;
        private readonly int _side;
        private readonly double _minX, _minY, _cellX, _cellY;
        private readonly int[] _starts;
        private readonly int[] _feet;

        public FootGrid(Shell[] shells, List<int> usable)
        {
            _shells = shells;
            _side = Math.Clamp((int)Math.Sqrt(usable.Count), 1, 1024);
            _minX = usable.Min(s => shells[s].At.X);
            _minY = usable.Min(s => shells[s].At.Y);
            _cellX = Math.Max((usable.Max(s => shells[s].At.X) - _minX) / _side, 1e-30);
            _cellY = Math.Max((usable.Max(s => shells[s].At.Y) - _minY) / _side, 1e-30);
            _starts = new int[(_side * _side) + 1];
            foreach (var s in usable) _starts[CellOf(shells[s].At) + 1]++;
            for (var i = 1; i < _starts.Length; i++) _starts[i] += _starts[i - 1];
            var next = _starts.ToArray();
            _feet = new int[usable.Count];
            foreach (var s in usable) _feet[next[CellOf(shells[s].At)]++] = s;
        }

        /// <summary>Rows of cells that may hold feet with y in the range.</summary>
        public IEnumerable<int> Rows(double minY, double maxY)
        {
            var last = Cell(maxY - _minY, _cellY);
            for (var row = Cell(minY - _minY, _cellY); row <= last; row++) yield return row;
        }

        /// <summary>The shells whose feet are in the row's cells that touch the range of x: one stretch of memory.</summary>
        public ReadOnlySpan<int> Feet(int row, double minX, double maxX)
        {
            var first = _starts[(row * _side) + Cell(minX - _minX, _cellX)];
            return _feet.AsSpan(first, _starts[(row * _side) + Cell(maxX - _minX, _cellX) + 1] - first);
        }

        private int CellOf(Vec3 p) => (Cell(p.Y - _minY, _cellY) * _side) + Cell(p.X - _minX, _cellX);

        private int Cell(double offset, double size) => (int)Math.Clamp(offset / size, 0, _side - 1);
    }
}
