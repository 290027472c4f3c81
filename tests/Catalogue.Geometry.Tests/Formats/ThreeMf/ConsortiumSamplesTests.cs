using System.Text.Json;
using Catalogue.Geometry.Formats;
using Catalogue.Geometry.Measures;
using Xunit;

namespace Catalogue.Geometry.Tests.Formats.ThreeMf;

/// <summary>Sample files of the 3MF Consortium (github.com/3MFConsortium/3mf-samples, BSD-2-Clause) with expected counts, volumes and areas.</summary>
public sealed class ConsortiumSamplesTests
{
    public static TheoryData<string> Valid =>
    [
        "MUSTPASS/MUSTPASS_Chapter2.1_PartsRelationships.3mf",
        "MUSTPASS/MUSTPASS_Chapter2.3a_IgnorableMarkup.3mf",
        "MUSTPASS/MUSTPASS_Chapter3.2c_MultipleItemsTransform.3mf",
        "MUSTPASS/MUSTPASS_Chapter3.4.3a_MustNotOutputNonReferencedObjects.3mf",
        "MUSTPASS/MUSTPASS_Chapter4.2_Components.3mf",
        "MUSTPASS/MUSTPASS_Chapter5.1b_MaterialResources_MultiObjects_CompositeAndMultiProperties.3mf",
        "assimp_box.3mf",
        "examples/core/box.3mf",
        "examples/core/cylinder.3mf",
        "examples/core/heartgears.3mf",
        "examples/core/sphere.3mf",
        "examples/material/pyramid_vertexcolor.3mf",
        "examples/production/box_prod.3mf",
    ];

    [Theory, MemberData(nameof(Valid))]
    public void A_valid_sample_is_read_with_the_expected_measures(string path)
    {
        using var expectations = JsonDocument.Parse(File.ReadAllText(SharedData.PathOf("mesh/3mf/EXPECTED.json")));
        var expected = expectations.RootElement.GetProperty(path);
        var file = Reading.Sample("mesh/3mf/" + path);
        var measures = file.Items.Select(i => MeshMeasures.Of(i.Mesh)).ToList();
        Assert.Equal(expected.GetProperty("build_items").GetInt32(), file.Items.Count);
        Assert.Equal(expected.GetProperty("build_triangles").GetInt32(), file.Items.Sum(i => i.Mesh.TriangleCount));
        Close(expected.GetProperty("build_volume_mm3_signed").GetDouble(), measures.Sum(m => m.VolumeMm3));
        Close(expected.GetProperty("build_area_mm2").GetDouble(), measures.Sum(m => m.AreaMm2));
        var box = expected.GetProperty("build_bbox");
        for (var axis = 0; axis < 3; axis++)
        {
            Assert.Equal(box[0][axis].GetDouble(), file.Items.Min(i => Of(i.Mesh.Bounds.Min, axis)), 1e-4);
            Assert.Equal(box[1][axis].GetDouble(), file.Items.Max(i => Of(i.Mesh.Bounds.Max, axis)), 1e-4);
        }

        static void Close(double expected, double actual) => Assert.Equal(expected, actual, 1e-4 + (1e-6 * expected));
        static double Of(Catalogue.Geometry.Meshes.Vec3 p, int axis) => axis == 0 ? p.X : axis == 1 ? p.Y : p.Z;
    }

    // The number in each name is the section of the core specification that the file breaks.
    [Theory]
    [InlineData("MUSTFAIL_Chapter2.1.1a_PartsRelationships_NonExist3DModelPart.3mf", "no-model")]
    [InlineData("MUSTFAIL_Chapter2.1.2_PartsRelationships_MoreThanOne3DModelPart.3mf", "several-model-parts")]
    [InlineData("MUSTFAIL_Chapter2.1.4_PartsRelationships_MoreThanOnePrintTicket.3mf", "several-print-tickets")]
    [InlineData("MUSTFAIL_Chapter2.3.2b_DataTypeDefinitionInXMLMarkup.3mf", "dtd")]
    [InlineData("MUSTFAIL_Chapter2.3.4_WhiteSpace.3mf", "xml-space")]
    [InlineData("MUSTFAIL_Chapter3.4.3.1a_NotMatchingObjectIdInBuildItem.3mf", "unknown-object")]
    [InlineData("MUSTFAIL_Chapter3.4a_MoreThanOneModel.3mf", "several-models")]
    [InlineData("MUSTFAIL_Chapter3.4c_MissingResourceElement.3mf", "missing-resources")]
    [InlineData("MUSTFAIL_Chapter4b_PID_IsNotSpecified.3mf", "missing-pid")]
    [InlineData("MUSTFAIL_3MF100_Extension_Chapter2_DuplicatedColorGroupId.3mf", "duplicate-id")]
    public void A_sample_that_breaks_a_rule_of_the_core_is_refused_for_that_rule(string name, string code)
    {
        var error = Assert.Throws<MeshFormatException>(() => Reading.Sample("mesh/3mf/MUSTFAIL/" + name));
        Assert.Equal(code, error.Code);
    }

    // Rules of the materials extension, which is not read: the shape is there whatever its colours say.
    [Theory]
    [InlineData("MUSTFAIL_3MF100_Extension_Chapter2_MissingColorValue.3mf")]
    [InlineData("MUSTFAIL_3MF100_Extension_Chapter3_MissingTexId.3mf")]
    public void A_sample_that_breaks_a_rule_about_colours_is_read_without_them(string name) =>
        Assert.Equal(2, Reading.Sample("mesh/3mf/MUSTFAIL/" + name).Items.Count);
}
