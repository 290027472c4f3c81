using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Tests.Holes;

/// <summary>Bodies with holes whose corners lie exactly on their nominal circles.</summary>
internal static class Drilled
{
    /// <summary>
    /// The body that a closed outline of (distance from z, height) sweeps about z, as a prism of <paramref name="sides"/> sides; the outline runs so that matter is on its left
    /// when r is to the right and z up. Points at r = 0 are single corners.
    /// </summary>
    public static TriangleMesh Turned(int sides, params (double R, double Z)[] outline)
    {
        var builder = new Builder();
        for (var s = 0; s < sides; s++)
        {
            var (from, to) = (2 * Math.PI * s / sides, 2 * Math.PI * ((s + 1) % sides) / sides);
            for (var i = 0; i < outline.Length; i++)
            {
                var (p, q) = (outline[i], outline[(i + 1) % outline.Length]);
                builder.Quad(At(p, from), At(p, to), At(q, to), At(q, from));
            }
        }

        return builder.Mesh();

        static Vec3 At((double R, double Z) p, double angle) => new(p.R * Math.Cos(angle), p.R * Math.Sin(angle), p.Z);
    }

    /// <summary>A plate of square cells, each with one hole through it: its diameter, its sides, a shift from the cell's middle.</summary>
    public static TriangleMesh Plate(double cell, double thickness, int columns, IReadOnlyList<(double Diameter, int Sides, double Shift)> holes)
    {
        var builder = new Builder();
        const int Side = 8;
        for (var k = 0; k < holes.Count; k++)
        {
            var (row, column) = (k / columns, k % columns);
            var middle = new Vec3((column + 0.5) * cell, (row + 0.5) * cell, 0);
            var (diameter, sides, shift) = holes[k];
            var inner = Enumerable.Range(0, sides)
                .Select(i => middle + new Vec3(shift + (diameter / 2 * Math.Cos((2 * Math.PI * i / sides) + 0.1)), diameter / 2 * Math.Sin((2 * Math.PI * i / sides) + 0.1), 0)).ToList();
            var outer = new List<Vec3>();
            Vec3[] corners = [new(1, -1, 0), new(1, 1, 0), new(-1, 1, 0), new(-1, -1, 0)];
            for (var c = 0; c < 4; c++)
                for (var i = 0; i < Side; i++)
                    outer.Add(middle + ((corners[c] + ((corners[(c + 1) % 4] - corners[c]) * ((double)i / Side))) * (cell / 2)));
            var up = Vec3.UnitZ * thickness;
            foreach (var (a, b, c) in Between(outer, inner, middle + (Vec3.UnitX * shift)))
            {
                builder.Add(a + up, b + up, c + up);
                builder.Add(a, c, b);
            }

            for (var i = 0; i < sides; i++)
                builder.Quad(inner[i], inner[i] + up, inner[(i + 1) % sides] + up, inner[(i + 1) % sides]);
            for (var c = 0; c < 4; c++)
            {
                var free = c switch { 0 => column == columns - 1 || k == holes.Count - 1, 1 => k + columns >= holes.Count, 2 => column == 0, _ => row == 0 };
                for (var i = 0; free && i < Side; i++)
                {
                    var (p, q) = (outer[(c * Side) + i], outer[((c * Side) + i + 1) % outer.Count]);
                    builder.Quad(p, q, q + up, p + up);
                }
            }
        }

        return builder.Mesh();
    }

    /// <summary>Triangles between two loops around one middle, both counter-clockwise.</summary>
    private static IEnumerable<(Vec3 A, Vec3 B, Vec3 C)> Between(List<Vec3> outer, List<Vec3> inner, Vec3 middle)
    {
        var (o, n) = (Rotated(outer), Rotated(inner));
        var (i, j) = (0, 0);
        while (i < o.Count || j < n.Count)
        {
            var (nextOuter, nextInner) = (i < o.Count ? Angle(o, i + 1) : 99, j < n.Count ? Angle(n, j + 1) : 99);
            if (nextOuter <= nextInner)
            {
                yield return (o[i % o.Count], o[(i + 1) % o.Count], n[j % n.Count]);
                i++;
            }
            else
            {
                yield return (o[i % o.Count], n[(j + 1) % n.Count], n[j % n.Count]);
                j++;
            }
        }

        double Angle(List<Vec3> loop, int k) => k == loop.Count ? 2 * Math.PI : Of(loop[k]);
        double Of(Vec3 p) => (Math.Atan2(p.Y - middle.Y, p.X - middle.X) + (4 * Math.PI)) % (2 * Math.PI);
        List<Vec3> Rotated(List<Vec3> loop)
        {
            var first = loop.IndexOf(loop.MinBy(Of));
            return [.. loop.Skip(first), .. loop.Take(first)];
        }
    }

    private sealed class Builder
    {
        private readonly Dictionary<(float, float, float), int> _numbers = [];
        private readonly List<float> _positions = [];
        private readonly List<int> _indices = [];

        public void Quad(Vec3 a, Vec3 b, Vec3 c, Vec3 d)
        {
            Add(a, b, c);
            Add(a, c, d);
        }

        public void Add(Vec3 a, Vec3 b, Vec3 c)
        {
            var (i, j, k) = (Number(a), Number(b), Number(c));
            if (i != j && j != k && k != i) _indices.AddRange([i, j, k]);
        }

        public TriangleMesh Mesh() => new([.. _positions], [.. _indices]);

        private int Number(Vec3 p)
        {
            var key = (Tidy(p.X), Tidy(p.Y), Tidy(p.Z));
            if (_numbers.TryGetValue(key, out var number)) return number;
            _positions.AddRange([key.Item1, key.Item2, key.Item3]);
            return _numbers[key] = _numbers.Count;

            static float Tidy(double x) => (float)(Math.Round(x * 1e5) / 1e5);
        }
    }
}
