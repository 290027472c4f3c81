using Catalogue.Data;
using Catalogue.Model.Inspections;
using Catalogue.Web.Inspection;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Makes the levels of detail of a large mesh when it has been inspected, so that nobody who looks at it has to wait for them. Small ones are made faster than anybody could tell.</summary>
internal sealed class ShapesAhead(ViewerDesk desk, ILogger<ShapesAhead> log) : IAfterInspection
{
    /// <summary>From here on a shape takes longer than an answer waits for it.</summary>
    private const int LargeTriangles = 100_000;

    public async Task DoneAsync(CatalogueDb db, MeshInspection inspection, CancellationToken cancellation)
    {
        if (inspection.Triangles < LargeTriangles) return;
        var name = await (from p in db.Parts from v in p.Variants from r in v.Revisions where r.InspectionId == inspection.Id select p.Name).FirstOrDefaultAsync(cancellation);
        if (name is not null) _ = MakeAsync(name, inspection);
    }

    private async Task MakeAsync(string partName, MeshInspection inspection)
    {
        try
        {
            await ViewedShape.AskAsync(desk, partName, inspection.Sha256, inspection.StatedUnit, CancellationToken.None);
        }
        catch (Exception why) when (why is not OutOfMemoryException)
        {
            log.LogInformation(why, "The shape of {Sha256} was not made ahead; it is made when somebody asks for it", inspection.Sha256);
        }
    }
}
