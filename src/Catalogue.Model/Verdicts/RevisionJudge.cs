using Catalogue.Model.Inspections;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Verdicts;

/// <summary>Judges the mesh of one revision on one process from its measurements: no volume, no mesh needed.</summary>
public static class RevisionJudge
{
    /// <summary>The findings of a measured mesh on <paramref name="process"/>, and the verdict they make. Pure; microseconds.</summary>
    public static Judgement Judge(MeshFacts facts, Process process)
    {
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentNullException.ThrowIfNull(process);
        var measured = CheckedFacts.Of(facts);
        return Judgement.From([.. MeshFindings(facts), .. Check.All.SelectMany(c => c.Find(measured, process))]);
    }

    /// <summary>Of a file that could not be read as a mesh, on every process.</summary>
    public static Judgement Unreadable(Sentence why) => Judgement.From([Rules.MeshRejected.Found(Severity.Stop, why)]);

    /// <summary>
    /// The same judgement with the findings of some checks drawn again, from the part of the measurements that they go by: what <see cref="Judge"/> comes to when only limits that these checks ask
    /// have changed. Findings that no check makes any more are left out, and so is what others say of it: reports and overrulings are weighed again by the caller.
    /// </summary>
    /// <param name="kept">As it was.</param>
    /// <param name="again">Checks, each with its part of the measurements.</param>
    public static Judgement JudgeAgain(Judgement kept, IReadOnlyList<(Check Check, CheckedFacts Facts)> again, Process process)
    {
        ArgumentNullException.ThrowIfNull(kept);
        ArgumentNullException.ThrowIfNull(again);
        ArgumentNullException.ThrowIfNull(process);
        var overruled = kept.OverruledFindings.Any();
        var computed = kept.Findings.Select(f => f with { Overruled = null }).ToList();
        var findings = computed.Where(f => Rules.Of(f.Code)?.Subject == RuleSubject.File).ToList();
        foreach (var check in Check.All)
        {
            var anew = again.FirstOrDefault(a => a.Check == check);
            if (anew.Check is not null)
            {
                findings.AddRange(check.Find(anew.Facts, process));
                continue;
            }

            // What was overruled stood behind the others; every check makes its findings in the order of its codes.
            var same = computed.Where(f => check.Codes.Contains(f.Code));
            findings.AddRange(overruled ? same.OrderBy(f => check.CodeOrder(f.Code)) : same);
        }

        return Judgement.From(findings);
    }

    private static IEnumerable<Finding> MeshFindings(MeshFacts facts)
    {
        if (facts.OpenEdges > 0)
        {
            yield return Rules.MeshOpen.Found(Severity.Stop,
                $"The surface has {facts.OpenEdges} open edges, so it is not clear what is inside. Close the holes and upload again.") with
            {
                Measured = facts.OpenEdges,
                Limit = 0,
                Unit = "edges",
                At = facts.TroubleAt,
                Source = Rules.MeshOpen.Origin,
            };
        }

        if (facts.NonManifoldEdges > 0)
        {
            yield return Rules.MeshNonManifold.Found(Severity.Care,
                $"{facts.NonManifoldEdges} edges are shared by more than two triangles; programs disagree on what is inside there. Separate the surfaces that touch.") with
            {
                Measured = facts.NonManifoldEdges,
                Limit = 0,
                Unit = "edges",
                At = facts.TroubleAt,
                Source = Rules.MeshNonManifold.Origin,
            };
        }

        if (facts is { OpenEdges: 0, Oriented: false })
        {
            yield return Rules.MeshOrientation.Found(Severity.Care, $"Neighbouring triangles face opposite ways. Make all normals point outward and upload again.") with
            {
                Source = Rules.MeshOrientation.Origin,
            };
        }

        if (facts.SelfIntersections > 0)
        {
            yield return Rules.MeshSelfIntersections.Found(Severity.Care,
                $"The surface runs through itself: {facts.SelfIntersections} pairs of triangles cross. Programs disagree on what is inside there; unite the overlapping pieces and upload again.") with
            {
                Measured = facts.SelfIntersections,
                Limit = 0,
                Unit = "pairs",
                At = facts.CrossingAt,
                Source = Rules.MeshSelfIntersections.Origin,
            };
        }

        if (facts.InsideOutShells > 0)
        {
            yield return Rules.MeshInsideOut.Found(Severity.Care,
                facts.InsideOutShells == 1
                    ? S($"A piece of the surface is inside out. Turn its normals outward and upload again.")
                    : $"{facts.InsideOutShells} pieces of the surface are inside out. Turn their normals outward and upload again.") with
            {
                Measured = facts.InsideOutShells,
                Limit = 0,
                Unit = "shells",
                Source = Rules.MeshInsideOut.Origin,
            };
        }

        if (facts.DegenerateTriangles + facts.DuplicateTriangles > 0)
        {
            yield return Rules.MeshUntidy.Found(Severity.Note,
                $"{facts.DegenerateTriangles} triangles have no area and {facts.DuplicateTriangles} are there twice. Harmless for most printers; tidy up when convenient.") with
            {
                Measured = facts.DegenerateTriangles + facts.DuplicateTriangles,
                Limit = 0,
                Unit = "triangles",
            };
        }

        if (facts.SmallPart)
        {
            yield return Rules.SmallPart.Found(Severity.Note, $"Goes entirely into the small-parts cylinder: a child under three can choke on it. Keep it out of reach.") with
            {
                Source = Rules.SmallPart.Origin,
            };
        }

        foreach (var warning in facts.Warnings)
            yield return Rules.FileWarning.Found(Severity.Care, warning);
    }
}
