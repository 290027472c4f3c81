using System.ComponentModel.DataAnnotations;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Catalogue.Geometry.Meshes;
using Catalogue.Model;
using Catalogue.Model.Figures;

namespace Catalogue.Web.Features.Drafts;

/// <summary>Where all copies of a figure's parts sit, as numbers in fields.</summary>
internal sealed class PoseForm
{
    /// <summary>More copies than this are not shown in one form: their designers say it by program or by a 3MF build.</summary>
    public const int MostCopies = 100;

    public List<CopyForm> Copies { get; set; } = [];

    /// <summary>Where things sat when somebody began to change it.</summary>
    public string? Began { get; set; }

    public static PoseForm Of(Figure figure)
    {
        var copies = new List<CopyForm>();
        foreach (var part in Parts(figure))
        {
            if (copies.Count + part.Quantity > MostCopies) continue;
            copies.AddRange(Enumerable.Range(0, part.Quantity).Select(n => CopyForm.Of(part.Slug, n + 1, part.AssembledPoses.ElementAtOrDefault(n))));
        }

        return new() { Copies = copies, Began = StampOf(figure) };
    }

    public static IEnumerable<Part> Parts(Figure figure) => figure.Parts.Where(p => !p.IsRemoved).OrderBy(p => p.Position);

    /// <summary>Tells whether parts, copies and places are still those somebody began with; whatever else changed does not count.</summary>
    public static string StampOf(Figure figure) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(
        JsonSerializer.Serialize(Parts(figure).Select(p => new { p.Slug, p.Quantity, p.AssembledPoses })))))[..16];

    /// <summary>Places the parts as the fields say. Where the numbers are those that were shown, the place stays exactly as it is kept.</summary>
    /// <exception cref="RuleBrokenException"><c>changed-meanwhile</c>, <c>pose-incomplete</c>, <c>pose-far</c>, and those of <see cref="Part.Place"/>.</exception>
    public void ApplyTo(Figure figure, DateTime now)
    {
        if (Began != StampOf(figure))
        {
            throw new RuleBrokenException("changed-meanwhile",
                $"Somebody else changed the parts or where they sit since you opened this page. Theirs is kept; your numbers are below and not saved yet. Compare, then save again to put yours in their place.");
        }

        foreach (var copies in Copies.GroupBy(c => c.Part))
        {
            var part = figure.PartOf(copies.Key);
            var kept = part.AssembledPoses;
            List<CopyForm> inOrder = [.. copies.OrderBy(c => c.Number)];
            if (inOrder.All(c => c.IsEmpty))
            {
                if (kept.Count > 0) part.Place([], now);
                continue;
            }

            if (inOrder.Find(c => c.IsEmpty) is { } missing)
                throw new RuleBrokenException("pose-incomplete", $"Copy {missing.Number} of “{part.Name}” has no place, others of it have. Nothing was saved; give each copy a place, or none.");
            List<Pose> poses = [.. inOrder.Select((c, i) => c.SaysTheSameAs(kept.ElementAtOrDefault(i)) ? kept[i] : c.ToPose(part.Name))];
            if (!poses.SequenceEqual(kept)) part.Place(poses, now);
        }
    }
}

/// <summary>One copy of a part: where the origin of its file sits, and how it is turned before it is moved there.</summary>
internal sealed class CopyForm
{
    private const double FarthestMm = 10_000;

    [Required]
    public string Part { get; set; } = "";

    /// <summary>From 1.</summary>
    public int Number { get; set; }

    public double? X { get; set; }
    public double? Y { get; set; }
    public double? Z { get; set; }

    /// <summary>Degrees about the figure's x axis, first;</summary>
    public double? TurnX { get; set; }

    /// <summary>then about its y axis,</summary>
    public double? TurnY { get; set; }

    /// <summary>last about its z axis.</summary>
    public double? TurnZ { get; set; }

    public bool IsEmpty => Numbers.All(n => n is null);

    private double?[] Numbers => [X, Y, Z, TurnX, TurnY, TurnZ];

    public static CopyForm Of(string part, int number, Pose? pose)
    {
        var form = new CopyForm { Part = part, Number = number };
        if (pose is null) return form;
        var (x, y, z) = Rotation.FromRowMajor(pose.Rotation).ToTurns();
        (form.X, form.Y, form.Z, form.TurnX, form.TurnY, form.TurnZ) = (Round(pose.X), Round(pose.Y), Round(pose.Z), Round(x), Round(y), Round(z));
        return form;
    }

    public bool SaysTheSameAs(Pose? pose) => pose is not null && Numbers.SequenceEqual(Of(Part, Number, pose).Numbers);

    /// <exception cref="RuleBrokenException"><c>pose-incomplete</c>, <c>pose-far</c>.</exception>
    public Pose ToPose(string name)
    {
        if (Numbers.Any(n => n is null))
            throw new RuleBrokenException("pose-incomplete", $"Copy {Number} of “{name}” lacks some of its six numbers. Nothing was saved; fill them in (0 where nothing is moved or turned), or empty all six.");
        if (Math.Max(Math.Abs(X!.Value), Math.Max(Math.Abs(Y!.Value), Math.Abs(Z!.Value))) > FarthestMm)
            throw new RuleBrokenException("pose-far", $"Copy {Number} of “{name}” is more than {FarthestMm / 1000:0} m away. Nothing was saved; give millimetres.");
        const double Radians = Math.PI / 180;
        var rotation = Rotation.About(Vec3.UnitZ, TurnZ!.Value * Radians).After(Rotation.About(Vec3.UnitY, TurnY!.Value * Radians)).After(Rotation.About(Vec3.UnitX, TurnX!.Value * Radians));
        return new(X.Value, Y!.Value, Z!.Value, rotation.ToRowMajor());
    }

    /// <summary>Four decimals; no “−0”.</summary>
    private static double Round(double value) => Math.Round(value, 4) + 0.0;
}
