using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;

namespace Catalogue.Geometry.Orientations;

/// <summary>Points spread evenly over a surface with their normals: what hangs over in any orientation, roughly, in some microseconds.</summary>
/// <remarks>
/// Each stands for the same area. The part below is not looked for, so supports reach down to the plate. Off by a few per cent of the surface; footprints smaller than
/// a sample's share are not seen.
/// </remarks>
internal sealed class SurfaceSamples
{
    private const int Count = 8_000;
    private const int FootingStep = 6; // one hanging sample of so many is looked at as a foot
    private const double LeastFooting = 0.1; // of the hull's shadow
    private const double LeastLean = 0.05; // how far inside, as a share of the centre's height: a lean of 3° does not tip it over

    private readonly float[] _normals;
    private readonly float[] _points;
    private readonly double _area;
    private readonly Vec3 _center;
    private readonly ConvexHull _hull;
    private readonly Vec3 _centroid;

    private SurfaceSamples(float[] normals, float[] points, double area, Vec3 center, ConvexHull hull, Vec3 centroid) =>
        (_normals, _points, _area, _center, _hull, _centroid) = (normals, points, area, center, hull, centroid);

    public static SurfaceSamples Of(TriangleTree tree, ConvexHull hull, CancellationToken cancel)
    {
        var mesh = tree.Mesh;
        var total = 0.0;
        for (var t = 0; t < mesh.TriangleCount; t++) total += Cross(mesh, t).Length / 2;
        var (normals, points) = (new List<float>(3 * Count), new List<float>(3 * Count));
        var center = mesh.Bounds.Center;
        var centroid = MeshMeasures.Of(mesh, cancel).Centroid;
        var step = total / Count;
        var (taken, next, number) = (0.0, step / 2, 0);
        if (!(step > 0)) return new([], [], 0, center, hull, centroid);
        foreach (var t in tree.TrianglesInOrder())
        {
            var cross = Cross(mesh, t);
            taken += cross.Length / 2;
            for (; next < taken; next += step, number++)
            {
                var (a, b, c) = mesh.Triangle(t);
                var (u, v) = SupportColumns.Spread(number);
                var (p, n) = (a + ((b - a) * u) + ((c - a) * v) - center, cross.Normalized());
                points.AddRange([(float)p.X, (float)p.Y, (float)p.Z]);
                normals.AddRange([(float)n.X, (float)n.Y, (float)n.Z]);
            }
        }

        return new([.. normals], [.. points], step, center, hull, centroid);
    }

    private static Vec3 Cross(TriangleMesh mesh, int t)
    {
        var (a, b, c) = mesh.Triangle(t);
        return Vec3.Cross(b - a, c - a);
    }

    /// <summary>Contact (mm²) of columns down to the plate, and footprint on the plate (mm²), when <paramref name="up"/> points away from the plate.</summary>
    /// <param name="up">Unit direction in the file's coordinates.</param>
    /// <param name="plate">Lowest place along it, mm.</param>
    /// <param name="limitDegrees">From the vertical.</param>
    public (double Contact, double Resting) Along(Vec3 up, double plate, double limitDegrees)
    {
        var limit = (float)Math.Sin(Math.Min(90, limitDegrees + OverhangMeasures.AngleToleranceDegrees) * Math.PI / 180);
        var low = (float)(plate - Vec3.Dot(up, _center) + OverhangMeasures.RestingMm);
        var (x, y, z) = ((float)up.X, (float)up.Y, (float)up.Z);
        var (hanging, resting) = (0, 0.0);
        for (var i = 0; i < _normals.Length; i += 3)
        {
            var down = -((_normals[i] * x) + (_normals[i + 1] * y) + (_normals[i + 2] * z));
            if (down <= 0) continue;
            if ((_points[i] * x) + (_points[i + 1] * y) + (_points[i + 2] * z) <= low) resting += down;
            else if (down > limit) hanging++;
        }

        return (hanging * _area, resting * _area);
    }

    /// <summary>Area of the hull seen along a direction, mm².</summary>
    private double Shadow(Vec3 up)
    {
        var shadow = 0.0;
        for (var f = 0; f < _hull.FaceCount; f++)
        {
            var (a, b, c) = (_hull.Vertex(_hull.Faces[3 * f]), _hull.Vertex(_hull.Faces[(3 * f) + 1]), _hull.Vertex(_hull.Faces[(3 * f) + 2]));
            shadow += Math.Max(0, Vec3.Dot(up, Vec3.Cross(b - a, c - a)));
        }

        return shadow / 2;
    }

    /// <summary>
    /// Whether the part stands: what rests on the plate and the supports under what hangs over make up a tenth of its outline seen from above, and its centre of mass is well inside the polygon
    /// around them. A brick balanced on its edge hangs over nowhere, and falls.
    /// </summary>
    public bool Stands(Rotation rotation, double plate, double limitDegrees)
    {
        var up = rotation.RowZ;
        var (hanging, resting) = Along(up, plate, limitDegrees);
        if (hanging + resting < LeastFooting * Shadow(up)) return false;
        var limit = Math.Sin(Math.Min(90, limitDegrees + OverhangMeasures.AngleToleranceDegrees) * Math.PI / 180);
        var feet = new List<(double X, double Y)>();
        for (var v = 0; v < _hull.VertexCount; v++)
            if (Vec3.Dot(up, _hull.Vertex(v)) - plate <= OverhangMeasures.RestingMm) Add(_hull.Vertex(v));
        for (var i = 0; i < _normals.Length; i += 3 * FootingStep)
        {
            if (-Vec3.Dot(up, new(_normals[i], _normals[i + 1], _normals[i + 2])) > limit)
                Add(new Vec3(_points[i], _points[i + 1], _points[i + 2]) + _center);
        }

        var ring = SmallestRectangle.Ring([.. feet]);
        var (x, y) = (Vec3.Dot(rotation.RowX, _centroid), Vec3.Dot(rotation.RowY, _centroid));
        if (ring.Count < 3) return false;
        var inside = LeastLean * (Vec3.Dot(up, _centroid) - plate);
        for (var i = 0; i < ring.Count; i++)
        {
            var (a, b) = (ring[i], ring[(i + 1) % ring.Count]);
            if (((b.X - a.X) * (y - a.Y)) - ((b.Y - a.Y) * (x - a.X)) <= inside * double.Hypot(b.X - a.X, b.Y - a.Y)) return false;
        }

        return true;

        void Add(Vec3 p) => feet.Add((Vec3.Dot(rotation.RowX, p), Vec3.Dot(rotation.RowY, p)));
    }
}
