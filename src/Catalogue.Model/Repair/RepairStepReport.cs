using System.Text.Json.Serialization;
using Catalogue.Geometry.Repair;

namespace Catalogue.Model.Repair;

/// <summary>What a repair changes, in words and as it is stored and answered.</summary>
/// <param name="Kind">A stable word: <c>stitched-cracks</c>, <c>dropped-degenerate-triangles</c>, <c>dropped-duplicate-triangles</c>, <c>turned-triangles</c>, <c>filled-holes</c>, <c>turned-shells</c>.</param>
/// <param name="Count">How many.</param>
/// <param name="At">Where the first of them are, mm, in the file's own coordinates.</param>
public sealed record RepairStepReport(string Kind, int Count, IReadOnlyList<double[]> At)
{
    /// <summary>For people: “2 small flat holes filled”. Programs get its English.</summary>
    [JsonConverter(typeof(SentenceAsEnglish))]
    public Sentence Message => Words.TryParse<RepairKind>(Kind, out var kind) ? RepairWords.Of(kind, Count) : Sentence.FromWords(Kind);

    public static RepairStepReport Of(RepairChange change, int places)
    {
        ArgumentNullException.ThrowIfNull(change);
        return new(Words.Of(change.Kind), change.Count, [.. change.Places.Take(places).Select(p => new[] { Math.Round(p.X, 4), Math.Round(p.Y, 4), Math.Round(p.Z, 4) })]);
    }
}
