using Catalogue.Geometry.Comparison;
using Catalogue.Geometry.Details;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Spatial;
using Catalogue.Model.Processes;
using Catalogue.Model.Verdicts;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Details, holes, limbs and what a revision changed.</summary>
internal static class FeatureOverlays
{

    public static Overlay Details(OverlayQuestion question)
    {
        var (width, height) = (question.Process.Limit(LimitKey.DetailWidth), question.Process.Limit(LimitKey.DetailHeight));
        var fates = DetailSurface.Of(question.Tree, width?.Value ?? 0, height?.Value ?? 0, question.Stop);
        return new("details", $"Lost detail",
            $"Relief that {Sentence.FromWords(question.Process.SpokenName)} does not show: lines narrower than {width?.Value ?? 0:0.##} mm, steps lower than {height?.Value ?? 0:0.##} mm ({Sentence.FromWords((width ?? height)?.Origin ?? "")}).",
            [
                new(1, $"a raised line that is lost", null, width?.Value, "mm"),
                new(2, $"an engraved line that closes", null, width?.Value, "mm"),
                new(3, $"beside a step that may not show", null, height?.Value, "mm"),
            ], [])
        {
            OfTriangle = [.. fates.Select(f => (byte)f)],
        };
    }

    public static Overlay Holes(OverlayQuestion question)
    {
        var holes = question.Facts.Holes!.Holes;
        var limit = question.Process.Limit(LimitKey.HoleDiameter);
        var of = HoleSurface.Of(question.Mesh, holes);
        return new("holes", $"Round holes",
            limit is null ? S($"Straight round holes with their diameters.") : $"Straight round holes with their diameters; the smallest that {Sentence.FromWords(question.Process.SpokenName)} keeps open is {limit.Value:0.##} mm ({Sentence.FromWords(limit.Origin)}).",
            [new(1, $"smaller than the limit", null, limit?.Value, "mm"), new(2, $"through", limit?.Value, null, "mm"), new(3, $"blind", limit?.Value, null, "mm")],
            [.. holes.Select(h => OverlayPlace.Of(h.Through ? S($"{h.DepthMm:0.0} mm deep, through") : $"{h.DepthMm:0.0} mm deep, blind", h.Mouth, Math.Round(h.DiameterMm, 2)))])
        {
            OfTriangle = [.. of.Select(h => h < 0 ? (byte)0 : holes[h].DiameterMm < limit?.Value ? (byte)1 : holes[h].Through ? (byte)2 : (byte)3)],
        };
    }

    public static Overlay Limbs(OverlayQuestion question)
    {
        var material = question.Process.Material;
        var stands = LimbFindings.Stands(material);
        var edges = EdgeAdjacency.Of(question.Mesh, question.Stop);
        var (weak, broken) = (new bool[question.Mesh.TriangleCount], new bool[question.Mesh.TriangleCount]);
        var places = new List<OverlayPlace>();
        foreach (var limb in question.Facts.Limbs!.Limbs)
        {
            var (push, drop) = (LimbFindings.Push(limb), LimbFindings.Drop(limb, material));
            var stress = Math.Max(push, drop);
            if (stress <= stands) continue;
            var section = push >= drop ? limb.Pushed : limb.Dropped;
            LimbSurface.Mark(question.Tree, edges, limb, section, stress > LimbFindings.CareBeyond * stands ? broken : weak);
            places.Add(OverlayPlace.Of($"{section.ThicknessMm:0.0} mm thick, {section.LeverMm:0} mm from its tip: {stress:0} MPa", section.At));
        }

        return new("limbs", $"Fragile limbs",
            $"Limbs beyond the section that a finger (10 N) or a fall from a table bends beyond what {Sentence.FromWords(material.Name)} stands ({stands:0} MPa: modulus times least strain at break).",
            [
                new(1, $"breaks", Math.Round(LimbFindings.CareBeyond * stands), null, "MPa"),
                new(2, $"may break", Math.Round(stands), Math.Round(LimbFindings.CareBeyond * stands), "MPa"),
            ], places)
        {
            OfTriangle = [.. broken.Zip(weak, (b, w) => b ? (byte)1 : w ? (byte)2 : (byte)0)],
        };
    }

    public static Overlay Changes(OverlayQuestion question)
    {
        var distances = SurfaceDistances.Of(question.Mesh, TriangleTree.Build(question.Before!, question.Stop), question.Stop);
        var farthest = 0;
        for (var t = 1; t < distances.Length; t++)
            if (distances[t] > distances[farthest]) farthest = t;
        var (a, b, c) = question.Mesh.Triangle(farthest);
        return new("changes", $"Changed since the revision before",
            $"How far this surface is from that of the revision before, both where their files put them. What was only taken away leaves no surface to colour.",
            [
                new(1, $"far off", ChangeSteps.ClearlyMovedMm, null, "mm"),
                new(2, $"moved", ChangeSteps.MovedMm, ChangeSteps.ClearlyMovedMm, "mm"),
                new(3, $"touched", ChangeSteps.TouchedMm, ChangeSteps.MovedMm, "mm"),
            ],
            distances.Length > 0 && distances[farthest] >= ChangeSteps.TouchedMm ? [OverlayPlace.Of($"farthest off: {distances[farthest]:0.00} mm", (a + b + c) / 3)] : [])
        {
            OfTriangle = [.. distances.Select(d => ChangeSteps.KindOf(d))],
        };
    }
}
