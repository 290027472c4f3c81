namespace Catalogue.Geometry.Overhangs;

/// <summary>Finds where matter starts in mid-air: see <see cref="Island"/>. O(n log n) for n vertices, about 30 bytes a vertex and 8 a triangle while it works.</summary>
internal sealed class IslandSearch
{
    private const double Offset = 0.01; // mm: how far from the surface it is asked what is there
    private const int MostProbes = 300;

    private readonly OverhangPose _pose;
    private readonly float[] _heights;

    /// <summary>A lowest place: its vertex, and the height where it joins an older piece (∞: never).</summary>
    private readonly record struct Birth(int Vertex, float Joins, float Top)
    {
        public bool Alone => float.IsPositiveInfinity(Joins);
    }

    private IslandSearch(OverhangPose pose)
    {
        _pose = pose;
        _heights = pose.Heights;
    }

    /// <summary>The longest, at most <see cref="OverhangMeasures.MostPlaces"/>.</summary>
    public List<Island> Listed { get; private set; } = [];

    public int Count { get; private set; }

    public static IslandSearch Find(OverhangPose pose, CancellationToken stop)
    {
        var search = new IslandSearch(pose);
        var births = search.Births(stop, out var severalShells);
        var real = new List<(Birth Birth, bool OverPart)>();
        foreach (var birth in births)
        {
            stop.ThrowIfCancellationRequested();
            if (search.StartsInAir(birth.Vertex, out var overPart)) real.Add((birth, overPart));
        }

        search.Count = real.Count;
        var listed = real.OrderByDescending(b => Rise(b.Birth)).ThenBy(b => b.Birth.Vertex).Take(OverhangMeasures.MostPlaces).ToList();
        var triangles = search.TriangleAt(listed.ConvertAll(b => b.Birth.Vertex));
        search.Listed = [.. listed.Select(b => search.ToIsland(b.Birth, triangles[b.Birth.Vertex], b.OverPart, severalShells)).OrderByDescending(i => i.RiseMm)];
        return search;

        float Rise(Birth birth) => (birth.Alone ? birth.Top : birth.Joins) - search._heights[birth.Vertex];
    }

    /// <summary>All lowest places away from the plate whose piece rises far enough before it joins an older one.</summary>
    private List<Birth> Births(CancellationToken stop, out bool severalShells)
    {
        var (order, used) = Sorted();
        stop.ThrowIfCancellationRequested();
        var (starts, lower) = LowerNeighbours();
        stop.ThrowIfCancellationRequested();
        var parent = new int[_heights.Length];
        var top = new float[_heights.Length];
        var births = new List<Birth>();
        var roots = new List<int>();
        for (var i = 0; i < used; i++)
        {
            var v = order[i];
            var eldest = -1;
            for (var j = starts[v]; j < starts[v + 1]; j++)
            {
                var root = Root(parent, lower[j]);
                if (root == eldest) continue;
                if (eldest < 0)
                {
                    eldest = root;
                    continue;
                }

                if (IsLower(root, eldest)) (root, eldest) = (eldest, root);
                parent[root] = eldest;
                if (_heights[v] - _heights[root] >= Island.LeastRiseMm && OffPlate(root)) births.Add(new(root, _heights[v], 0));
            }

            if (eldest < 0)
            {
                roots.Add(v);
                eldest = v;
            }

            parent[v] = eldest;
            top[eldest] = _heights[v];
        }

        var shells = roots.FindAll(r => parent[r] == r);
        severalShells = shells.Count > 1;
        foreach (var r in shells)
            if (OffPlate(r) && top[r] - _heights[r] >= Island.LeastRiseMm) births.Add(new(r, float.PositiveInfinity, top[r]));
        return births;
    }

    private bool OffPlate(int vertex) => _heights[vertex] > OverhangMeasures.RestingMm;

    private bool IsLower(int a, int b) => _heights[a] < _heights[b] || (_heights[a] == _heights[b] && a < b);

    private static int Root(int[] parent, int v)
    {
        while (parent[v] != v)
        {
            parent[v] = parent[parent[v]];
            v = parent[v];
        }

        return v;
    }

