using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>One mesh inspected. The job's name is the inspection's id; everything else stands in the catalogue.</summary>
internal sealed class InspectMeshJob(Inspector inspector) : IJob
{
    public static JobKey KeyOf(Guid inspection) => new(inspection.ToString("N"), "inspections");

    public async ValueTask Execute(IJobExecutionContext context, CancellationToken cancellationToken) =>
        await inspector.RunAsync(Guid.ParseExact(context.JobDetail.Key.Name, "N"), cancellationToken);
}
