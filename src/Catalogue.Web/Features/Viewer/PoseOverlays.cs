using Catalogue.Geometry.Health;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Overhangs;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Viewer;

/// <summary>What depends on how the part lies: overhangs with their islands, trapped liquid.</summary>
internal static class PoseOverlays
{
    public static Overlay Overhangs(OverlayQuestion question)
    {
        var limit = question.Process.Limit(LimitKey.OverhangAngle);
        var degrees = limit?.Value ?? OverhangMeasures.ReferenceDegrees;
        var origin = limit is null ? S($"experiment JAITA 2020; for filament, supports are planned in any case here") : Sentence.FromWords(limit.Origin);
        var steep = Math.Min(85, degrees + 30);
        var measures = OverhangMeasures.Of(question.Tree, question.Rotation, cancel: question.Stop);
        var kinds = new byte[question.Mesh.TriangleCount];
        var angles = OverhangAngles.Of(question.Mesh, question.Rotation);
        for (var t = 0; t < kinds.Length; t++)
        {
            kinds[t] = float.IsPositiveInfinity(angles[t]) ? (byte)3
                : angles[t] > steep + OverhangMeasures.AngleToleranceDegrees ? (byte)1
                : angles[t] > degrees + OverhangMeasures.AngleToleranceDegrees ? (byte)2 : (byte)0;
        }

        return new("overhangs", $"Overhangs and islands",
            $"Surface that faces the plate and hangs over more than {degrees:0.#}° from the vertical ({origin}), as the part lies now.",
            [
                new(1, $"nearly level", steep, null, "°"),
                new(2, $"beyond the limit", degrees, steep, "°"),
                new(3, $"rests on the plate"),
            ],
            [
                .. measures.Islands.Take(8).Select(i => OverlayPlace.Of(i.OverPart
                    ? S($"starts in mid-air {i.HeightMm:0.0} mm above the plate, over the part itself")
                    : $"starts in mid-air {i.HeightMm:0.0} mm above the plate", i.At)),
                .. measures.Bridges.Take(6).Select(b => OverlayPlace.Of($"a bridge of {b.SpanMm:0.0} mm", b.At)),
            ])
        {
            OfTriangle = kinds,
        };
    }

    public static Overlay Liquid(OverlayQuestion question)
    {
        var touches = LiquidSurface.Of(question.Mesh, question.Rotation, question.Stop);
        var liquid = TrappedLiquid.Of(question.Mesh, question.Tree, MeshHealth.Of(question.Mesh, question.Stop), question.Rotation, cancel: question.Stop);
        return new("liquid", $"Trapped liquid",
            $"Hollows that keep liquid as the part lies now, hanging from the platform and rising out of the vat.",
            [new(1, $"sealed: no way leads out"), new(2, $"sealed by the film while it is printed"), new(3, $"a pool that stays")],
            [
                .. liquid.Cavities.Where(c => c.Sealed).Take(4).Select(c => OverlayPlace.Of($"sealed, {c.VolumeMm3 / 1000:0.00} cm³", c.At)),
                .. liquid.SuctionCups.Take(4).Select(c => OverlayPlace.Of($"the film seals {c.AreaMm2 / 100:0.00} cm² over {c.LastsMm:0.0} mm of layers", c.At)),
                .. liquid.Pools.Take(4).Select(p => OverlayPlace.Of($"a pool of {p.VolumeMm3 / 1000:0.00} cm³, {p.DepthMm:0.0} mm deep", p.At)),
            ])
        {
            OfTriangle = [.. touches.Select(t => t switch { LiquidTouch.Sealed => (byte)1, LiquidTouch.Suction => (byte)2, LiquidTouch.Pool => (byte)3, _ => (byte)0 })],
        };
    }
}
