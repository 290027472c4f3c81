using Catalogue.Model.Comparison;
using Catalogue.Model.Inspections;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Mapping;

internal static class ComparisonMapping
{
    public static void Apply(ModelBuilder builder) => builder.Entity<MeshComparison>(b =>
    {
        b.ToTable("mesh_comparisons");
        b.HasKey(c => new { c.BeforeId, c.AfterId });
        b.Property(c => c.ErrorMessage).IsStored(1_000);
        b.HasIndex(c => c.State);
        b.HasIndex(c => c.AfterId);
        b.Ignore(c => c.Change);
        b.HasOne<MeshInspection>().WithMany().HasForeignKey(c => c.BeforeId).OnDelete(DeleteBehavior.Cascade);
        b.HasOne<MeshInspection>().WithMany().HasForeignKey(c => c.AfterId).OnDelete(DeleteBehavior.Cascade);
    });
}
