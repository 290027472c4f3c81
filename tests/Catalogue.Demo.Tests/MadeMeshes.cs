using System.Collections.Concurrent;
using System.Globalization;
using Catalogue.Demo.Scenario;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Demo.Tests;

/// <summary>The meshes of the range by path (figure/part/variant/revision), each made once for all tests.</summary>
internal static class MadeMeshes
{
    private static readonly DemoRange Range = HalfTidePlayers.Range();
    private static readonly ConcurrentDictionary<string, Lazy<TriangleMesh>> Made = [];

    public static TriangleMesh Of(string path) =>
        Made.GetOrAdd(path, p => new(() => Find(Range, p).Mesh(TestContext.Current.CancellationToken))).Value;

    public static DemoRevision Find(DemoRange range, string path)
    {
        var names = path.Split('/');
        return range.Figures.Single(f => f.Slug == names[0]).Parts.Single(p => p.Slug == names[1])
            .Variants.Single(v => v.Slug == names[2]).Revisions.Single(r => r.Number == int.Parse(names[3], CultureInfo.InvariantCulture));
    }
}
