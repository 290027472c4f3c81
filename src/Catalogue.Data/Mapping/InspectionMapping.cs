using Catalogue.Data.Judging;
using Catalogue.Model.Figures;
using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;
using Catalogue.Model.Reports;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Mapping;

internal static class InspectionMapping
{
    public static void Apply(ModelBuilder builder)
    {
        builder.Entity<MeshInspection>(b =>
        {
            b.ToTable("inspections");
            b.Property(i => i.Id).ValueGeneratedNever();
            b.Property(i => i.Sha256).HasMaxLength(64);
            b.Property(i => i.UnitKey).HasMaxLength(20);
            b.Property(i => i.Stage).HasMaxLength(80);
            b.Property(i => i.ErrorCode).HasMaxLength(60);
            b.Property(i => i.ErrorMessage).IsStored(1_000);
            b.HasIndex(i => new { i.Sha256, i.UnitKey }).IsUnique();
            b.HasIndex(i => i.State);
            b.Ignore(i => i.StatedUnit);
            b.Ignore(i => i.Facts);
            b.Ignore(i => i.Holes);
        });
        builder.Entity<InspectionOutline>(b =>
        {
            b.ToTable("inspection_outlines");
            b.HasKey(o => o.InspectionId);
            b.Property(o => o.InspectionId).ValueGeneratedNever();
            b.HasOne<MeshInspection>().WithOne().HasForeignKey<InspectionOutline>(o => o.InspectionId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<InspectionFacts>(b =>
        {
            b.ToTable("inspection_facts");
            b.HasKey(f => new { f.InspectionId, f.Check });
            b.Property(f => f.Check).HasMaxLength(20);
            b.HasOne<MeshInspection>().WithMany().HasForeignKey(f => f.InspectionId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<Rejudgement>(b =>
        {
            b.ToTable("rejudgements");
            b.Property(r => r.Id).ValueGeneratedNever();
        });
        builder.Entity<NextVerdict>(b =>
        {
            b.ToTable("next_verdicts");
            b.HasKey(v => new { v.RevisionId, v.Process });
            b.Property(v => v.Process).HasMaxLength(ProcessCode.MaxLength);
            b.HasOne<Revision>().WithMany().HasForeignKey(v => v.RevisionId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<RevisionVerdict>(b =>
        {
            b.ToTable("revision_verdicts");
            b.HasKey(v => new { v.RevisionId, v.Process });
            b.Property(v => v.Process).HasMaxLength(ProcessCode.MaxLength);
            b.Ignore(v => v.Judgement);
            b.HasOne<Revision>().WithMany().HasForeignKey(v => v.RevisionId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<Report>(b =>
        {
            b.ToTable("reports");
            b.Property(r => r.Id).ValueGeneratedNever();
            b.Property(r => r.Process).HasMaxLength(ProcessCode.MaxLength);
            b.Property(r => r.Printer).HasMaxLength(300);
            b.Property(r => r.Note).HasMaxLength(4_000);
            b.Property(r => r.ReportedBy).HasMaxLength(80);
            b.Property(r => r.Answer).HasMaxLength(2_000);
            b.HasIndex(r => new { r.FigureId, r.ReportedAt });
            b.HasIndex(r => new { r.RevisionId, r.Process });
            b.HasOne<Figure>().WithMany().HasForeignKey(r => r.FigureId).OnDelete(DeleteBehavior.Restrict);
            b.HasOne<Part>().WithMany().HasForeignKey(r => r.PartId).OnDelete(DeleteBehavior.Restrict);
            b.HasOne<Revision>().WithMany().HasForeignKey(r => r.RevisionId).OnDelete(DeleteBehavior.Restrict);
            b.HasOne<Revision>().WithMany().HasForeignKey(r => r.AnsweredByRevisionId).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
