using System.Runtime.CompilerServices;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Hulls;

/// <summary>
/// The hull of points in space by quickhull (Barber, Dobkin and Huhdanpaa, ACM TOMS 22, 1996): a tetrahedron grows by the point
/// farthest outside one of its faces until no point is farther out than the tolerance.
/// </summary>
/// <remarks>
/// Which faces a new point sees is decided exactly (<see cref="PlaneSide"/>), so each step is a valid polytope whatever the input; the
/// tolerance only lets points go that lie less than it outside a face, which is how a million points of one plane cost no more than others.
/// Expected O(n log n); faces are triangles, a flat face of more corners is a fan of several.
/// </remarks>
internal sealed class QuickHull
{
    private const int None = -1;

    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _z;
    private readonly double _tolerance;
    private readonly int[] _next; // chains the points outside one face

    private Face[] _faces = new Face[256];
    private int _faceCount;
    private int _freeFace = None;

    private readonly Stack<int> _pending = new();
    private readonly List<int> _visible = [];
    private readonly List<(int Face, int Edge)> _horizon = [];
    private readonly List<(int Face, int Edge, int Came)> _walk = [];

    private QuickHull(double[] x, double[] y, double[] z, double tolerance)
    {
        (_x, _y, _z, _tolerance) = (x, y, z, tolerance);
        _next = new int[x.Length];
    }

    private struct Face
    {
        public int A, B, C; // counter-clockwise from outside
        public int AcrossAb, AcrossBc, AcrossCa;
        public double Nx, Ny, Nz, Offset; // unit normal, n · p = Offset on the plane
        public int Outside; // first point of its chain
        public int Farthest;
        public double FarthestDistance;
        public int Mark; // round in which it was last looked at, negative when it was visible then
        public bool Alive;
    }

    /// <summary>Triangles of the hull as indices into the points, counter-clockwise from outside.</summary>
    /// <param name="x">Coordinates that are exact in single precision; <paramref name="y"/> and <paramref name="z"/> as many.</param>
    /// <param name="y">See <paramref name="x"/>.</param>
    /// <param name="z">See <paramref name="x"/>.</param>
    /// <param name="simplex">Four points that span a volume: the fourth is farther than the tolerance from the plane of the others.</param>
    /// <param name="tolerance">Points less than this outside a face are let go.</param>
    /// <param name="stop">Looked at between points.</param>
    public static List<int> Faces(
        double[] x, double[] y, double[] z, (int A, int B, int C, int D) simplex, double tolerance, CancellationToken stop = default)
    {
        var hull = new QuickHull(x, y, z, tolerance);
        hull.Start(simplex);
        hull.Grow(stop);
        var faces = new List<int>();
        for (var i = 0; i < hull._faceCount; i++)
        {
            ref var face = ref hull._faces[i];
            if (face.Alive) faces.AddRange([face.A, face.B, face.C]);
        }

        return faces;
    }

    private Vec3 Point(int i) => new(_x[i], _y[i], _z[i]);

    private void Start((int A, int B, int C, int D) simplex)
    {
        var (a, b, c, d) = simplex;
        if (PlaneSide.Of(Point(a), Point(b), Point(c), Point(d)) > 0) (b, c) = (c, b);
        var f0 = NewFace(a, b, c);
        var f1 = NewFace(a, d, b);
        var f2 = NewFace(b, d, c);
        var f3 = NewFace(c, d, a);
        Join(f0, f1, f2, f3);
        Join(f1, f3, f2, f0);
        Join(f2, f1, f3, f0);
        Join(f3, f2, f1, f0);
        Span<int> all = [f0, f1, f2, f3];
        for (var i = 0; i < _x.Length; i++)
        {
            if (i != a && i != b && i != c && i != d) PutOutside(i, all);
        }

        foreach (var face in all) Wait(face);
    }

    private void Join(int face, int acrossAb, int acrossBc, int acrossCa)
    {
        ref var f = ref _faces[face];
        (f.AcrossAb, f.AcrossBc, f.AcrossCa) = (acrossAb, acrossBc, acrossCa);
    }

    private int NewFace(int a, int b, int c)
    {
        int index;
        if (_freeFace != None)
        {
            index = _freeFace;
            _freeFace = _faces[index].Outside;
        }
        else
        {
            if (_faceCount == _faces.Length) Array.Resize(ref _faces, 2 * _faceCount);
            index = _faceCount++;
        }

        var (ux, uy, uz) = (_x[b] - _x[a], _y[b] - _y[a], _z[b] - _z[a]);
        var (vx, vy, vz) = (_x[c] - _x[a], _y[c] - _y[a], _z[c] - _z[a]);
        var nx = Difference(uy, vz, uz, vy);
        var ny = Difference(uz, vx, ux, vz);
        var nz = Difference(ux, vy, uy, vx);
        var length = Math.Sqrt((nx * nx) + (ny * ny) + (nz * nz));
        (nx, ny, nz) = (nx / length, ny / length, nz / length);
        _faces[index] = new Face
        {
            A = a,
            B = b,
            C = c,
            Nx = nx,
            Ny = ny,
            Nz = nz,
            Offset = (nx * _x[a]) + (ny * _y[a]) + (nz * _z[a]),
            Outside = None,
            Farthest = None,
            Alive = true,
        };
        return index;
    }

    /// <summary>ab − cd to the last bits (Kahan's use of a fused multiply-add): the normal of a sliver stays right.</summary>
    private static double Difference(double a, double b, double c, double d)
    {
        var cd = c * d;
        return Math.FusedMultiplyAdd(a, b, -cd) + Math.FusedMultiplyAdd(-c, d, cd);
    }

