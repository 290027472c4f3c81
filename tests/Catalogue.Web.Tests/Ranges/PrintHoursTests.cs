using Catalogue.Data.Ranges;
using Catalogue.Model.Figures;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Tests.Ranges;

/// <summary>The time of a figure as its files lie, each by hand with the built-in rates.</summary>
public sealed class PrintHoursTests
{
    private static readonly Guid Lamp = Guid.NewGuid();

    // Resin, (height + 5 mm) ÷ 0.05 mm layers, 6 of them 35 s and the others 8 s: 10 mm 2 562 s, 20 mm 4 162 s, 100 mm 16 962 s.
    // Filament, (skin of 1.2 mm + 20 % of the rest) ÷ 4.5 mm³/s × 1.3 + a second each 0.2 mm: cubes of 10 and 20 mm 274.18 s and 1 227.82 s.
    [Fact]
    public void Required_parts_and_the_quickest_member_of_a_choice_count_and_accessories_do_not()
    {
        var figure = Figure(Bar("body", 10, quantity: 2), Bar("lit", 100, Lamp), Bar("plain", 20, Lamp), Bar("gull", 100, role: PartRole.Optional));
        Assert.Equal(4_162 / 3600.0, Hours(figure, "VPP-rigid"), 0.001);
        Assert.Equal(((2 * 274.18) + 1_227.82) / 3600, Hours(figure, "MEX-rigid"), 0.001);
    }

    [Fact]
    public void A_member_without_a_file_for_the_process_is_passed_over_and_a_part_without_one_leaves_the_time_unknown()
    {
        Assert.Equal(16_962 / 3600.0, Hours(Figure(Bar("body", 10), Bar("lit", 100, Lamp), Bar("plain", 20, Lamp, made: "MEX-rigid")), "VPP-rigid"), 0.001);
        Assert.Equal(double.NaN, Hours(Figure(Bar("body", 10), Bar("plain", 20, Lamp, made: "MEX-rigid")), "VPP-rigid"));
        Assert.Equal(double.NaN, Hours(Figure(Bar("body", 10), Bar("arm", 10, made: "MEX-rigid")), "VPP-rigid"));
        Assert.Equal(double.NaN, Hours(Figure(Bar("gull", 10, role: PartRole.Optional)), "VPP-rigid"));
    }

    private static double Hours(IndexedFigure figure, string process) => Assert.Single(PrintHours.Of(
        new(1, 1, [figure], new Dictionary<string, IndexedFigure>(), BuiltInProcesses.Create()), new Printer(process, null))!);

    private static IndexedFigure Figure(params IndexedPart[] parts) => new()
    {
        Id = Guid.NewGuid(),
        Slug = "figure",
        Title = "Figure",
        Summary = "",
        HeightMm = 120,
        ScaleDenominator = null,
        Licence = "CC0-1.0",
        EditionNumber = 1,
        PublishedAt = DateTime.UnixEpoch,
        Freshness = (1, 1),
        Parts = parts,
        Joints = [],
    };

    /// <summary>10 × 10 mm, standing; for 20 mm a cube.</summary>
    private static IndexedPart Bar(string slug, double height, Guid? choice = null, int quantity = 1, PartRole role = PartRole.Required, string? made = null)
    {
        var wide = height == 20 ? 20 : 10;
        return new(Guid.NewGuid(), slug, slug, quantity, choice is null ? role : PartRole.ChoiceMember, 1, choice, choice is null ? null : "Lamp", IsDefaultMember: slug == "lit",
        [
            new()
            {
                Id = Guid.NewGuid(),
                Slug = "standard",
                Name = "Standard",
                RevisionId = Guid.NewGuid(),
                Number = 1,
                InspectionId = Guid.NewGuid(),
                Sha256 = "",
                Size = new(wide, wide, height),
                VolumeMm3 = wide * wide * height,
                AreaMm2 = (2 * wide * wide) + (4 * wide * height),
                IsMeasured = true,
                MadeFor = made is null ? ["VPP-rigid", "MEX-rigid"] : [made],
                Place = 0,
            },
        ]);
    }
}
