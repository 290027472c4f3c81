using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Measures;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Geometry.Tests.Measures;

public sealed class MeshMeasuresTests
{
    // Any mechanics handbook: a box has I = m (b² + c²) / 12 about its centre.
    [Fact]
    public void A_box_measures_what_the_handbook_says()
    {
        var measures = MeshMeasures.Of(Solids.Box(2, 3, 4));
        Assert.Equal(24, measures.VolumeMm3, 1e-12);
        Assert.Equal(52, measures.AreaMm2, 1e-12);
        Assert.Equal(new Vec3(1, 1.5, 2), measures.Centroid);
        Assert.Equal(24 * (9 + 16) / 12.0, measures.Inertia.Xx, 1e-11);
        Assert.Equal(24 * (4 + 16) / 12.0, measures.Inertia.Yy, 1e-11);
        Assert.Equal(24 * (4 + 9) / 12.0, measures.Inertia.Zz, 1e-11);
        Assert.Equal(0, measures.Inertia.Xy, 1e-11);
        Assert.Equal(0, measures.Inertia.Yz, 1e-11);
        Assert.Equal(0, measures.Inertia.Zx, 1e-11);
    }

    // CRC Standard Mathematical Tables: volumes and areas of the regular solids of edge 1.
    [Theory]
    [InlineData("tetrahedron", 0.1178511, 1.7320508), InlineData("octahedron", 0.4714045, 3.4641016)]
    [InlineData("icosahedron", 2.1816950, 8.6602540), InlineData("dodecahedron", 7.6631190, 20.6457288)]
    public void The_regular_solids_have_the_volumes_and_areas_of_the_tables(string solid, double volume, double area)
    {
        var golden = (float)((1 + Math.Sqrt(5)) / 2);
        float[] signs = [-1, 1];
        var (points, edge) = solid switch
        {
            "tetrahedron" => ((float[])[1, 1, 1, 1, -1, -1, -1, 1, -1, -1, -1, 1], Math.Sqrt(8)),
            "octahedron" => ([1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 1, 0, 0, -1], Math.Sqrt(2)),
            "icosahedron" => ([.. from a in signs from b in signs from c in Turns(0, a, b * golden) select c], 2),
            _ => ((float[])[
                .. from a in signs from b in signs from c in signs from x in (float[])[a, b, c] select x,
                .. from a in signs from b in signs from c in Turns(0, a / golden, b * golden) select c], 2 / golden),
        };
        var measures = MeshMeasures.Of(ConvexHull.Of(points).ToMesh());
        Assert.Equal(volume, measures.VolumeMm3 / Math.Pow(edge, 3), 1e-6);
        Assert.Equal(area, measures.AreaMm2 / Math.Pow(edge, 2), 1e-6);

        static float[] Turns(float x, float y, float z) => [x, y, z, y, z, x, z, x, y];
    }

    // Any handbook: V = 2π²Rr² = 9869.6044, S = 4π²Rr = 3947.8418 for R = 20, r = 5. With n × k facets both circles are
    // polygons, whose area is smaller by sin(2π/n) / (2π/n); Pappus' rule gives the product of the two.
    [Theory, InlineData(30, 20), InlineData(300, 150)]
    public void A_faceted_torus_has_the_volume_of_its_polygons(int around, int tube)
    {
        var measures = MeshMeasures.Of(Solids.Torus(20, 5, around, tube));
        Assert.Equal(9869.6044 * Share(around) * Share(tube), measures.VolumeMm3, 1e-3);
        Assert.InRange(measures.AreaMm2, 3947.8418 * Share(around) * Share(tube), 3947.8418);
        static double Share(int n) => Math.Sin(2 * Math.PI / n) / (2 * Math.PI / n);
    }

    // Computed beforehand from its definition: icosphere of level 3 in the unit sphere, volume ratio 0.991394, area ratio 0.995235.
    [Fact]
    public void An_icosphere_falls_short_of_its_sphere_by_the_known_ratios()
    {
        var measures = MeshMeasures.Of(Solids.Icosphere(1, 3));
        Assert.Equal(0.991394, measures.VolumeMm3 / (4 * Math.PI / 3), 5e-7);
        Assert.Equal(0.995235, measures.AreaMm2 / (4 * Math.PI), 5e-7);
    }

    [Fact]
    public void Inside_out_is_negative() => Assert.Equal(-24, MeshMeasures.Of(Solids.Inverted(Solids.Box(2, 3, 4))).VolumeMm3, 1e-12);

    [Fact]
    public void A_void_takes_its_volume_away()
    {
        var inner = Solids.Box(2, 2, 2).Transformed(Rotation.Identity, new Vec3(1, 1, 1));
        Assert.Equal(64 - 8, MeshMeasures.Of(Solids.Together(Solids.Box(4, 4, 4), Solids.Inverted(inner))).VolumeMm3, 1e-12);
    }

    // The shifted corners are exact in single precision, so nothing may be lost but the rounding of the sums.
    [Fact]
    public void A_part_a_kilometre_away_measures_the_same()
    {
        var far = Solids.Box(2, 3, 4).Transformed(Rotation.Identity, new Vec3(1 << 20, -(1 << 20), 1 << 19));
        var measures = MeshMeasures.Of(far);
        Assert.Equal(24, measures.VolumeMm3, 1e-9);
        Assert.Equal(new Vec3((1 << 20) + 1, 1.5 - (1 << 20), (1 << 19) + 2), measures.Centroid);
        Assert.Equal(50, measures.Inertia.Xx, 1e-9);
    }

    [Fact]
    public void A_flat_sheet_has_its_centroid_on_its_surface()
    {
        var measures = MeshMeasures.Of(new TriangleMesh([0, 0, 0, 3, 0, 0, 0, 3, 0], [0, 1, 2]));
        Assert.Equal(0, measures.VolumeMm3);
        Assert.Equal(4.5, measures.AreaMm2);
        Assert.Equal(new Vec3(1, 1, 0), measures.Centroid);
    }

    [Fact]
    public void A_part_without_area_measures_nothing()
    {
        var measures = MeshMeasures.Of(new TriangleMesh([1, 1, 1, 2, 2, 2, 3, 3, 3], [0, 1, 2]));
        Assert.Equal(0, measures.VolumeMm3);
        Assert.Equal(0, measures.AreaMm2, 1e-12);
        Assert.Equal(0, MeshMeasures.Of(new TriangleMesh([], [])).AreaMm2);
    }
}