    private void Wait(int face)
    {
        if (_faces[face].Outside != None) _pending.Push(face);
    }

    /// <summary>Chains the point to the face it is farthest outside of, or lets it go.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void PutOutside(int point, ReadOnlySpan<int> faces)
    {
        var (x, y, z) = (_x[point], _y[point], _z[point]);
        var best = None;
        var farthest = _tolerance;
        foreach (var index in faces)
        {
            ref var f = ref _faces[index];
            var distance = (f.Nx * x) + (f.Ny * y) + (f.Nz * z) - f.Offset;
            if (distance > farthest)
            {
                farthest = distance;
                best = index;
            }
        }

        if (best == None) return;
        ref var face = ref _faces[best];
        _next[point] = face.Outside;
        face.Outside = point;
        if (face.Farthest == None || farthest > face.FarthestDistance)
        {
            face.Farthest = point;
            face.FarthestDistance = farthest;
        }
    }

    private void Grow(CancellationToken stop)
    {
        var round = 0;
        List<int> fresh = [];
        List<int> orphans = [];
        while (_pending.TryPop(out var start))
        {
            if ((round & 255) == 0) stop.ThrowIfCancellationRequested();
            if (!_faces[start].Alive || _faces[start].Outside == None) continue;
            var apex = _faces[start].Farthest;
            if (!Sees(start, apex))
            {
                DropFarthest(start);
                continue;
            }

            round++;
            FindHorizon(start, apex, round);
            fresh.Clear();
            foreach (var (outside, edge) in _horizon)
            {
                var (a, b) = Edge(outside, edge);
                var face = NewFace(b, a, apex); // the edge runs the other way round in the face beyond it
                _faces[face].AcrossAb = outside;
                SetAcross(outside, edge, face);
                fresh.Add(face);
            }

            for (var i = 0; i < fresh.Count; i++)
            {
                _faces[fresh[i]].AcrossBc = fresh[(i + 1) % fresh.Count];
                _faces[fresh[(i + 1) % fresh.Count]].AcrossCa = fresh[i];
            }

            orphans.Clear();
            foreach (var gone in _visible)
            {
                for (var p = _faces[gone].Outside; p != None; p = _next[p])
                {
                    if (p != apex) orphans.Add(p);
                }

                _faces[gone].Alive = false;
                _faces[gone].Outside = _freeFace;
                _freeFace = gone;
            }

            var faces = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(fresh);
            foreach (var point in orphans) PutOutside(point, faces);
            foreach (var face in fresh) Wait(face);
        }
    }

    /// <summary>A rounding case: the chained point is not outside after all. It goes, the next farthest takes its place.</summary>
    private void DropFarthest(int face)
    {
        ref var f = ref _faces[face];
        var (gone, rest, farthest, distance) = (f.Farthest, None, None, 0.0);
        for (var p = f.Outside; p != None;)
        {
            var following = _next[p];
            if (p != gone)
            {
                _next[p] = rest;
                rest = p;
                var d = (f.Nx * _x[p]) + (f.Ny * _y[p]) + (f.Nz * _z[p]) - f.Offset;
                if (farthest == None || d > distance) (farthest, distance) = (p, d);
            }

            p = following;
        }

        (f.Outside, f.Farthest, f.FarthestDistance) = (rest, farthest, distance);
        Wait(face);
    }

    private bool Sees(int face, int point)
    {
        ref var f = ref _faces[face];
        return PlaneSide.Of(Point(f.A), Point(f.B), Point(f.C), Point(point)) > 0;
    }

    /// <summary>Walks the faces that the apex sees, depth first and edge after edge, so that the horizon comes out as one ring in order.</summary>
    private void FindHorizon(int start, int apex, int round)
    {
        _visible.Clear();
        _horizon.Clear();
        _walk.Clear();
        _faces[start].Mark = -round;
        _visible.Add(start);
        _walk.Add((start, 0, 3));
        while (_walk.Count > 0)
        {
            var (face, first, steps) = _walk[^1];
            if (steps == 0)
            {
                _walk.RemoveAt(_walk.Count - 1);
                continue;
            }

            _walk[^1] = (face, (first + 1) % 3, steps - 1);
            var other = Across(face, first);
            if (_faces[other].Mark == -round) continue;
            var back = EdgeTo(other, face, first);
            if (_faces[other].Mark != round && Sees(other, apex))
            {
                _faces[other].Mark = -round;
                _visible.Add(other);
                _walk.Add((other, (back + 1) % 3, 2));
            }
            else
            {
                _faces[other].Mark = round;
                _horizon.Add((other, back));
            }
        }
    }

    private int Across(int face, int edge)
    {
        ref var f = ref _faces[face];
        return edge == 0 ? f.AcrossAb : edge == 1 ? f.AcrossBc : f.AcrossCa;
    }

    private void SetAcross(int face, int edge, int other)
    {
        ref var f = ref _faces[face];
        if (edge == 0) f.AcrossAb = other;
        else if (edge == 1) f.AcrossBc = other;
        else f.AcrossCa = other;
    }

    private (int From, int To) Edge(int face, int edge)
    {
        ref var f = ref _faces[face];
        return edge == 0 ? (f.A, f.B) : edge == 1 ? (f.B, f.C) : (f.C, f.A);
    }

    /// <summary>Which edge of <paramref name="face"/> is edge <paramref name="edge"/> of <paramref name="neighbour"/>.</summary>
    private int EdgeTo(int face, int neighbour, int edge)
    {
        var (_, to) = Edge(neighbour, edge);
        ref var f = ref _faces[face];
        return f.A == to ? 0 : f.B == to ? 1 : 2;
    }
}
