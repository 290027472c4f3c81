using Catalogue.Data;
using Catalogue.Model.Inspections;

namespace Catalogue.Web.Inspection;

/// <summary>Something another room does with a mesh as soon as it has been inspected. Begun here, never waited for: the next mesh is in the queue.</summary>
internal interface IAfterInspection
{
    Task DoneAsync(CatalogueDb db, MeshInspection inspection, CancellationToken cancellation);
}
