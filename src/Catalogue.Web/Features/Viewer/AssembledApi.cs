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
            [.. joints.Select(j => new AssembledJointView(
                j.Name, j.Carrier, j.Carried, j.At is { } at ? [at.X, at.Y, at.Z] : null, j.Axis is { } a ? [a.X, a.Y, a.Z] : null, BallOf(j, copies, views, parts)))],
            [.. answer.Parts.Where(p => p.Part.Poses.Count == 0).Select(p => p.Part.Name)]);
    }

    /// <summary>Where the centre of a pop-in ball is told, when the joint says its diameter and no axis was found.</summary>
    private static AssembledBallView? BallOf(AssembledJoint placed, List<PlacedCopy> copies, List<AssembledCopyView> views, List<AssembledPartView> parts)
    {
        var joint = placed.Joint;
        if (joint.Kind != JointKind.PopInBall || placed.Axis is not null || joint.InnerDiameterMm is not { } ball) return null;
        var onCarried = copies[placed.Carried].PartId == joint.SecondPartId;
        var (entering, receiving) = onCarried ? (placed.Carried, placed.Carrier) : (placed.Carrier, placed.Carried);
        return new(entering, At(entering, ball, hollow: false), receiving, At(receiving, joint.OuterDiameterMm ?? ball, hollow: true));

        string At(int copy, double diameter, bool hollow) => BallApi.AddressOf(parts[views[copy].Part].Shape, diameter, hollow);
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
/// <param name="Ball">Of a pop-in ball: where its centre is told, about which the parts turn freely.</param>
internal sealed record AssembledJointView(string Name, int Carrier, int Carried, double[]? At, double[]? Axis, AssembledBallView? Ball);

/// <param name="Copy">Number of the copy with the ball.</param>
/// <param name="Balls">Where the centres of its balls are told, in the coordinates of its file.</param>
/// <param name="SocketCopy">Number of the copy with the socket.</param>
internal sealed record AssembledBallView(int Copy, string Balls, int SocketCopy, string Sockets);
