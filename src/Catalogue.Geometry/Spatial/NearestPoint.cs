using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Spatial;

/// <summary>The part of a triangle a point lies on; A, B, C in the triangle's own order.</summary>
public enum TriangleFeature
{
    Face,
    VertexA,
    VertexB,
    VertexC,
    EdgeAB,
    EdgeBC,
    EdgeCA,
}

/// <summary>The point of a surface nearest to a given point.</summary>
/// <param name="Triangle">Number of the triangle in the mesh; where several are equally near, one of them (always the same).</param>
/// <param name="Feature">Where on that triangle.</param>
/// <param name="Point">The nearest point, mm.</param>
/// <param name="Distance">From the given point, mm.</param>
public readonly record struct NearestPoint(int Triangle, TriangleFeature Feature, Vec3 Point, double Distance)
{
    /// <summary>The point of triangle abc nearest to p, and where it lies: by Voronoi regions of the features (C. Ericson, Real-Time Collision Detection, 2005, ch. 5.1.5; from memory).</summary>
    public static (Vec3 Point, TriangleFeature Feature) OnTriangle(Vec3 p, Vec3 a, Vec3 b, Vec3 c)
    {
        var ab = b - a;
        var ac = c - a;
        var ap = p - a;
        var d1 = Vec3.Dot(ab, ap);
        var d2 = Vec3.Dot(ac, ap);
        if (d1 <= 0 && d2 <= 0) return (a, TriangleFeature.VertexA);
        var bp = p - b;
        var d3 = Vec3.Dot(ab, bp);
        var d4 = Vec3.Dot(ac, bp);
        if (d3 >= 0 && d4 <= d3) return (b, TriangleFeature.VertexB);
        var vc = (d1 * d4) - (d3 * d2);
        if (vc <= 0 && d1 >= 0 && d3 <= 0 && d1 - d3 > 0) return (a + (ab * (d1 / (d1 - d3))), TriangleFeature.EdgeAB);
        var cp = p - c;
        var d5 = Vec3.Dot(ab, cp);
        var d6 = Vec3.Dot(ac, cp);
        if (d6 >= 0 && d5 <= d6) return (c, TriangleFeature.VertexC);
        var vb = (d5 * d2) - (d1 * d6);
        if (vb <= 0 && d2 >= 0 && d6 <= 0 && d2 - d6 > 0) return (a + (ac * (d2 / (d2 - d6))), TriangleFeature.EdgeCA);
        var va = (d3 * d6) - (d5 * d4);
        if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0 && d4 - d3 + (d5 - d6) > 0)
        {
            return (b + ((c - b) * ((d4 - d3) / (d4 - d3 + (d5 - d6)))), TriangleFeature.EdgeBC);
        }

        var sum = va + vb + vc;
        return sum > 0 ? (a + (ab * (vb / sum)) + (ac * (vc / sum)), TriangleFeature.Face) : (a, TriangleFeature.VertexA);
    }
}
