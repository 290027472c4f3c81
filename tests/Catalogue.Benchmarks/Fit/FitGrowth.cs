using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Hulls;

namespace Catalogue.Benchmarks.Fit;

/// <summary>How hull, box, profile and fit grow with the mesh. One thread.</summary>
internal static class FitGrowth
{
    private static readonly BuildVolume Small = BuildVolume.Rectangular(64, 114, 152);

    public static IEnumerable<GrowthLine> Lines =>
    [
        new("fit: hull", mesh => () => ConvexHull.Of(mesh)),
        new("fit: smallest box of the hull", mesh => With(ConvexHull.Of(mesh), hull => SmallestBox.Of(hull))),
        new("fit: profile of the hull", mesh => With(ConvexHull.Of(mesh), hull => FitProfile.Of(hull))),
        new("fit: hull + smallest box + profile", mesh => () =>
        {
            var hull = ConvexHull.Of(mesh);
            SmallestBox.Of(hull);
            FitProfile.Of(hull);
        }),
        new("fit: 1000 volumes asked of a profile", mesh =>
        {
            var profile = FitProfile.Of(ConvexHull.Of(mesh));
            return () =>
            {
                for (var i = 0; i < 1000; i++) profile.Query(BuildVolume.Rectangular(50 + (0.1 * i), 114, 152));
            };
        }),
        new("fit: search on the hull", mesh => With(ConvexHull.Of(mesh), hull => FitSearch.Fit(hull, Small))),
    ];

    /// <summary>The hull's own tables are made before, not timed.</summary>
    private static Action With(ConvexHull hull, Action<ConvexHull> action) => () => action(hull);
}
