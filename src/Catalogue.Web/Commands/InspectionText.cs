using System.Globalization;
using Catalogue.Model.Inspections;
using Catalogue.Model.Repair;

namespace Catalogue.Web.Commands;

/// <summary>An inspection for people at a terminal.</summary>
internal static class InspectionText
{
    public static void Write(TextWriter to, InspectionReport report)
    {
        to.WriteLine(report.File);
        if (report.Error is { } error)
        {
            to.WriteLine($"  cannot be read ({error.Code}): {error.Message}");
            return;
        }

        foreach (var warning in report.Warnings ?? []) to.WriteLine($"  note: {warning}");
        var (mesh, size) = (report.Mesh!, report.Size!);
        Line($"  {report.Format}, {mesh.Triangles} triangles, {mesh.Shells} {(mesh.Shells == 1 ? "shell" : "shells")}, {(mesh.Closed ? "closed" : $"{mesh.BoundaryEdges} open edges")}");
        Line($"  {size.X:0.##} × {size.Y:0.##} × {size.Z:0.##} mm, {report.VolumeMm3 / 1000:0.##} cm³, {report.AreaMm2 / 100:0.##} cm²");
        if (report.SmallestBox is { } box) Line($"  smallest box {box.Size[0]:0.##} × {box.Size[1]:0.##} × {box.Size[2]:0.##} mm");
        if (report.Fit is { } fit)
            Line($"  {(fit.Fits ? $"fits, {fit.SpareMm:0.0} mm to spare when turned" : $"{-fit.SpareMm:0.0} mm too long in every orientation")}");
        if (report.Thickness is { MinMm: { } least, MedianMm: { } median } thickness)
            Line($"  {least:0.00} mm thick at least, {median:0.0} mm for half of the surface, {thickness.ThinRegionCount} places below {thickness.BelowMm:0.##} mm");
        if (report.Gaps is { NarrowRegionCount: > 0 } gaps) Line($"  {gaps.NarrowRegionCount} gaps narrower than {gaps.BelowMm:0.##} mm");
        if (report.Overhang is { } overhang)
            Line($"  as the file lies, {overhang.AreaMm2 / 100:0.##} cm² hang over more than {overhang.LimitDegrees}° from the vertical, {overhang.SupportVolumeMm3 / 1000:0.##} cm³ of supports, {overhang.IslandCount} starts in mid-air");
        foreach (var hole in report.Holes ?? [])
            Line($"  hole {hole.DiameterMm:0.00} × {hole.DepthMm:0.0} mm, {(hole.Through ? "through" : "blind")}, lets {hole.ClearMm:0.00} mm pass, at {hole.At[0]:0.0} {hole.At[1]:0.0} {hole.At[2]:0.0}");
        foreach (var peg in report.Pegs ?? []) Line($"  peg {peg.DiameterMm:0.00} × {peg.LengthMm:0.0} mm, at {peg.At[0]:0.0} {peg.At[1]:0.0} {peg.At[2]:0.0}");
        if (report.Liquid is { } liquid)
        {
            if (liquid.SealedVoids.Count > 0) Line($"  {liquid.SealedVoids.Count} sealed {(liquid.SealedVoids.Count == 1 ? "void" : "voids")}, {liquid.SealedVoids.Sum(v => v.VolumeMm3) / 1000:0.##} cm³");
            Line($"  as the file lies, {liquid.PooledMm3 / 1000:0.##} cm³ of liquid stay in it, the film seals up to {liquid.SuctionMm2 / 100:0.##} cm²");
        }

        foreach (var o in report.Orientations?.Advised ?? [])
        {
            Line($"  laid {o.Size[0]:0.#} × {o.Size[1]:0.#} × {o.Size[2]:0.#} mm, turned {o.TurnDegrees[0]:0}° about x, then {o.TurnDegrees[1]:0}° about y, then {o.TurnDegrees[2]:0}° about z: supports touch {o.ContactMm2 / 100:0.##} cm², {o.SupportVolumeMm3 / 1000:0.##} cm³, {o.IslandCount} starts in mid-air");
        }

        foreach (var limb in (report.Limbs ?? []).Take(3))
            Line($"  limb {limb.Pushed.ThicknessMm:0.0} mm thick, {limb.Pushed.LeverMm:0} mm from its tip, at {limb.Pushed.At[0]:0.0} {limb.Pushed.At[1]:0.0} {limb.Pushed.At[2]:0.0}");
        if (report.Detail?.Low.LastOrDefault(s => s.BelowMm <= 1) is { } low) Line($"  relief lower than {low.BelowMm} mm: {low.LengthMm:0} mm of edges in {low.Count} {(low.Count == 1 ? "place" : "places")}");
        if (report.SmallPart is true) to.WriteLine("  small part: fits into the small-parts cylinder of 16 CFR 1501.4; keep away from children under 3");
        if (report.Repair is { } repair)
            to.WriteLine($"  a gentle repair could leave it with {RepairWords.Listed([.. repair.Changes.Select(c => c.Message)])}{(repair.Closed ? "" : "; still open")}");
        foreach (var process in report.Processes ?? [])
        {
            to.WriteLine($"  {process.Process}: {(process.Verdict == "care" ? "suits with care" : process.Verdict)}");
            foreach (var finding in process.Findings) to.WriteLine($"    {finding.Severity}: {finding.Message}{(finding.Arithmetic is { } arithmetic ? $" ({arithmetic})" : "")}");
        }

        void Line(FormattableString text) => to.WriteLine(text.ToString(CultureInfo.InvariantCulture));
    }
}
