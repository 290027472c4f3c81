using System.Globalization;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>The findings of a page that have a place on the part, each with a name that stays good while the checks say the same: for links, for the viewer, for pictures.</summary>
internal sealed class FindingPlaces(Func<string, string> linkTo)
{
    private readonly Dictionary<Finding, string> _names = new(ReferenceEqualityComparer.Instance);
    private readonly List<(string Scope, Finding Finding)> _all = [];

    /// <param name="scope">What was judged on what: <c>resin.VPP-rigid</c>.</param>
    public void Add(string scope, Judgement judgement)
    {
        ArgumentNullException.ThrowIfNull(judgement);
        foreach (var (name, finding) in Named(scope, judgement))
        {
            _names[finding] = name;
            _all.Add((scope, finding));
        }
    }

    /// <summary>The name of a finding; null when it has no place.</summary>
    public string? NameOf(Finding finding) => _names.GetValueOrDefault(finding);

    /// <summary>The address that shows where a finding is.</summary>
    public string LinkTo(string name) => linkTo(name);

    /// <summary>Those of one judgement, as they were added.</summary>
    public IEnumerable<(string Name, Finding Finding)> Of(string scope) => _all.Where(a => a.Scope == scope).Select(a => (_names[a.Finding], a.Finding));

    /// <summary>The finding of a judgement that has that name; null when there is none any more.</summary>
    public static Finding? Find(string scope, Judgement judgement, string name) => Named(scope, judgement).FirstOrDefault(n => n.Name == name).Finding;

    private static IEnumerable<(string Name, Finding Finding)> Named(string scope, Judgement judgement)
    {
        var seen = new Dictionary<string, int>();
        foreach (var finding in judgement.Findings.Where(f => f.At is not null))
        {
            var number = seen[finding.Code] = seen.GetValueOrDefault(finding.Code) + 1;
            yield return (string.Create(CultureInfo.InvariantCulture, $"{scope}.{finding.Code}.{number}"), finding);
        }
    }
}
