using Catalogue.Model.Printers;
using Catalogue.Model.Processes;
using Catalogue.Model.Ranges;
using Microsoft.EntityFrameworkCore;

namespace Catalogue.Data.Mapping;

internal static class RangeMapping
{
    public static void Apply(ModelBuilder builder)
    {
        builder.Entity<RangePromise>(b =>
        {
            b.ToTable("ranges");
            b.Property(r => r.Id).ValueGeneratedNever();
            b.Property(r => r.Title).HasMaxLength(80);
            b.Property(r => r.Introduction).HasMaxLength(2_000);
            b.Property(r => r.Currency).HasMaxLength(3).HasDefaultValue(RangePromise.UsualCurrency);
        });
        builder.Entity<Process>(b =>
        {
            b.ToTable("processes");
            b.HasKey(p => p.Code);
            b.Property(p => p.Code).HasMaxLength(ProcessCode.MaxLength);
            b.Property(p => p.Name).HasMaxLength(80);
            b.Property(p => p.Description).HasMaxLength(500);
            b.ComplexProperty(p => p.Material, m =>
            {
                m.Property(x => x.Name).HasMaxLength(80);
                m.Property(x => x.Origin).HasMaxLength(300);
            });
            b.HasMany(p => p.Limits).WithOne().HasForeignKey(l => l.ProcessCode).OnDelete(DeleteBehavior.Cascade);
            b.HasMany(p => p.Rates).WithOne().HasForeignKey(r => r.ProcessCode).OnDelete(DeleteBehavior.Cascade);
        });
        builder.Entity<PrinterPreset>(b =>
        {
            b.ToTable("printer_presets");
            b.Property(p => p.Id).ValueGeneratedNever();
            b.Property(p => p.Name).HasMaxLength(60);
            b.Property(p => p.Hint).HasMaxLength(120);
            b.Property(p => p.Process).HasMaxLength(ProcessCode.MaxLength);
            b.Ignore(p => p.Volume);
            b.Ignore(p => p.Printer);
        });
        builder.Entity<ProcessLimit>(b =>
        {
            b.ToTable("process_limits");
            b.HasKey(l => new { l.ProcessCode, l.Key });
            b.Property(l => l.ProcessCode).HasMaxLength(ProcessCode.MaxLength);
            b.Property(l => l.Key).HasMaxLength(40);
            b.Property(l => l.Unit).HasMaxLength(10);
            b.Property(l => l.Origin).HasMaxLength(200);
            b.Property(l => l.NextOrigin).HasMaxLength(200);
        });
        builder.Entity<ProcessRate>(b =>
        {
            b.ToTable("process_rates");
            b.HasKey(r => new { r.ProcessCode, r.Key });
            b.Property(r => r.ProcessCode).HasMaxLength(ProcessCode.MaxLength);
            b.Property(r => r.Key).HasMaxLength(40);
            b.Property(r => r.Unit).HasMaxLength(10);
            b.Property(r => r.Origin).HasMaxLength(200);
        });
    }
}
