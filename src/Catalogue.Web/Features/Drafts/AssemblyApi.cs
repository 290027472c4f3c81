using Catalogue.Data;
using Catalogue.Data.Queries;
using Catalogue.Model.Figures;
using Catalogue.Web.Api;
using Microsoft.AspNetCore.Http.HttpResults;

namespace Catalogue.Web.Features.Drafts;

/// <summary>How a figure goes together: hardware, joints, steps.</summary>
internal static class AssemblyApi
{
    public static void MapAssemblyApi(this IEndpointRouteBuilder app)
    {
        var figure = app.MapDesignerGroup("/api/figures/{figure}", "Drafts");
        figure.MapPost("/hardware", AddHardwareAsync).WithSummary("A piece of hardware the figure needs")
            .WithExample("""{"kind":"rod","name":"Metal rod","quantity":2,"diameterMm":1.5,"cutLengthMm":14.5,"parts":["torso"]}""");
        figure.MapPut("/hardware/{id:guid}", ChangeHardwareAsync).WithSummary("Replace a piece of hardware");
        figure.MapDelete("/hardware/{id:guid}", RemoveHardwareAsync).WithSummary("Remove a piece of hardware");
        figure.MapPost("/joints", AddJointAsync).WithSummary("A connection of two parts")
            .WithExample("""{"kind":"pop-in-ball","name":"Left shoulder","firstPart":"torso","secondPart":"left-arm","innerDiameterMm":6,"mouthDiameterMm":5.6,"processes":["MEX-rigid"]}""");
        figure.MapPut("/joints/{id:guid}", ChangeJointAsync).WithSummary("Replace a joint");
        figure.MapDelete("/joints/{id:guid}", RemoveJointAsync).WithSummary("Remove a joint");
        figure.MapPost("/steps", AddStepAsync).WithSummary("An assembly step, at the end or at “position”")
            .WithExample("""{"title":"Pin the waist","body":"Push the rod through.","parts":["torso"],"position":1}""");
        figure.MapPut("/steps/{id:guid}", ChangeStepAsync).WithSummary("Replace a step, and move it when “position” is given");
        figure.MapDelete("/steps/{id:guid}", RemoveStepAsync).WithSummary("Remove a step");
    }

    private static async Task<Created<HardwareView>> AddHardwareAsync(
        string figure, HardwareWords words, CatalogueDb db, TimeProvider time, HttpRequest request, CancellationToken cancellation) =>
        TypedResults.Created(At(request, figure), await db.EditAsync(figure, f => HardwareView.Of(words.AddTo(f, Now(time))), cancellation));

    private static async Task<Ok<HardwareView>> ChangeHardwareAsync(
        string figure, Guid id, HardwareWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(await db.EditAsync(figure, f => HardwareView.Of(words.ApplyTo(f, f.HardwareOf(id), Now(time))), cancellation));

    private static Task<NoContent> RemoveHardwareAsync(string figure, Guid id, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        RemoveAsync(figure, db, f => f.RemoveHardware(f.HardwareOf(id), Now(time)), cancellation);

    private static async Task<Created<JointView>> AddJointAsync(
        string figure, JointWords words, CatalogueDb db, TimeProvider time, HttpRequest request, CancellationToken cancellation) =>
        TypedResults.Created(At(request, figure), await db.EditAsync(figure, f => JointView.Of(words.AddTo(f, Now(time)), Slugs(f)), cancellation));

    private static async Task<Ok<JointView>> ChangeJointAsync(
        string figure, Guid id, JointWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(await db.EditAsync(figure, f => JointView.Of(words.ApplyTo(f, f.JointOf(id), Now(time)), Slugs(f)), cancellation));

    private static Task<NoContent> RemoveJointAsync(string figure, Guid id, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        RemoveAsync(figure, db, f => f.RemoveJoint(f.JointOf(id), Now(time)), cancellation);

    private static async Task<Created<StepView>> AddStepAsync(
        string figure, StepWords words, CatalogueDb db, TimeProvider time, HttpRequest request, CancellationToken cancellation) =>
        TypedResults.Created(At(request, figure), await db.EditAsync(figure, f => StepView.Of(words.AddTo(f, Now(time)), Slugs(f)), cancellation));

    private static async Task<Ok<StepView>> ChangeStepAsync(
        string figure, Guid id, StepWords words, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        TypedResults.Ok(await db.EditAsync(figure, f => StepView.Of(words.ApplyTo(f, f.StepOf(id), Now(time)), Slugs(f)), cancellation));

    private static Task<NoContent> RemoveStepAsync(string figure, Guid id, CatalogueDb db, TimeProvider time, CancellationToken cancellation) =>
        RemoveAsync(figure, db, f => f.RemoveStep(f.StepOf(id), Now(time)), cancellation);

    private static async Task<NoContent> RemoveAsync(string figure, CatalogueDb db, Action<Figure> remove, CancellationToken cancellation)
    {
        await db.EditAsync(figure, remove, cancellation);
        return TypedResults.NoContent();
    }

    private static string At(HttpRequest request, string figure) => request.PathBase + $"/api/drafts/{figure}";

    private static Dictionary<Guid, string> Slugs(Figure figure) => figure.Parts.ToDictionary(p => p.Id, p => p.Slug);

    private static DateTime Now(TimeProvider time) => time.GetUtcNow().UtcDateTime;
}
