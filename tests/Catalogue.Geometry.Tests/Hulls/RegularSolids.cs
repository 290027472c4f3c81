namespace Catalogue.Geometry.Tests.Hulls;

/// <summary>The corners of regular solids of edge 1.</summary>
internal static class RegularSolids
{
    public static float[] Corners(string solid)
    {
        var phi = (1 + Math.Sqrt(5)) / 2;
        List<(double X, double Y, double Z)> corners = [];
        switch (solid)
        {
            case "tetrahedron": // on the corners of a cube of edge 1/√2
                corners = [(1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1)];
                return Scaled(corners, 1 / Math.Sqrt(8));
            case "octahedron":
                corners = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)];
                return Scaled(corners, 1 / Math.Sqrt(2));
            case "icosahedron":
                foreach (var (a, b) in Signs()) corners.AddRange([(0, a, b * phi), (a, b * phi, 0), (b * phi, 0, a)]);
                return Scaled(corners, 0.5);
            case "dodecahedron":
                foreach (var (a, b) in Signs())
                {
                    corners.AddRange([(a, b, 1), (a, b, -1)]);
                    corners.AddRange([(0, a / phi, b * phi), (a / phi, b * phi, 0), (b * phi, 0, a / phi)]);
                }

                return Scaled(corners, phi / 2);
            default: throw new ArgumentException(solid, nameof(solid));
        }
    }

    private static IEnumerable<(int A, int B)> Signs() => [(1, 1), (1, -1), (-1, 1), (-1, -1)];

    private static float[] Scaled(List<(double X, double Y, double Z)> corners, double factor) =>
        [.. corners.SelectMany(c => new[] { (float)(c.X * factor), (float)(c.Y * factor), (float)(c.Z * factor) })];
}
