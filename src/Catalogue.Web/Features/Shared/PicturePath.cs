using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Shared;

/// <summary>A mesh file to be drawn.</summary>
internal sealed record PicturedFile(string Sha256, LengthUnit? Unit, Rotation Rotation, Vec3 Position);

/// <summary>Where pictures are, with a mark that changes when what they show does.</summary>
internal static class PicturePath
{
    public static readonly int[] Sizes = [160, 320, 640, 1280];

    /// <summary>Counts up when pictures are drawn another way.</summary>
    private const int Version = 1;

    /// <summary>Figures stand: a quarter higher than wide.</summary>
    public static int HeightOf(int width) => width * 5 / 4;

    /// <summary>The picture of the assembled figure; null when its designer has not said where its parts sit.</summary>
    public static string? Of(IndexedFigure figure, int width)
    {
        ArgumentNullException.ThrowIfNull(figure);
        var files = FilesOf(figure);
        return files.Count == 0 ? null : string.Create(CultureInfo.InvariantCulture,
            $"/figures/{figure.Slug}/picture/{width}.webp?v={Mark(NameOf(files, width, HeightOf(width), "webp"))}");
    }

    /// <summary>The picture of a published revision, as its file lies.</summary>
    public static string Of(string figure, string part, string variant, Revision revision, int width)
    {
        ArgumentNullException.ThrowIfNull(revision);
        var name = NameOf([new(revision.Sha256, revision.StatedUnit, Rotation.Identity, Vec3.Zero)], width, width, "webp");
        return string.Create(CultureInfo.InvariantCulture, $"/figures/{figure}/parts/{part}/{variant}/{revision.Number}/picture/{width}.webp?v={Mark(name)}");
    }

    /// <summary>The picture of a published revision with a ball where a finding is.</summary>
    public static string Of(string figure, string part, string variant, Revision revision, PlacedFinding finding, int width)
    {
        ArgumentNullException.ThrowIfNull(revision);
        ArgumentNullException.ThrowIfNull(finding);
        var name = NameOf([new(revision.Sha256, revision.StatedUnit, Rotation.Identity, Vec3.Zero)], width, width, "webp", finding.At);
        return string.Create(CultureInfo.InvariantCulture,
            $"/figures/{figure}/parts/{part}/{variant}/{revision.Number}/finding/{Uri.EscapeDataString(finding.Name)}/{width}.webp?v={Mark(name)}");
    }

    /// <summary>Required parts and the usual member of each choice, each copy in its place; of several variants the first. A part without a place is left out.</summary>
    public static IReadOnlyList<PicturedFile> FilesOf(IndexedFigure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return
        [
            .. from part in figure.Parts
               where part.Role == PartRole.Required || part.IsDefaultMember
               let variant = part.Variants.FirstOrDefault(v => v.IsMeasured)
               where variant is not null
               from pose in part.Poses
               select new PicturedFile(variant.Sha256, variant.StatedUnit, Rotation.FromRowMajor(pose.Rotation), new(pose.X, pose.Y, pose.Z)),
        ];
    }

    /// <summary>The name of a picture: the same for the same files, places, size and format.</summary>
    /// <param name="place">Where a ball marks something; null for nowhere.</param>
    public static string NameOf(IReadOnlyList<PicturedFile> files, int width, int height, string format, Vec3? place = null)
    {
        var text = new StringBuilder().Append(Version).Append(' ').Append(width).Append(' ').Append(height);
        foreach (var file in files)
        {
            text.Append('\n').Append(file.Sha256).Append(' ').Append(file.Unit?.ToString() ?? "-").Append(' ').AppendJoin(' ', file.Rotation.ToRowMajor())
                .Append(FormattableString.Invariant($" {file.Position.X} {file.Position.Y} {file.Position.Z}"));
        }

        if (place is { } at) text.Append(FormattableString.Invariant($"\nplace {at.X} {at.Y} {at.Z}"));
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text.ToString())))[..32] + "." + format;
    }

    public static string Mark(string name) => name[..12];
}
