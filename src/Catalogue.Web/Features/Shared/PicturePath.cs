using System.Globalization;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Shared;

/// <summary>Where pictures are, with a mark that changes when what they show does.</summary>
internal static class PicturePath
{
    public static readonly int[] Sizes = [160, 320, 640, 1280];

    /// <summary>Figures stand: a quarter higher than wide.</summary>
    public static int HeightOf(int width) => width * 5 / 4;

    /// <summary>The picture of the assembled figure; null when its designer has not said where its parts sit.</summary>
    public static string? Of(IndexedFigure figure, int width) => Of(figure, "picture", width, apart: false);

    /// <summary>The same parts away from each other; null when there are not two of them.</summary>
    public static string? Apart(IndexedFigure figure, int width) => FilesOf(figure).Count < 2 ? null : Of(figure, "apart", width, apart: true);

    /// <summary>The picture of a published revision, as its file lies.</summary>
    public static string Of(string figure, string part, string variant, Revision revision, int width) =>
        Of(figure, part, variant, revision, "picture", PictureSubject.Part(revision.Sha256, revision.StatedUnit), width);

    /// <summary>The picture of a published revision with a ball where a finding is.</summary>
    public static string Of(string figure, string part, string variant, Revision revision, PlacedFinding finding, int width)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return Of(figure, part, variant, revision, "finding/" + Uri.EscapeDataString(finding.Name), PictureSubject.Part(revision.Sha256, revision.StatedUnit) with { Place = finding.At }, width);
    }

    /// <summary>The picture of a revision with what is elsewhere than in the one before it.</summary>
    public static string ChangeOf(string figure, string part, string variant, int revision, int width) =>
        string.Create(CultureInfo.InvariantCulture, $"/figures/{figure}/parts/{part}/{variant}/{revision}/change/{width}.webp");

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

    /// <summary>The same of a figure in the making, in its newest shapes.</summary>
    public static IReadOnlyList<PicturedFile> FilesOf(Figure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        return
        [
            .. from part in figure.Parts.OrderBy(p => p.Position)
               where !part.IsRemoved && (part.Role == PartRole.Required || (part.Choice is { } choice && choice.DefaultPartId == part.Id))
               let shape = NewestShape.Of(part)
               where shape is not null
               from pose in part.AssembledPoses
               select new PicturedFile(shape.Revision.Sha256, shape.Revision.StatedUnit, Rotation.FromRowMajor(pose.Rotation), new(pose.X, pose.Y, pose.Z)),
        ];
    }

    public static string Mark(string name) => name[..12];

    private static string? Of(IndexedFigure figure, string kind, int width, bool apart)
    {
        var files = FilesOf(figure);
        return files.Count == 0 ? null : string.Create(CultureInfo.InvariantCulture,
            $"/figures/{figure.Slug}/{kind}/{width}.webp?v={Mark(new PictureSubject(files) { IsApart = apart }.NameOf(width, HeightOf(width), "webp"))}");
    }

    private static string Of(string figure, string part, string variant, Revision revision, string kind, PictureSubject subject, int width) => string.Create(CultureInfo.InvariantCulture,
        $"/figures/{figure}/parts/{part}/{variant}/{revision.Number}/{kind}/{width}.webp?v={Mark(subject.NameOf(width, width, "webp"))}");
}
