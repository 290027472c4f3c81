using Catalogue.Geometry.Thickness;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Viewer;

/// <summary>Thin walls and narrow gaps by a process's limits.</summary>
internal static class WallOverlays
{
    public static Overlay Thickness(OverlayQuestion question)
    {
        var (held, free) = (question.Process.Limit(LimitKey.WallSupported), question.Process.Limit(LimitKey.WallFree));
        var limit = (held ?? free)!;
        var wider = Math.Max(limit.Value, free?.Value ?? 0);
        var measured = LocalThickness.OfMatter(question.Tree, cancel: question.Stop);
        return new("thickness", $"Thin places",
            $"Matter thinner than {limit.Value:0.##} mm ({Sentence.FromWords(limit.Origin)}), the least for {Sentence.FromWords(question.Process.SpokenName)}. Sharp edges run out to nothing everywhere: the findings tell what of it is a wall.",
            [
                new(1, $"less than half of the limit", null, limit.Value / 2, "mm"),
                new(2, $"below the limit", limit.Value / 2, limit.Value, "mm"),
                new(3, wider > limit.Value ? S($"enough for a wall that is held, too thin for one that stands free") : $"not far above the limit", limit.Value, wider > limit.Value ? wider : 1.5 * limit.Value, "mm"),
            ],
            [
                .. (question.Facts.Walls?.Walls.LastOrDefault(s => s.BelowMm <= wider + 1e-9)?.Regions ?? []).Take(6)
                    .Select(r => OverlayPlace.Of(r.FreeStanding ? S($"{r.MinMm:0.00} mm, standing free, {r.AreaMm2:0.#} mm²") : $"{r.MinMm:0.00} mm, held, {r.AreaMm2:0.#} mm²", r.At)),
            ])
        {
            OfTriangle = Graded(question, measured, limit.Value / 2, limit.Value * WallMeasures.Clearly, wider > limit.Value ? wider * WallMeasures.Clearly : 1.5 * limit.Value),
        };
    }

    public static Overlay Gaps(OverlayQuestion question)
    {
        var limit = question.Process.Limit(LimitKey.Clearance)!;
        var measured = LocalThickness.OfGaps(question.Tree, 1.5 * limit.Value, cancel: question.Stop);
        return new("gaps", $"Narrow gaps",
            $"Walls that face each other closer than {limit.Value:0.##} mm ({Sentence.FromWords(limit.Origin)}) may fuse in {Sentence.FromWords(question.Process.SpokenName)}.",
            [
                new(1, $"less than half of the limit", null, limit.Value / 2, "mm"),
                new(2, $"below the limit", limit.Value / 2, limit.Value, "mm"),
                new(3, $"not far above the limit", limit.Value, 1.5 * limit.Value, "mm"),
            ],
            [
                .. (question.Facts.Gaps?.Gaps.LastOrDefault(s => s.BelowMm <= limit.Value + 1e-9)?.Regions ?? []).Take(6)
                    .Select(r => OverlayPlace.Of($"{r.MinMm:0.00} mm apart, {r.AreaMm2:0.#} mm² of wall", r.At)),
            ])
        {
            OfTriangle = Graded(question, measured, limit.Value / 2, limit.Value * WallMeasures.Clearly, 1.5 * limit.Value),
        };
    }

    /// <summary>1 below the first bound, 2 below the second, 3 below the third, else 0.</summary>
    private static byte[] Graded(OverlayQuestion question, LocalThickness measured, double first, double second, double third)
    {
        var kinds = new byte[question.Mesh.TriangleCount];
        for (var t = 0; t < kinds.Length; t++)
        {
            var mm = measured.OnTriangle(t);
            kinds[t] = mm < first ? (byte)1 : mm < second ? (byte)2 : mm < third ? (byte)3 : (byte)0; // NaN is none.
        }

        return kinds;
    }
}
