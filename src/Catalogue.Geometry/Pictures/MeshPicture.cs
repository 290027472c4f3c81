using System.Numerics;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Pictures;

/// <summary>A mesh where it stands in a picture.</summary>
/// <param name="Rotation">From the mesh's own coordinates to the scene's, before it is moved.</param>
/// <param name="TintOf">The colour of a triangle, for findings; null = <paramref name="Tint"/> all over.</param>
public sealed record PicturedMesh(TriangleMesh Mesh, Rotation Rotation, Vec3 Position, Tint Tint, Func<int, Tint>? TintOf = null);

/// <summary>Draws meshes without a graphics processor: a depth buffer, two lamps, and the shade that hollows and neighbours throw.</summary>
/// <remarks>
/// Seen without perspective, scaled to fill the picture but for a margin, on a transparent ground. Each pixel is the mean of
/// <see cref="Fineness"/> × <see cref="Fineness"/> samples. Normals run smoothly over a surface and break at edges sharper than <see cref="CreaseCosine"/>.
/// Hollows are darker: around every sample a ring of others is asked whether they stand nearer to the viewer. O(triangles + samples) time; 24 bytes a sample
/// and 12 a vertex. Deterministic, one thread. Triangles that face away are drawn as well, so that open meshes show their inside.
/// </remarks>
public static class MeshPicture
{
    public const int LargestSide = 2048;

    private const int Fineness = 2;
    private const float CreaseCosine = 0.75f;
    private const float Margin = 0.04f;

    private static readonly Vector3 KeyLamp = Vector3.Normalize(new(-0.45f, 0.75f, 0.75f));
    private static readonly Vector3 FillLamp = Vector3.Normalize(new(0.85f, -0.1f, 0.45f));
    private static readonly (float X, float Y)[] Ring = [.. Enumerable.Range(0, 12).Select(i => (MathF.Cos(i * 2.399963f) * Reach(i), MathF.Sin(i * 2.399963f) * Reach(i)))];

    /// <exception cref="ArgumentOutOfRangeException">A side below 1 or above <see cref="LargestSide"/>.</exception>
    public static Picture Draw(IReadOnlyList<PicturedMesh> meshes, PictureView view, int width, int height, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(meshes);
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(width, LargestSide);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(height, LargestSide);
        var canvas = new Canvas(width * Fineness, height * Fineness);
        var seen = meshes.Select(m => Seen(m, view)).ToList();
        var (low, high) = (new Vector3(float.PositiveInfinity), new Vector3(float.NegativeInfinity));
        foreach (var (mesh, vertices) in meshes.Zip(seen))
        {
            foreach (var index in mesh.Mesh.Indices)
            {
                low = Vector3.Min(low, vertices[index]);
                high = Vector3.Max(high, vertices[index]);
            }
        }

        if (low.X <= high.X)
        {
            var room = Math.Min(canvas.Width, canvas.Height) * Margin;
            var scale = Math.Min((canvas.Width - (2 * room)) / Math.Max(high.X - low.X, 1e-6f), (canvas.Height - (2 * room)) / Math.Max(high.Y - low.Y, 1e-6f));
            var middle = (low + high) / 2;
            for (var i = 0; i < meshes.Count; i++)
            {
                cancellation.ThrowIfCancellationRequested();
                Place(seen[i], middle, scale, canvas);
                DrawMesh(canvas, meshes[i], seen[i], cancellation);
            }
        }

        cancellation.ThrowIfCancellationRequested();
        return Finish(canvas, width, height);
    }

    private static float Reach(int i) => MathF.Sqrt((i + 0.5f) / 12);

    private static Vector3[] Seen(PicturedMesh pictured, PictureView view)
    {
        var turn = view.ToCamera.After(pictured.Rotation);
        var shift = view.ToCamera.Apply(pictured.Position);
        var vertices = new Vector3[pictured.Mesh.VertexCount];
        for (var i = 0; i < vertices.Length; i++)
        {
            var p = turn.Apply(pictured.Mesh.Vertex(i)) + shift;
            vertices[i] = new((float)p.X, (float)p.Y, (float)p.Z);
        }

        return vertices;
    }

    /// <summary>To samples: x right, y down, z towards the viewer in the same measure.</summary>
    private static void Place(Vector3[] vertices, Vector3 middle, float scale, Canvas canvas)
    {
        for (var i = 0; i < vertices.Length; i++)
        {
            var p = (vertices[i] - middle) * scale;
            vertices[i] = new((canvas.Width / 2f) + p.X, (canvas.Height / 2f) - p.Y, p.Z);
        }
    }

