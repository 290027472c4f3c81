namespace Catalogue.Model.Figures;

/// <summary>What happens to a variant from one edition to the next: new (<c>From</c> null), replaced, or gone (<c>To</c> null).</summary>
public sealed record EditionChange(Part Part, Variant Variant, Revision? From, Revision? To)
{
    internal static IReadOnlyList<EditionChange> Between(
        Edition? current, IReadOnlyList<(Part Part, Variant Variant, Revision Revision)> next, IReadOnlyList<Part> parts)
    {
        var before = (current?.Entries ?? []).ToDictionary(e => e.VariantId, e => e.RevisionId);
        var kept = next.Select(n => n.Variant.Id).ToHashSet();
        var gone = parts.SelectMany(p => p.Variants.Where(v => before.ContainsKey(v.Id) && !kept.Contains(v.Id)).Select(v =>
            new EditionChange(p, v, v.Revisions.First(r => r.Id == before[v.Id]), null)));
        return
        [
            .. next.Select(n => new EditionChange(n.Part, n.Variant,
                    before.TryGetValue(n.Variant.Id, out var id) ? n.Variant.Revisions.First(r => r.Id == id) : null, n.Revision))
                .Where(c => c.From != c.To),
            .. gone,
        ];
    }
}
