using System.Buffers.Binary;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>An edge of a hull where two faces of different planes meet.</summary>
/// <param name="A">One end, a vertex number.</param>
/// <param name="B">The other end.</param>
/// <param name="Left">The triangle in which the edge runs from A to B.</param>
/// <param name="Right">The triangle in which it runs from B to A.</param>
public readonly record struct HullEdge(int A, int B, int Left, int Right);

/// <summary>The smallest convex body around points in mm: what decides how large a part is in any direction.</summary>
/// <remarks>
/// <list type="bullet">
/// <item>In space (<see cref="Dimension"/> 3): a closed surface of triangles, counter-clockwise from outside; flat faces of more corners are fans.</item>
/// <item>Flat (2): both sides of a polygon, volume 0. On a line (1): two vertices. A point (0): one. Nothing (−1): none.</item>
/// </list>
/// Every point lies inside or at most <see cref="ToleranceMm"/> outside. Built by quickhull with exact side tests after most points have been
/// let go as surely inside a polytope of extreme points: O(n) for these, O(k log k) for the k left. Deterministic, immutable, safe to share.
/// </remarks>
public sealed class ConvexHull
{
    private const uint Magic = 0x314C5548; // "HUL1"
    private const double RelativeTolerance = 1e-7; // about the resolution of single-precision coordinates of that size
    private readonly float[] _positions;
    private readonly int[] _faces;
    private readonly Lazy<HullEdge[]> _edges;
    private readonly Lazy<HullSupport> _support;

    private ConvexHull(float[] positions, int[] faces, int dimension, double tolerance)
    {
        (_positions, _faces, Dimension, ToleranceMm) = (positions, faces, dimension, tolerance);
        var bounds = BoundingBox.Empty;
        for (var i = 0; i < VertexCount; i++) bounds = bounds.Including(Vertex(i));
        Bounds = bounds;
        (Volume, Area) = Measure();
        _edges = new(FindEdges);
        _support = new(() => new HullSupport(this));
    }

    /// <summary>3 in space, 2 flat, 1 on a line, 0 a point, −1 no point at all.</summary>
    public int Dimension { get; }

    /// <summary>No point lies farther outside than this (mm): 10⁻⁷ of the diagonal of the points' box.</summary>
    public double ToleranceMm { get; }

    /// <summary>x y z of vertex after vertex, exactly as given.</summary>
    public ReadOnlySpan<float> Positions => _positions;

    /// <summary>Three vertex numbers a triangle, counter-clockwise from outside.</summary>
    public ReadOnlySpan<int> Faces => _faces;

    public int VertexCount => _positions.Length / 3;
    public int FaceCount => _faces.Length / 3;
    public BoundingBox Bounds { get; }

    /// <summary>mm³; 0 when flat or less.</summary>
    public double Volume { get; }

    /// <summary>mm²; of a flat hull both sides.</summary>
    public double Area { get; }

    /// <summary>The edges between faces that are not in one plane; found once, O(faces).</summary>
    public ReadOnlySpan<HullEdge> Edges => _edges.Value;

    /// <summary>The vertices laid out for repeated "how wide in this direction" questions.</summary>
    internal HullSupport Support => _support.Value;

    public Vec3 Vertex(int index) => new(_positions[3 * index], _positions[(3 * index) + 1], _positions[(3 * index) + 2]);

    /// <summary>The unit normal of a triangle, outward.</summary>
    public Vec3 FaceNormal(int face)
    {
        var (a, b, c) = (Vertex(_faces[3 * face]), Vertex(_faces[(3 * face) + 1]), Vertex(_faces[(3 * face) + 2]));
        return Vec3.Cross(b - a, c - a).Normalized();
    }

    /// <summary>The hull of the vertices that the mesh's triangles use.</summary>
    public static ConvexHull Of(TriangleMesh mesh, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        return Of(HullPoints.From(mesh.Positions, mesh.Indices, onlyUsed: true), stop);
    }

    /// <summary>The hull of points, x y z after x y z in mm.</summary>
    /// <exception cref="ArgumentException">The numbers do not come in threes, or one is infinite or not a number.</exception>
    public static ConvexHull Of(ReadOnlySpan<float> positions, CancellationToken stop = default)
    {
        if (positions.Length % 3 != 0) throw new ArgumentException("Positions come in threes.", nameof(positions));
        return Of(HullPoints.From(positions, [], onlyUsed: false), stop);
    }