    private static void DrawMesh(Canvas canvas, PicturedMesh pictured, Vector3[] vertices, CancellationToken cancellation)
    {
        var indices = pictured.Mesh.Indices;
        var smooth = new Vector3[vertices.Length];
        for (var i = 0; i < indices.Length; i += 3)
        {
            var normal = Normal(vertices[indices[i]], vertices[indices[i + 1]], vertices[indices[i + 2]]);
            for (var k = 0; k < 3; k++) smooth[indices[i + k]] += normal;
        }

        for (var i = 0; i < smooth.Length; i++) smooth[i] = smooth[i].LengthSquared() > 0 ? Vector3.Normalize(smooth[i]) : Vector3.UnitZ;
        for (var i = 0; i < indices.Length; i += 3)
        {
            if (i % 300_000 == 0) cancellation.ThrowIfCancellationRequested();
            var (ia, ib, ic) = (indices[i], indices[i + 1], indices[i + 2]);
            var flat = Normal(vertices[ia], vertices[ib], vertices[ic]);
            if (!(flat.LengthSquared() > 0)) continue;
            flat = Vector3.Normalize(flat);
            canvas.Triangle(vertices[ia], vertices[ib], vertices[ic], Rounded(smooth[ia], flat), Rounded(smooth[ib], flat), Rounded(smooth[ic], flat),
                pictured.TintOf?.Invoke(i / 3) ?? pictured.Tint);
        }
    }

    /// <summary>Towards the viewer for triangles that run counter-clockwise in the scene: y points down here.</summary>
    private static Vector3 Normal(Vector3 a, Vector3 b, Vector3 c)
    {
        var n = Vector3.Cross(b - a, c - a);
        return new(-n.X, n.Y, -n.Z);
    }

    private static Vector3 Rounded(Vector3 smooth, Vector3 flat) => Vector3.Dot(smooth, flat) > CreaseCosine ? smooth : flat;

    private static Picture Finish(Canvas canvas, int width, int height)
    {
        var reach = 0.05f * Math.Max(canvas.Width, canvas.Height);
        var rgba = new byte[4 * width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var light = Vector3.Zero;
                var covered = 0;
                for (var s = 0; s < Fineness * Fineness; s++)
                {
                    var (sx, sy) = ((Fineness * x) + (s % Fineness), (Fineness * y) + (s / Fineness));
                    if (!canvas.IsCovered(sx, sy)) continue;
                    covered++;
                    light += Lit(canvas, sx, sy) * (1 - (0.75f * Hidden(canvas, sx, sy, reach)));
                }

                if (covered == 0) continue;
                light /= covered;
                var at = 4 * ((y * width) + x);
                rgba[at] = Encoded(light.X);
                rgba[at + 1] = Encoded(light.Y);
                rgba[at + 2] = Encoded(light.Z);
                rgba[at + 3] = (byte)(255 * covered / (Fineness * Fineness));
            }
        }

        return new(width, height, rgba);
    }

    private static Vector3 Lit(Canvas canvas, int x, int y)
    {
        var normal = canvas.NormalAt(x, y);
        if (normal.Z < 0) normal = -normal;
        var key = Math.Max(0, Vector3.Dot(normal, KeyLamp));
        var fill = Math.Max(0, Vector3.Dot(normal, FillLamp));
        var sky = 0.5f + (0.5f * normal.Y);
        return canvas.TintAt(x, y) * ((0.16f + (0.2f * sky)) + (0.72f * key) + (0.16f * fill));
    }

    /// <summary>0 in the open, 1 where everything around stands before it. What stands far before is another thing and throws no shade.</summary>
    private static float Hidden(Canvas canvas, int x, int y, float reach)
    {
        var here = canvas.DepthAt(x, y);
        var normal = canvas.NormalAt(x, y);
        if (normal.Z < 0) normal = -normal;
        var hidden = 0f;
        foreach (var (dx, dy) in Ring)
        {
            var (ox, oy) = (dx * reach, dy * reach);
            if (!canvas.IsCovered((int)(x + ox), (int)(y + oy))) continue;

            // Above the plane of this sample, as seen from it.
            var rise = canvas.DepthAt((int)(x + ox), (int)(y + oy)) - here;
            var above = ((ox * normal.X) - (oy * normal.Y) + (rise * normal.Z)) / reach;
            if (above > 0.05f) hidden += Math.Min(1, above) / (1 + Math.Max(0, (rise / reach) - 2));
        }

        return Math.Min(1, hidden / Ring.Length * 1.6f);
    }

    private static byte Encoded(float linear)
    {
        var v = Math.Clamp(linear, 0, 1);
        v = v <= 0.0031308f ? v * 12.92f : (1.055f * MathF.Pow(v, 1 / 2.4f)) - 0.055f;
        return (byte)MathF.Round(255 * v);
    }
}
