using Catalogue.Geometry.Details;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Health;
using Catalogue.Geometry.Holes;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Limbs;
using Catalogue.Geometry.Liquids;
using Catalogue.Geometry.Meshes;
using Catalogue.Geometry.Orientations;
using Catalogue.Geometry.Overhangs;
using Catalogue.Geometry.Spatial;
using Catalogue.Geometry.Tests.Spatial;
using Catalogue.Geometry.Thickness;
using Xunit;

namespace Catalogue.Geometry.Tests;

/// <summary>Every room that takes long tells how far it is, and stops soon after it is asked to.</summary>
public sealed class StoppingTests
{
    private delegate object Room(IProgress<double> progress, CancellationToken stop);

    private static readonly TriangleMesh Part = Shapes.Knobbly(240, 120);
    private static readonly TriangleTree Tree = TriangleTree.Build(Part);

    private static readonly Dictionary<string, Room> Rooms = new()
    {
        ["self-intersections"] = (progress, stop) => SelfIntersections.Find(Part, Tree, 100, progress, stop),
        ["thickness"] = (progress, stop) => WallMeasures.Of(Tree, progress, stop),
        ["gaps"] = (progress, stop) => GapMeasures.Of(Tree, progress, stop),
        ["overhangs"] = (progress, stop) => OverhangMeasures.Of(Tree, Rotation.Identity, progress, stop),
        ["holes"] = (progress, stop) => PinHoles.Find(Part, Tree, progress, stop),
        ["limbs"] = (progress, stop) => LimbMeasures.Of(Tree, progress, stop),
        ["liquid"] = (progress, stop) => TrappedLiquid.Of(Part, Tree, MeshHealth.Of(Part), Rotation.Identity, progress, stop),
        ["details"] = (progress, stop) => DetailMeasures.Of(Tree, progress, stop),
        ["orientations"] = (progress, stop) => OrientationAdvice.For(Tree, ConvexHull.Of(Part), BuildVolume.Rectangular(200, 200, 200), progress: progress, cancel: stop),
    };

    public static TheoryData<string> Names => [.. Rooms.Keys];

    [Theory, MemberData(nameof(Names))]
    public void It_tells_how_far_it_is_several_times(string room)
    {
        var told = new Told();
        Rooms[room](told, TestContext.Current.CancellationToken);
        Assert.True(told.Shares.Distinct().Count() >= 3, string.Join(" ", told.Shares));
        Assert.All(told.Shares, s => Assert.InRange(s, 0, 1));
    }

    // Asked to stop while it tells the first, and again the middle, of its shares: it ends with the exception, and each core tells of at most one piece more.
    [Theory, MemberData(nameof(Names))]
    public void It_stops_at_once_wherever_it_is(string room)
    {
        var whole = new Told();
        Rooms[room](whole, TestContext.Current.CancellationToken);
        foreach (var at in new[] { 0, whole.Shares.Count / 2 })
        {
            using var stop = new CancellationTokenSource();
            var told = new Told { StopAt = at, Stop = stop };
            Assert.ThrowsAny<OperationCanceledException>(() => Rooms[room](told, stop.Token));
            Assert.InRange(told.Shares.Count, at + 1, at + 1 + Environment.ProcessorCount);
        }
    }

    private sealed class Told : IProgress<double>
    {
        public List<double> Shares { get; } = [];
        public int StopAt { get; init; } = -1;
        public CancellationTokenSource? Stop { get; init; }

        public void Report(double value)
        {
            lock (Shares)
            {
                Shares.Add(value);
                if (Shares.Count == StopAt + 1) Stop?.Cancel();
            }
        }
    }
}
