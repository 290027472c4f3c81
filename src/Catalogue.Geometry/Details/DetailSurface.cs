using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Details;

/// <summary>What a process does with a piece of surface.</summary>
public enum DetailFate : byte
{
    Shown,

    /// <summary>A raised line narrower than the limit: lost.</summary>
    Lost,

    /// <summary>An engraved line narrower than the limit: it closes.</summary>
    Closed,

    /// <summary>Beside a step lower than the limit: it may not show.</summary>
    Faint,
}

/// <summary>For each triangle whether its relief survives given limits: where <see cref="DetailMeasures"/> finds its features.</summary>
public static class DetailSurface
{
    /// <summary>What measures this little less than a limit is at the limit, drawn.</summary>
    private const double Rounding = 0.005;

    /// <param name="tree">Of a closed mesh whose normals face outward, in mm.</param>
    /// <param name="narrowest">Ridges and grooves narrower than this are told, mm.</param>
    /// <param name="lowest">Steps lower than this are told, mm.</param>
    /// <returns>
    /// One for each triangle: what the nearest sample within one sample’s distance of its middle tells. Specks that
    /// <see cref="DetailMeasures"/> leaves out are shown as well.
    /// </returns>
    public static DetailFate[] Of(TriangleTree tree, double narrowest, double lowest, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(tree);
        var mesh = tree.Mesh;
        var felt = DetailMeasures.Felt(tree, out var spacing, null, cancel);
        var cubes = new Dictionary<(int, int, int), List<(Vec3 At, DetailFate Fate)>>();
        foreach (var touch in felt)
        {
            var fate = touch.Width < narrowest - Rounding ? touch.IsRaised ? DetailFate.Lost : DetailFate.Closed
                : touch.IsRaised && touch.Height < lowest - Rounding ? DetailFate.Faint : DetailFate.Shown;
            if (fate == DetailFate.Shown) continue;
            var cube = Cube(touch.At, spacing);
            if (!cubes.TryGetValue(cube, out var inside)) cubes[cube] = inside = [];
            inside.Add((touch.At, fate));
        }

        var fates = new DetailFate[mesh.TriangleCount];
        for (var t = 0; t < fates.Length; t++)
        {
            if (t % 8192 == 0) cancel.ThrowIfCancellationRequested();
            var (a, b, c) = mesh.Triangle(t);
            fates[t] = Around(cubes, (a + b + c) / 3, spacing);
        }

        return fates;
    }

    private static DetailFate Around(Dictionary<(int, int, int), List<(Vec3 At, DetailFate Fate)>> cubes, Vec3 middle, double spacing)
    {
        var (x, y, z) = Cube(middle, spacing);
        var (nearest, fate) = (spacing * spacing, DetailFate.Shown);
        for (var i = x - 1; i <= x + 1; i++)
        {
            for (var j = y - 1; j <= y + 1; j++)
            {
                for (var k = z - 1; k <= z + 1; k++)
                {
                    if (!cubes.TryGetValue((i, j, k), out var inside)) continue;
                    foreach (var (at, its) in inside)
                        if ((at - middle).LengthSquared is var squared && squared < nearest) (nearest, fate) = (squared, its);
                }
            }
        }

        return fate;
    }

    private static (int, int, int) Cube(Vec3 p, double spacing) => ((int)Math.Floor(p.X / spacing), (int)Math.Floor(p.Y / spacing), (int)Math.Floor(p.Z / spacing));
}
