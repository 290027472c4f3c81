using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Web.Features.Shared;

/// <summary>A mesh file to be drawn.</summary>
internal sealed record PicturedFile(string Sha256, LengthUnit? Unit, Rotation Rotation, Vec3 Position)
{
    /// <summary>As the file lies.</summary>
    public static PicturedFile AsItLies(string sha256, LengthUnit? unit) => new(sha256, unit, Rotation.Identity, Vec3.Zero);
}

/// <summary>What a picture shows.</summary>
/// <param name="Files">The meshes, each where it stands.</param>
internal sealed record PictureSubject(IReadOnlyList<PicturedFile> Files)
{
    /// <summary>Counts up when pictures are drawn another way.</summary>
    private const int Version = 1;

    /// <summary>Where a ball marks something; null for nowhere.</summary>
    public Vec3? Place { get; init; }

    /// <summary>The meshes are moved away from each other, so that each is seen.</summary>
    public bool IsApart { get; init; }

    /// <summary>The file of an earlier revision: what is elsewhere since then is coloured.</summary>
    public PicturedFile? Before { get; init; }

    public static PictureSubject Part(string sha256, LengthUnit? unit) => new([PicturedFile.AsItLies(sha256, unit)]);

    /// <summary>The name of its picture: the same for the same files, places, size and format.</summary>
    public string NameOf(int width, int height, string format)
    {
        var text = new StringBuilder().Append(CultureInfo.InvariantCulture, $"{Version} {width} {height}");
        foreach (var file in Files) Append(file);
        if (Place is { } at) text.Append(CultureInfo.InvariantCulture, $"\nplace {at.X} {at.Y} {at.Z}");
        if (IsApart) text.Append("\napart");
        if (Before is { } before)
        {
            text.Append("\nsince");
            Append(before);
        }

        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..32] + "." + format;

        void Append(PicturedFile file) => text.Append('\n').Append(file.Sha256).Append(' ').Append(file.Unit?.ToString() ?? "-").Append(' ').AppendJoin(' ', file.Rotation.ToRowMajor())
            .Append(CultureInfo.InvariantCulture, $" {file.Position.X} {file.Position.Y} {file.Position.Z}");
    }
}
