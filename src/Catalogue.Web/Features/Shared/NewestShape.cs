using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;

namespace Catalogue.Web.Features.Shared;

/// <summary>The shape that stands for a part in the making: the newest that could be measured, of several variants the first.</summary>
internal sealed record NewestShape(Variant Variant, Revision Revision)
{
    public static NewestShape? Of(Part part)
    {
        ArgumentNullException.ThrowIfNull(part);
        return (from variant in part.Variants.Where(v => !v.IsRemoved).OrderBy(v => v.Id)
                let newest = variant.Revisions.Where(r => !r.IsDiscarded && r.Inspection.State == InspectionState.Done).MaxBy(r => r.Number)
                where newest is not null
                select new NewestShape(variant, newest)).FirstOrDefault();
    }
}