    private static ConvexHull Of(HullPoints points, CancellationToken stop)
    {
        if (points.Count == 0) return new([], [], -1, 0);
        var bounds = points.Bounds();
        var tolerance = RelativeTolerance * bounds.Size.Length;
        var extremes = points.Extremes();
        var simplex = HullSimplex.Of(points, extremes, tolerance);
        switch (simplex.Dimension)
        {
            case 0: return FromIndices(points, [simplex.A], [], 0, tolerance);
            case 1: return FromIndices(points, [simplex.A, simplex.B], [], 1, tolerance);
            case 2:
                var ring = FlatHull.Ring(points, simplex, tolerance);
                return FromIndices(points, ring, BothSides(ring.Length), 2, tolerance);
        }

        stop.ThrowIfCancellationRequested();
        List<int> candidates;
        if (points.Count <= 4 * extremes.Length)
        {
            candidates = [.. Enumerable.Range(0, points.Count)];
        }
        else
        {
            // Points surely inside the hull of some extremes cannot be its vertices. The depth is more than single precision can err by.
            var depth = (16 * tolerance) + (1e-6 * (bounds.Min.Length + bounds.Max.Length));
            var corners = extremes.Union([simplex.A, simplex.B, simplex.C, simplex.D]).Order().ToArray();
            var first = Build(points, corners, simplex, tolerance, stop);
            candidates = points.NotInside(Planes(points, first), depth);
            var kept = new HashSet<int>(candidates);
            candidates.AddRange(corners.Where(kept.Add)); // the simplex must be there even when it touches a plane only by rounding
        }

        stop.ThrowIfCancellationRequested();
        var faces = Build(points, [.. candidates], simplex, tolerance, stop);
        return FromIndices(points, null, faces, 3, tolerance);
    }

    /// <summary>Quickhull of some of the points; the faces name points by their number in the whole.</summary>
    private static int[] Build(HullPoints points, int[] some, HullSimplex simplex, double tolerance, CancellationToken stop)
    {
        var (x, y, z) = (new double[some.Length], new double[some.Length], new double[some.Length]);
        var (a, b, c, d) = (0, 0, 0, 0);
        for (var i = 0; i < some.Length; i++)
        {
            var p = points[some[i]];
            (x[i], y[i], z[i]) = (p.X, p.Y, p.Z);
            if (some[i] == simplex.A) a = i;
            if (some[i] == simplex.B) b = i;
            if (some[i] == simplex.C) c = i;
            if (some[i] == simplex.D) d = i;
        }

        var faces = QuickHull.Faces(x, y, z, (a, b, c, d), tolerance, stop).ToArray();
        for (var i = 0; i < faces.Length; i++) faces[i] = some[faces[i]];
        return faces;
    }

    private static (Vec3 Normal, double Offset)[] Planes(HullPoints points, int[] faces)
    {
        var planes = new (Vec3, double)[faces.Length / 3];
        for (var i = 0; i < planes.Length; i++)
        {
            var (a, b, c) = (points[faces[3 * i]], points[faces[(3 * i) + 1]], points[faces[(3 * i) + 2]]);
            var n = Vec3.Cross(b - a, c - a).Normalized();
            planes[i] = (n, Vec3.Dot(n, a));
        }

        return planes;
    }

    /// <summary>Numbers the vertices anew, in order of their number among the points (or in the order given).</summary>
    private static ConvexHull FromIndices(HullPoints points, int[]? vertices, int[] faces, int dimension, double tolerance)
    {
        if (vertices is null)
        {
            vertices = [.. faces.Distinct().Order()];
            var number = new Dictionary<int, int>(vertices.Length);
            for (var i = 0; i < vertices.Length; i++) number[vertices[i]] = i;
            for (var i = 0; i < faces.Length; i++) faces[i] = number[faces[i]];
        }

        var positions = new float[3 * vertices.Length];
        for (var i = 0; i < vertices.Length; i++)
        {
            var p = points[vertices[i]];
            (positions[3 * i], positions[(3 * i) + 1], positions[(3 * i) + 2]) = ((float)p.X, (float)p.Y, (float)p.Z);
        }

        return new(positions, faces, dimension, tolerance);
    }

    private static int[] BothSides(int corners)
    {
        var faces = new List<int>();
        for (var i = 1; i + 1 < corners; i++) faces.AddRange([0, i, i + 1]);
        for (var i = 1; i + 1 < corners; i++) faces.AddRange([0, i + 1, i]);
        return [.. faces];
    }

    private (double Volume, double Area) Measure()
    {
        var (volume, area) = (0.0, 0.0);
        if (FaceCount == 0) return (0, 0);
        var origin = Bounds.Center;
        for (var i = 0; i < _faces.Length; i += 3)
        {
            var (a, b, c) = (Vertex(_faces[i]) - origin, Vertex(_faces[i + 1]) - origin, Vertex(_faces[i + 2]) - origin);
            var cross = Vec3.Cross(b - a, c - a);
            area += cross.Length;
            volume += Vec3.Dot(cross, a);
        }

        return (Dimension == 3 ? volume / 6 : 0, area / 2);
    }

    /// <summary>How far the corner of <paramref name="other"/> off the edge a–b lies from the plane of <paramref name="face"/> (mm).</summary>
    private double Standout(int face, int other, int a, int b)
    {
        var tip = _faces[3 * other] + _faces[(3 * other) + 1] + _faces[(3 * other) + 2] - a - b;
        return Math.Abs(Vec3.Dot(FaceNormal(face), Vertex(tip) - Vertex(a)));
    }

