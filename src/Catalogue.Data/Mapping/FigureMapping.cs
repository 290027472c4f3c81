using System.Text.Json;
using Catalogue.Model.Figures;
using Catalogue.Model.Processes;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;

namespace Catalogue.Data.Mapping;

internal static class FigureMapping
{
    public static void Apply(ModelBuilder builder)
    {
        MapFigure(builder);
        MapParts(builder);
        MapRevisions(builder);
        MapOverrulings(builder);
        MapAssembly(builder);
    }

    private static void MapFigure(ModelBuilder builder)
    {
        builder.Entity<Figure>(b =>
        {
            b.ToTable("figures");
            b.Property(f => f.Id).ValueGeneratedNever();
            b.Property(f => f.Slug).HasMaxLength(Slug.MaxLength);
            b.HasIndex(f => f.Slug).IsUnique();
            b.HasIndex(f => f.Status);
            b.Property(f => f.Title).HasMaxLength(120);
            b.Property(f => f.Summary).HasMaxLength(300);
            b.Property(f => f.Licence).HasMaxLength(60);
            b.Property(f => f.Version).IsConcurrencyToken();
            b.Ignore(f => f.CurrentEdition);
            b.HasMany(f => f.Parts).WithOne(p => p.Figure).HasForeignKey(p => p.FigureId).OnDelete(DeleteBehavior.Restrict);
            b.HasMany(f => f.Choices).WithOne().HasForeignKey(c => c.FigureId).OnDelete(DeleteBehavior.Restrict);
            b.HasMany(f => f.Hardware).WithOne().HasForeignKey(h => h.FigureId).OnDelete(DeleteBehavior.Cascade);
            b.HasMany(f => f.Joints).WithOne().HasForeignKey(j => j.FigureId).OnDelete(DeleteBehavior.Cascade);
            b.HasMany(f => f.Steps).WithOne().HasForeignKey(s => s.FigureId).OnDelete(DeleteBehavior.Cascade);
            b.HasMany(f => f.Photos).WithOne().HasForeignKey(p => p.FigureId).OnDelete(DeleteBehavior.Cascade);
            b.HasMany(f => f.Editions).WithOne().HasForeignKey(e => e.FigureId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<Edition>(b =>
        {
            b.ToTable("editions");
            b.Property(e => e.Id).ValueGeneratedNever();
            b.Property(e => e.Note).HasMaxLength(2_000);
            b.HasIndex(e => new { e.FigureId, e.Number }).IsUnique();
            b.HasMany(e => e.Entries).WithOne().HasForeignKey(n => n.EditionId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<EditionEntry>(b =>
        {
            b.ToTable("edition_entries");
            b.HasKey(e => new { e.EditionId, e.VariantId });
            b.HasOne<Part>().WithMany().HasForeignKey(e => e.PartId).OnDelete(DeleteBehavior.Restrict);
            b.HasOne<Variant>().WithMany().HasForeignKey(e => e.VariantId).OnDelete(DeleteBehavior.Restrict);
            b.HasOne<Revision>().WithMany().HasForeignKey(e => e.RevisionId).OnDelete(DeleteBehavior.Restrict);
        });
    }

    private static void MapParts(ModelBuilder builder)
    {
        builder.Entity<Part>(b =>
        {
            b.ToTable("parts");
            b.Property(p => p.Id).ValueGeneratedNever();
            b.Property(p => p.Slug).HasMaxLength(Slug.MaxLength);
            b.Property(p => p.Name).HasMaxLength(120);
            b.Property(p => p.Note).HasMaxLength(2_000);
            b.HasIndex(p => new { p.FigureId, p.Slug }).IsUnique();
            b.Property(p => p.AssembledPoses).HasConversion(
                poses => JsonSerializer.Serialize(poses, JsonSerializerOptions.Default),
                json => JsonSerializer.Deserialize<List<Pose>>(json, JsonSerializerOptions.Default) ?? new(),
                new ValueComparer<IReadOnlyList<Pose>>((a, b) => ReferenceEquals(a, b), poses => poses.Count, poses => poses));
            b.HasOne(p => p.Choice).WithMany().HasForeignKey(p => p.ChoiceId).OnDelete(DeleteBehavior.Restrict);
            b.HasMany(p => p.Variants).WithOne(v => v.Part).HasForeignKey(v => v.PartId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<Choice>(b =>
        {
            b.ToTable("choices");
            b.Property(c => c.Id).ValueGeneratedNever();
            b.Property(c => c.Slug).HasMaxLength(Slug.MaxLength);
            b.Property(c => c.Name).HasMaxLength(120);
            b.HasIndex(c => new { c.FigureId, c.Slug }).IsUnique();
        });
        builder.Entity<Variant>(b =>
        {
            b.ToTable("variants");
            b.Property(v => v.Id).ValueGeneratedNever();
            b.Property(v => v.Slug).HasMaxLength(Slug.MaxLength);
            b.Property(v => v.Name).HasMaxLength(120);
            b.Property(v => v.Note).HasMaxLength(2_000);
            b.HasIndex(v => new { v.PartId, v.Slug }).IsUnique();
            b.Ignore(v => v.Latest);
            b.HasMany(v => v.Revisions).WithOne().HasForeignKey(r => r.VariantId).OnDelete(DeleteBehavior.Restrict);
            b.HasMany(v => v.Declarations).WithOne().HasForeignKey(d => d.VariantId).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<Declaration>(b =>
        {
            b.ToTable("declarations");
            b.HasKey(d => new { d.VariantId, d.Process });
            b.Property(d => d.Process).HasMaxLength(ProcessCode.MaxLength);
            b.Property(d => d.Reservation).HasMaxLength(500);
        });
    }

    private static void MapRevisions(ModelBuilder builder) => builder.Entity<Revision>(b =>
    {
        b.ToTable("revisions");
        b.Property(r => r.Id).ValueGeneratedNever();
        b.Property(r => r.Sha256).HasMaxLength(64);
        b.Property(r => r.FileName).HasMaxLength(200);
        b.Property(r => r.Note).HasMaxLength(2_000);
        b.HasIndex(r => new { r.VariantId, r.Number }).IsUnique();
        b.HasIndex(r => r.Sha256);
        b.HasOne(r => r.Inspection).WithMany().HasForeignKey(r => r.InspectionId).OnDelete(DeleteBehavior.Restrict);
        b.HasMany(r => r.Overrulings).WithOne().HasForeignKey(o => o.RevisionId).OnDelete(DeleteBehavior.Restrict);
    });

    private static void MapOverrulings(ModelBuilder builder) => builder.Entity<Overruling>(b =>
    {
        b.ToTable("overrulings");
        b.Property(o => o.Id).ValueGeneratedNever();
        b.Property(o => o.Process).HasMaxLength(ProcessCode.MaxLength);
        b.Property(o => o.Code).HasMaxLength(60);
        b.Property(o => o.Reason).HasMaxLength(Overruling.MaxReason);
        b.Property(o => o.By).HasMaxLength(80);
        b.Property(o => o.WithdrawnBy).HasMaxLength(80);
        b.Ignore(o => o.Stands);
        b.Ignore(o => o.Word);
        b.HasIndex(o => new { o.RevisionId, o.Process });
    });

    private static void MapAssembly(ModelBuilder builder)
    {
        builder.Entity<HardwareNeed>(b =>
        {
            b.ToTable("hardware_needs");
            b.Property(h => h.Id).ValueGeneratedNever();
            b.Property(h => h.Name).HasMaxLength(120);
            b.Property(h => h.Size).HasMaxLength(120);
            b.Property(h => h.Substitutes).HasMaxLength(500);
            b.Property(h => h.Caution).HasMaxLength(500);
            b.HasMany(h => h.Parts).WithMany().UsingEntity("hardware_parts");
        });
        builder.Entity<Joint>(b =>
        {
            b.ToTable("joints");
            b.Property(j => j.Id).ValueGeneratedNever();
            b.Property(j => j.Name).HasMaxLength(120);
            b.Property(j => j.Note).HasMaxLength(500);
            b.HasOne<Part>().WithMany().HasForeignKey(j => j.FirstPartId).OnDelete(DeleteBehavior.Restrict);
            b.HasOne<Part>().WithMany().HasForeignKey(j => j.SecondPartId).OnDelete(DeleteBehavior.Restrict);
        });
        builder.Entity<Photo>(b =>
        {
            b.ToTable("photos");
            b.Property(p => p.Id).ValueGeneratedNever();
            b.Property(p => p.Sha256).HasMaxLength(64);
            b.Property(p => p.Words).HasMaxLength(Photo.MaxWords);
            b.HasIndex(p => new { p.FigureId, p.Sha256 }).IsUnique();
        });
        builder.Entity<Step>(b =>
        {
            b.ToTable("steps");
            b.Property(s => s.Id).ValueGeneratedNever();
            b.Property(s => s.Title).HasMaxLength(120);
            b.Property(s => s.Body).HasMaxLength(4_000);
            b.HasMany(s => s.Parts).WithMany().UsingEntity("step_parts");
            b.HasMany(s => s.Hardware).WithMany().UsingEntity("step_hardware");
            b.HasOne<Part>().WithMany().HasForeignKey(s => s.ChoicePartId).OnDelete(DeleteBehavior.Restrict);
        });
    }
}
