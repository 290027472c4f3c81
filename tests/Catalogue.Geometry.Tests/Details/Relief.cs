using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Tests.Details;

/// <summary>Blocks with upright-walled relief: the exact surface of a height given in cells.</summary>
internal static class Relief
{
    /// <summary>A plate whose top lies at <paramref name="level"/>, with rectangles raised above it or sunk into it.</summary>
    /// <param name="level">mm.</param>
    /// <param name="patches">From and to in x and y, and by how much higher (lower when negative); they must not overlap.</param>
    public static TriangleMesh Plate(double width, double depth, double level, params (double X0, double X1, double Y0, double Y1, double Rise)[] patches)
    {
        var xs = patches.SelectMany(p => new[] { p.X0, p.X1 }).Concat([0, width]).Distinct().Order().ToArray();
        var ys = patches.SelectMany(p => new[] { p.Y0, p.Y1 }).Concat([0, depth]).Distinct().Order().ToArray();
        var positions = new List<float>();
        var indices = new List<int>();
        for (var i = 0; i < xs.Length - 1; i++)
        {
            for (var j = 0; j < ys.Length - 1; j++)
            {
                var (x0, x1, y0, y1, z) = (xs[i], xs[i + 1], ys[j], ys[j + 1], Height(i, j));
                Quad(new(x0, y0, z), new(x1, y0, z), new(x1, y1, z), new(x0, y1, z));
                Quad(new(x0, y0, 0), new(x0, y1, 0), new(x1, y1, 0), new(x1, y0, 0));
                var (right, back) = (Height(i + 1, j), Height(i, j + 1));
                if (i == 0) Quad(new(x0, y1, 0), new(x0, y0, 0), new(x0, y0, z), new(x0, y1, z));
                if (j == 0) Quad(new(x0, y0, 0), new(x1, y0, 0), new(x1, y0, z), new(x0, y0, z));
                if (right < z) Quad(new(x1, y0, right), new(x1, y1, right), new(x1, y1, z), new(x1, y0, z));
                else if (right > z) Quad(new(x1, y1, z), new(x1, y0, z), new(x1, y0, right), new(x1, y1, right));
                if (back < z) Quad(new(x1, y1, back), new(x0, y1, back), new(x0, y1, z), new(x1, y1, z));
                else if (back > z) Quad(new(x0, y1, z), new(x1, y1, z), new(x1, y1, back), new(x0, y1, back));
            }
        }

        return new([.. positions], [.. indices]);

        double Height(int i, int j)
        {
            if (i >= xs.Length - 1 || j >= ys.Length - 1) return 0;
            var (x, y) = ((xs[i] + xs[i + 1]) / 2, (ys[j] + ys[j + 1]) / 2);
            return level + patches.Where(p => x > p.X0 && x < p.X1 && y > p.Y0 && y < p.Y1).Sum(p => p.Rise);
        }

        void Quad(Vec3 a, Vec3 b, Vec3 c, Vec3 d)
        {
            var first = positions.Count / 3;
            foreach (var p in new[] { a, b, c, d }) positions.AddRange([(float)p.X, (float)p.Y, (float)p.Z]);
            indices.AddRange([first, first + 1, first + 2, first, first + 2, first + 3]);
        }
    }
}