    /// <summary>The vertices that triangles use, by height, equal ones by number.</summary>
    private (int[] Order, int Used) Sorted()
    {
        var keys = GC.AllocateUninitializedArray<ulong>(_heights.Length);
        var taken = new bool[_heights.Length];
        foreach (var v in _pose.Mesh.Indices) taken[v] = true;
        var used = 0;
        for (var v = 0; v < keys.Length; v++)
        {
            if (!taken[v]) continue;
            var bits = BitConverter.SingleToUInt32Bits(_heights[v]);
            bits = (bits & 0x8000_0000) != 0 ? ~bits : bits | 0x8000_0000; // ordered as the numbers are
            keys[used++] = ((ulong)bits << 32) | (uint)v;
        }

        keys.AsSpan(0, used).Sort();
        var order = new int[used];
        for (var i = 0; i < used; i++) order[i] = (int)(uint)keys[i];
        return (order, used);
    }

    /// <summary>
    /// For each vertex one lower neighbour in each triangle it is not the lowest of: the lowest corner, which suffices, because the middle one
    /// is joined with it when its own turn has come.
    /// </summary>
    private (int[] Starts, int[] Lower) LowerNeighbours()
    {
        var indices = _pose.Mesh.Indices;
        var starts = new int[_heights.Length + 1];
        var lower = GC.AllocateUninitializedArray<int>(2 * (indices.Length / 3));
        for (var pass = 0; pass < 2; pass++)
        {
            for (var i = 0; i + 2 < indices.Length; i += 3)
            {
                var (a, b, c) = (indices[i], indices[i + 1], indices[i + 2]);
                if (IsLower(b, a)) (a, b) = (b, a);
                if (IsLower(c, a)) (a, c) = (c, a);
                if (pass == 0)
                {
                    starts[b]++;
                    starts[c]++;
                }
                else
                {
                    lower[--starts[b]] = a;
                    lower[--starts[c]] = a;
                }
            }

            // From counts to the end of each run; the second pass brings them back to its start.
            if (pass == 0)
                for (var v = 1; v < starts.Length; v++) starts[v] += starts[v - 1];
        }

        return (starts, lower);
    }

    private bool StartsInAir(int vertex, out bool overPart)
    {
        var up = _pose.Rotation.RowZ;
        var hit = _pose.Surface.Tree.FirstHit(new(_pose.Mesh.Vertex(vertex) - (up * Offset), -up));
        overPart = hit is { FromFront: true };
        return hit is null or { FromFront: true };
    }

    /// <summary>A triangle at each of some vertices.</summary>
    private Dictionary<int, int> TriangleAt(List<int> vertices)
    {
        var wanted = new bool[_heights.Length];
        foreach (var v in vertices) wanted[v] = true;
        var triangles = new Dictionary<int, int>();
        var indices = _pose.Mesh.Indices;
        for (var i = 0; i < indices.Length; i++)
            if (wanted[indices[i]]) triangles[indices[i]] = i / 3;
        return triangles;
    }

    private Island ToIsland(Birth birth, int triangle, bool overPart, bool severalShells)
    {
        var start = (double)_heights[birth.Vertex];
        double joins = birth.Alone ? birth.Top : birth.Joins;
        var section = new IslandSurface(_pose, triangle);
        if (severalShells) joins = Math.Min(joins, RunsInto(section, start, joins));
        return new(
            OverhangSurface.Rounded(start), OverhangSurface.Rounded(joins - start), OverhangSurface.Rounded(section.SectionAt(start + Island.LeastRiseMm)),
            overPart, _pose.Mesh.Vertex(birth.Vertex));
    }

    /// <summary>The height where the piece first runs into other matter; ∞ where none of its vertices looked at is in any.</summary>
    private double RunsInto(IslandSurface section, double start, double joins)
    {
        var vertices = section.Vertices(start, joins);
        var step = Math.Max(1, vertices.Count / MostProbes);
        var first = step - 1;
        while (first < vertices.Count && !IsBuried(first)) first += step;
        if (first >= vertices.Count) return double.PositiveInfinity;
        var before = first - step + 1;
        while (before < first && !IsBuried(before)) before++;
        return Math.Max(start + Island.LeastRiseMm, _heights[vertices[before].Vertex]);

        bool IsBuried(int i) => _pose.Surface.Tree.Contains(_pose.Mesh.Vertex(vertices[i].Vertex) + (vertices[i].Outward * Offset));
    }
}
