using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Formats.Gltf;

/// <summary>Writes a mesh as glTF 2.0 binary with quantised positions and normals (KHR_mesh_quantization): about 12 bytes a vertex and 6 or 12 a triangle.</summary>
/// <remarks>
/// Positions lie on a grid of a 65 535th of the longest side of the mesh's box: 1.5 µm on a part of 100 mm. Triangles keep their order.
/// Vertices are parted where the surface has a crease, so that shading breaks there. O(n + m).
/// </remarks>
public static class GlbWriter
{
    private const uint Magic = 0x46546C67;
    private const uint JsonChunk = 0x4E4F534A;
    private const uint BinaryChunk = 0x004E4942;
    private const int PositionBytes = 8;
    private const int NormalBytes = 4;

    /// <exception cref="ArgumentException">The mesh has no triangles.</exception>
    public static byte[] ToBytes(TriangleMesh mesh, string name)
    {
        ArgumentNullException.ThrowIfNull(mesh);
        if (mesh.TriangleCount == 0) throw new ArgumentException("A mesh without triangles has no glTF.", nameof(mesh));
        var bounds = mesh.Bounds;
        var step = Math.Max(Math.Max(bounds.Size.X, Math.Max(bounds.Size.Y, bounds.Size.Z)), 1e-6) / ushort.MaxValue;
        var corners = CreasedCorners.Of(mesh);
        var wide = corners.Count > ushort.MaxValue;
        var indexBytes = Padded(mesh.Indices.Length * (wide ? 4 : 2));
        var data = new byte[(corners.Count * (PositionBytes + NormalBytes)) + indexBytes];
        Span<ushort> low = [ushort.MaxValue, ushort.MaxValue, ushort.MaxValue], high = [0, 0, 0], at = [0, 0, 0];
        for (var i = 0; i < corners.Count; i++)
        {
            var p = (mesh.Vertex(corners.Vertex(i)) - bounds.Min) / step;
            (at[0], at[1], at[2]) = (Rounded(p.X), Rounded(p.Y), Rounded(p.Z));
            for (var k = 0; k < 3; k++)
            {
                BinaryPrimitives.WriteUInt16LittleEndian(data.AsSpan((i * PositionBytes) + (2 * k)), at[k]);
                (low[k], high[k]) = (Math.Min(low[k], at[k]), Math.Max(high[k], at[k]));
            }

            BinaryPrimitives.WriteUInt32LittleEndian(data.AsSpan((corners.Count * PositionBytes) + (i * NormalBytes)), corners.Normal(i));
        }

        var indices = data.AsSpan(corners.Count * (PositionBytes + NormalBytes));
        for (var c = 0; c < corners.OfCorner.Length; c++)
        {
            if (wide) BinaryPrimitives.WriteUInt32LittleEndian(indices[(4 * c)..], (uint)corners.OfCorner[c]);
            else BinaryPrimitives.WriteUInt16LittleEndian(indices[(2 * c)..], (ushort)corners.OfCorner[c]);
        }

        return Packed(Json(name, bounds.Min, step, corners.Count, mesh.Indices.Length, wide, low, high, data.Length), data);
    }

    private static ushort Rounded(double value) => (ushort)Math.Clamp(Math.Round(value), 0, ushort.MaxValue);

    private static string Json(
        string name, Vec3 origin, double step, int vertices, int indices, bool wide, ReadOnlySpan<ushort> low, ReadOnlySpan<ushort> high, int bytes)
    {
        var (normalsAt, indicesAt) = (vertices * PositionBytes, vertices * (PositionBytes + NormalBytes));
        var half = Math.Sqrt(0.5);
        return string.Create(CultureInfo.InvariantCulture, $$"""
            {"asset":{"version":"2.0","generator":"Catalogue"},"extensionsUsed":["KHR_mesh_quantization"],"extensionsRequired":["KHR_mesh_quantization"],
            "scene":0,"scenes":[{"nodes":[0]}],
            "nodes":[{"children":[1],"rotation":[{{-half}},0,0,{{half}}],"scale":[0.001,0.001,0.001]},
            {"name":{{Quoted(name)}},"mesh":0,"translation":[{{origin.X}},{{origin.Y}},{{origin.Z}}],"scale":[{{step}},{{step}},{{step}}]}],
            "meshes":[{"primitives":[{"attributes":{"POSITION":0,"NORMAL":1},"indices":2}]}],
            "accessors":[{"bufferView":0,"componentType":5123,"count":{{vertices}},"type":"VEC3","min":[{{low[0]}},{{low[1]}},{{low[2]}}],"max":[{{high[0]}},{{high[1]}},{{high[2]}}]},
            {"bufferView":1,"componentType":5120,"normalized":true,"count":{{vertices}},"type":"VEC3"},
            {"bufferView":2,"componentType":{{(wide ? 5125 : 5123)}},"count":{{indices}},"type":"SCALAR"}],
            "bufferViews":[{"buffer":0,"byteLength":{{normalsAt}},"byteStride":{{PositionBytes}},"target":34962},
            {"buffer":0,"byteOffset":{{normalsAt}},"byteLength":{{indicesAt - normalsAt}},"byteStride":{{NormalBytes}},"target":34962},
            {"buffer":0,"byteOffset":{{indicesAt}},"byteLength":{{indices * (wide ? 4 : 2)}},"target":34963}],
            "buffers":[{"byteLength":{{bytes}}}]}
            """);
    }

    private static string Quoted(string text) => "\"" + System.Text.Json.JsonEncodedText.Encode(text) + "\"";

    private static byte[] Packed(string json, byte[] data)
    {
        var text = Encoding.UTF8.GetBytes(json);
        var (textBytes, dataBytes) = (Padded(text.Length), Padded(data.Length));
        var packed = new byte[12 + 8 + textBytes + 8 + dataBytes];
        BinaryPrimitives.WriteUInt32LittleEndian(packed, Magic);
        BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(4), 2);
        BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(8), (uint)packed.Length);
        BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(12), (uint)textBytes);
        BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(16), JsonChunk);
        packed.AsSpan(20, textBytes).Fill((byte)' ');
        text.CopyTo(packed, 20);
        BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(20 + textBytes), (uint)dataBytes);
        BinaryPrimitives.WriteUInt32LittleEndian(packed.AsSpan(24 + textBytes), BinaryChunk);
        data.CopyTo(packed, 28 + textBytes);
        return packed;
    }

    private static int Padded(int bytes) => (bytes + 3) & ~3;
}