    private HullEdge[] FindEdges()
    {
        // what the rounding of the coordinates to single precision does to four points of one plane
        var flatness = 4 * (ToleranceMm + (Math.Max(Bounds.Min.Length, Bounds.Max.Length) / (1 << 24)));
        var open = new Dictionary<(int, int), int>(_faces.Length);
        for (var i = 0; i < _faces.Length; i++)
        {
            var face = i / 3;
            open[(_faces[i], _faces[(3 * face) + ((i + 1) % 3)])] = face;
        }

        var edges = new List<HullEdge>();
        foreach (var ((a, b), left) in open)
        {
            if (a > b || !open.TryGetValue((b, a), out var right)) continue;
            var flat = Dimension == 3
                ? Standout(left, right, a, b) <= flatness && Standout(right, left, a, b) <= flatness
                : left < FaceCount / 2 == right < FaceCount / 2;
            if (!flat) edges.Add(new(a, b, left, right));
        }

        edges.Sort((p, q) => p.A != q.A ? p.A.CompareTo(q.A) : p.B.CompareTo(q.B));
        return [.. edges];
    }

    /// <summary>The hull of the same points a number of times as far from the origin.</summary>
    /// <param name="factor">Above 0.</param>
    public ConvexHull Scaled(double factor)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(factor);
        return new(Array.ConvertAll(_positions, p => (float)(p * factor)), _faces, Dimension, ToleranceMm * factor);
    }

    /// <summary>The hull's surface as a mesh.</summary>
    public TriangleMesh ToMesh() => new((float[])_positions.Clone(), (int[])_faces.Clone());

    /// <summary>
    /// Version 1, little-endian: "HUL1", dimension (int32), tolerance (float64), vertex count, face count (int32), vertices (3 × float32 each),
    /// faces (3 × uint16 each, or 3 × int32 from 65 536 vertices on). 24 bytes + about 24 a vertex.
    /// </summary>
    public byte[] ToBytes()
    {
        var wide = VertexCount > ushort.MaxValue;
        var bytes = new byte[24 + (4 * _positions.Length) + ((wide ? 4 : 2) * _faces.Length)];
        var at = bytes.AsSpan();
        BinaryPrimitives.WriteUInt32LittleEndian(at, Magic);
        BinaryPrimitives.WriteInt32LittleEndian(at[4..], Dimension);
        BinaryPrimitives.WriteDoubleLittleEndian(at[8..], ToleranceMm);
        BinaryPrimitives.WriteInt32LittleEndian(at[16..], VertexCount);
        BinaryPrimitives.WriteInt32LittleEndian(at[20..], FaceCount);
        at = at[24..];
        foreach (var p in _positions)
        {
            BinaryPrimitives.WriteSingleLittleEndian(at, p);
            at = at[4..];
        }

        foreach (var i in _faces)
        {
            if (wide) BinaryPrimitives.WriteInt32LittleEndian(at, i);
            else BinaryPrimitives.WriteUInt16LittleEndian(at, (ushort)i);
            at = at[(wide ? 4 : 2)..];
        }

        return bytes;
    }

    /// <summary>Reads what <see cref="ToBytes"/> wrote.</summary>
    /// <exception cref="FormatException">Not such bytes: another version, cut short, or an index out of range. Compute the hull again from the mesh.</exception>
    public static ConvexHull FromBytes(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < 24 || BinaryPrimitives.ReadUInt32LittleEndian(bytes) != Magic) throw Broken();
        var dimension = BinaryPrimitives.ReadInt32LittleEndian(bytes[4..]);
        var tolerance = BinaryPrimitives.ReadDoubleLittleEndian(bytes[8..]);
        long vertices = BinaryPrimitives.ReadInt32LittleEndian(bytes[16..]);
        long faces = BinaryPrimitives.ReadInt32LittleEndian(bytes[20..]);
        var width = vertices > ushort.MaxValue ? 4 : 2;
        if (vertices < 0 || faces < 0 || dimension is < -1 or > 3 || bytes.Length != 24 + (12 * vertices) + (3 * width * faces)) throw Broken();
        var at = bytes[24..];
        var positions = new float[3 * vertices];
        for (var i = 0; i < positions.Length; i++)
        {
            positions[i] = BinaryPrimitives.ReadSingleLittleEndian(at[(4 * i)..]);
            if (!float.IsFinite(positions[i])) throw Broken();
        }

        at = at[(4 * positions.Length)..];
        var corners = new int[3 * faces];
        for (var i = 0; i < corners.Length; i++)
        {
            corners[i] = width == 4 ? BinaryPrimitives.ReadInt32LittleEndian(at[(4 * i)..]) : BinaryPrimitives.ReadUInt16LittleEndian(at[(2 * i)..]);
            if (corners[i] < 0 || corners[i] >= vertices) throw Broken();
        }

        return new(positions, corners, dimension, tolerance);
        static FormatException Broken() => new("These bytes do not hold a hull of version 1. Compute it again from the mesh.");
    }
}
