using System.Runtime.InteropServices;

namespace Catalogue.Geometry.Thickness;

/// <summary>
/// The connected regions below each step of a ladder of limits: neighbours on the surface, and cells whose balls touch each other's wall.
/// </summary>
/// <remarks>
/// Cells join step by step, by union and find: O(cells) to begin with, then O(steps · cells below the last step). About 60 bytes for each cell below the last
/// step. A region that does not change from one step to the next is described once.
/// </remarks>
internal sealed class RegionLadder
{
    private readonly LocalThickness _measured;
    private readonly double[] _steps;
    private readonly CancellationToken _cancel;
    private readonly RegionShape _shape;

    // Cells below the last step, in the order of the step they come in at; what each has as its cell, triangle, parent.
    private readonly int[] _cell;
    private readonly int[] _triangle;
    private readonly int[] _parent;
    private readonly int[] _ends;
    private readonly List<(int A, int B)>[] _links;
    private Dictionary<(int Root, int Count), ThinRegion> _described = [];

    /// <param name="measured">The cells.</param>
    /// <param name="values">What is compared with the steps: one value for each cell, mm.</param>
    /// <param name="steps">Limits, rising, mm.</param>
    /// <param name="clearly">A cell is below a step when it is below this part of it.</param>
    /// <param name="cancel">Stops the work.</param>
    public RegionLadder(LocalThickness measured, ReadOnlySpan<float> values, double[] steps, double clearly, CancellationToken cancel)
    {
        (_measured, _steps, _cancel) = (measured, steps, cancel);
        var thresholds = steps.Select(s => (float)(s * clearly)).ToArray();
        var cells = measured.Cells;
        var entry = new int[values.Length];
        var counts = new int[steps.Length + 1];
        for (var i = 0; i < entry.Length; i++)
        {
            entry[i] = measured.Areas[i] > 0 && values[i] < thresholds[^1] ? StepOf(values[i]) : steps.Length;
            counts[entry[i]]++;
        }

        cancel.ThrowIfCancellationRequested();
        _ends = new int[steps.Length];
        for (int s = 0, end = 0; s < steps.Length; s++) _ends[s] = end += counts[s];
        var next = new int[steps.Length];
        for (var s = 1; s < next.Length; s++) next[s] = _ends[s - 1];
        _cell = new int[_ends[^1]];
        _triangle = new int[_cell.Length];
        _parent = new int[_cell.Length];
        var number = entry;
        for (var triangle = 0; triangle < cells.Mesh.TriangleCount; triangle++)
        {
            var (first, last) = cells.CellsOf(triangle);
            for (var cell = first; cell < last; cell++)
            {
                if (entry[cell] == steps.Length)
                {
                    number[cell] = -1;
                    continue;
                }

                var i = next[entry[cell]]++;
                (_cell[i], _triangle[i], _parent[i], number[cell]) = (cell, triangle, i, i);
            }
        }

        _links = new List<(int A, int B)>[steps.Length];
        for (var s = 0; s < _links.Length; s++) _links[s] = [];
        for (int i = 0, step = 0; i < _cell.Length; i++)
        {
            if ((i & 0xffff) == 0) cancel.ThrowIfCancellationRequested();
            while (i >= _ends[step]) step++;
            Link(i, step, measured.OppositeCells[_cell[i]] is >= 0 and var opposite ? number[opposite] : -1);
            for (var side = 0; side < 3; side++)
                Link(i, step, cells.Across(measured.Edges, _triangle[i], _cell[i], side).Cell is >= 0 and var other ? number[other] : -1);
        }

        _shape = new(measured, [.. values], number);

        // Numbers rise with the step a cell comes in at, so the later of two cells decides when they join.
        void Link(int i, int step, int j)
        {
            if (j < 0 || j == i) return;
            if (j < i) _links[step].Add((i, j));
            else _links[StepOfNumber(j)].Add((i, j));
        }

        int StepOf(float value)
        {
            var s = 0;
            while (value >= thresholds[s]) s++;
            return s;
        }

        int StepOfNumber(int j)
        {
            var s = 0;
            while (j >= _ends[s]) s++;
            return s;
        }
    }

    /// <summary>Every step with its regions. Call once.</summary>
    /// <param name="most">Regions told of each kind (free-standing or held) at a step.</param>
    /// <param name="looked">Regions looked at closely at a step, the largest and some of the thinnest.</param>
    public IReadOnlyList<ThinStep> Climb(int most, int looked)
    {
        var result = new List<ThinStep>(_steps.Length);
        var area = new double[_cell.Length];
        var count = new int[_cell.Length];
        for (var s = 0; s < _steps.Length; s++)
        {
            _cancel.ThrowIfCancellationRequested();
            foreach (var (a, b) in CollectionsMarshal.AsSpan(_links[s])) Join(a, b);
            _links[s] = [];
            var end = _ends[s];
            Array.Clear(area, 0, end);
            Array.Clear(count, 0, end);
            for (var i = 0; i < end; i++)
            {
                var root = Root(i);
                area[root] += _measured.Areas[_cell[i]];
                count[root]++;
            }

            result.Add(Describe(s, end, area, count, most, looked));
        }

        return result;
    }

    private ThinStep Describe(int step, int end, double[] area, int[] count, int most, int looked)
    {
        var limit = _steps[step];
        var roots = new List<int>();
        var total = 0.0;
        for (var i = 0; i < end; i++)
        {
            if (count[i] == 0 || area[i] < limit * limit) continue;
            roots.Add(i);
            total += area[i];
        }

        var large = roots.OrderByDescending(r => area[r]).ThenBy(r => r).Take(looked).ToList();
        var members = large.ToDictionary(r => r, r => new List<(int Cell, int Triangle)>(count[r]));
        if (members.Count > 0)
        {
            for (var i = 0; i < end; i++)
                if (members.TryGetValue(Root(i), out var list)) list.Add((_cell[i], _triangle[i]));
        }

        var described = new Dictionary<(int, int), ThinRegion>();
        foreach (var root in large)
        {
            _cancel.ThrowIfCancellationRequested();
            described[(root, count[root])] = _described.TryGetValue((root, count[root]), out var known) ? known : _shape.Describe(members[root], end, area[root]);
        }

        _described = described;
        var kept = described.Values
            .OrderByDescending(r => r.ReachMm > 1.5 * limit)
            .ThenByDescending(r => r.AreaMm2).ThenBy(r => r.MinMm)
            .GroupBy(r => r.FreeStanding).SelectMany(g => g.Take(most))
            .OrderByDescending(r => r.AreaMm2).ThenBy(r => r.MinMm);
        return new(limit, roots.Count, Math.Round(total, 4), [.. kept]);
    }

    private void Join(int a, int b)
    {
        (a, b) = (Root(a), Root(b));
        if (a != b) _parent[Math.Max(a, b)] = Math.Min(a, b);
    }

    private int Root(int i)
    {
        while (_parent[i] != i) i = _parent[i] = _parent[_parent[i]];
        return i;
    }
}
