using System.Globalization;
using Catalogue.Data;
using Catalogue.Data.Ranges;
using Catalogue.Geometry.Meshes;
using Catalogue.Model.Figures;
using Catalogue.Model.Joints;
using Catalogue.Web.Api;
using Catalogue.Web.Features.Shared;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Viewer;

/// <summary>A figure put together: where each copy sits, and about what it turns.</summary>
internal static class AssembledApi
{
    public static void MapAssembledApi(this IEndpointRouteBuilder app) => app.MapReaderGroup("/api/figures/{figure}", "Viewer")
        .MapGet("/assembled", GetAsync).ProducesProblem(404).ProducesProblem(422)
        .WithSummary("A figure put together: the place of each copy of a part, and the axes of joints that their meshes tell");

    private static async Task<Ok<AssembledView>> GetAsync(
        string figure, [AsParameters] PrinterWords printer, CatalogueDb db, RangeSearch search, HttpRequest request, CancellationToken cancellation)
    {
        var answer = await FigureAnswer.LoadAsync(db, search, figure, PrinterLink.Read(request.Query) ?? Model.Printers.Printer.Unknown, cancellation);
        return TypedResults.Ok(AssembledView.Of(answer, request.PathBase));
    }
}

/// <param name="Joints">Which copy carries which; with an axis where it turns.</param>
/// <param name="Unplaced">Names of parts whose designer has not said where they sit.</param>
internal sealed record AssembledView(
    IReadOnlyList<AssembledPartView> Parts, IReadOnlyList<AssembledCopyView> Copies, IReadOnlyList<AssembledJointView> Joints, IReadOnlyList<string> Unplaced)
{
    public static AssembledView Of(FigureAnswer answer, string pathBase)
    {
        var (parts, views, copies) = (new List<AssembledPartView>(), new List<AssembledCopyView>(), new List<PlacedCopy>());
        foreach (var part in answer.Parts)
        {
            if ((part.Chosen ?? part.Variants.FirstOrDefault(v => v.Variant.IsMeasured)) is not { Variant.IsMeasured: true } variant || part.Part.Poses.Count == 0) continue;
            var p = part.Part;
            var inspection = variant.Revision.Inspection;
            parts.Add(new(p.Slug, p.Name, p.ChoiceName, p.Role == PartRole.ChoiceMember && p.IsDefaultMember, p.Role == PartRole.Optional, string.Create(CultureInfo.InvariantCulture,
                $"{pathBase}/api/figures/{answer.Figure.Slug}/parts/{p.Slug}/variants/{variant.Variant.Slug}/revisions/{variant.Revision.Number}/shape")));
            var holes = inspection.State == Model.Inspections.InspectionState.Done ? inspection.Facts.Holes : null;
            foreach (var pose in p.Poses)
            {
                views.Add(new(parts.Count - 1, pose.X, pose.Y, pose.Z, pose.Rotation));
                copies.Add(new(p.Id, pose, holes, variant.Variant.VolumeMm3, new Vec3(pose.X, pose.Y, pose.Z)));
            }
        }

        var joints = AssembledJoints.Of(copies, answer.Joints);
        return new(parts, views,
            [.. joints.Select(j => new AssembledJointView(j.Name, j.Carrier, j.Carried, j.At is { } at ? [at.X, at.Y, at.Z] : null, j.Axis is { } a ? [a.X, a.Y, a.Z] : null))],
            [.. answer.Parts.Where(p => p.Part.Poses.Count == 0).Select(p => p.Part.Name)]);
    }
}

/// <param name="Choice">The choice it is a member of.</param>
/// <param name="Usual">The member of the choice that is built when nobody says otherwise.</param>
/// <param name="Shape">Where its levels of detail are told.</param>
internal sealed record AssembledPartView(string Slug, string Name, string? Choice, bool Usual, bool Optional, string Shape);

/// <param name="Part">Number of the part in the list.</param>
/// <param name="Rotation">From the file's coordinates to the figure's: nine numbers, row-major; turned first, then moved by x, y, z (mm).</param>
internal sealed record AssembledCopyView(int Part, double X, double Y, double Z, double[] Rotation);

/// <param name="At">A point on the axis, in the figure's coordinates; absent where the meshes tell none.</param>
internal sealed record AssembledJointView(string Name, int Carrier, int Carried, double[]? At, double[]? Axis);
