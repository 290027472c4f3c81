using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Liquids;

/// <summary>The largest ball that passes an opening, measured on the mesh itself from a rough place near its narrowest.</summary>
/// <remarks>
/// Across the way the ball's centre climbs to where the wall is farthest; along the way it goes to where that is least: a local saddle of the distance to
/// the surface. No step is longer than the clearance it starts from, so none crosses a wall. Error about 0.02 mm where the start lies in
/// the opening; some hundreds of nearest-point queries.
/// </remarks>
internal sealed class OpeningGauge(TriangleTree tree, double size)
{
    private const double Finest = 0.01;

    /// <param name="start">In the opening, within a cube or two of its narrowest place.</param>
    /// <param name="way">Roughly along the opening; any length but zero.</param>
    public (double DiameterMm, Vec3 At) Measure(Vec3 start, Vec3 way)
    {
        var along = way.Normalized();
        var (u, v) = (Rotation.BringingToZ(along).RowX, Rotation.BringingToZ(along).RowY);
        var (best, at) = Widest(start, u, v);
        var origin = at;
        for (var step = size; step > Finest && best > Finest; step /= 2)
        {
            foreach (var sign in (ReadOnlySpan<int>)[1, -1])
            {
                while (true)
                {
                    var next = at + (along * (sign * Math.Min(step, 0.9 * best)));
                    if (Vec3.Distance(next, origin) > 6 * size) break;
                    var (wide, there) = Widest(next, u, v);
                    if (wide >= best) break;
                    (best, at) = (wide, there);
                    if (best <= Finest) break;
                }
            }
        }

        return (2 * best, at);
    }

    private (double Clearance, Vec3 At) Widest(Vec3 start, Vec3 u, Vec3 v)
    {
        var at = start;
        var best = Clearance(at);
        for (var step = size; step > Finest; step /= 2)
        {
            for (var moved = true; moved && Vec3.Distance(at, start) < 6 * size;)
            {
                moved = false;
                var length = Math.Min(step, 0.9 * best);
                for (var k = 0; k < 8; k++)
                {
                    var (s, c) = Math.SinCos(k * Math.PI / 4);
                    var there = at + (u * (c * length)) + (v * (s * length));
                    var clearance = Clearance(there);
                    if (clearance <= best + 1e-6) continue;
                    (best, at, moved) = (clearance, there, true);
                    break;
                }
            }
        }

        return (best, at);
    }

    private double Clearance(Vec3 p) => tree.Nearest(p, ClearanceGrid.WidestMm)?.Distance ?? ClearanceGrid.WidestMm;
}
