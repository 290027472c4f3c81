using Quartz;

namespace Catalogue.Web.Inspection;

/// <summary>Two meshes compared. The job's name is made of the ids of both inspections; everything else stands in the catalogue.</summary>
internal sealed class CompareMeshesJob(MeshComparer comparer) : IJob
{
    private const int IdLength = 32;

    public static JobKey KeyOf(Guid before, Guid after) => new($"{before:N}{after:N}", "comparisons");

    public async ValueTask Execute(IJobExecutionContext context, CancellationToken cancellationToken)
    {
        var name = context.JobDetail.Key.Name;
        await comparer.RunAsync(Guid.ParseExact(name[..IdLength], "N"), Guid.ParseExact(name[IdLength..], "N"), cancellationToken);
    }
}
