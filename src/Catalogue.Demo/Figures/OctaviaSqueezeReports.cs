using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>What people wrote about the octopus: the sealed head that leaked, the skirt that fits nowhere.</summary>
internal static class OctaviaSqueezeReports
{
    private static readonly DemoSettings Resin = new("rigid grey resin", 0.05, MiddleResin, "tilted 40°, face up", "medium, on the back");
    private static readonly DemoSettings Small = new("rigid resin, water-washable", 0.05, SmallResin, "tilted 30°", "medium");
    private static readonly DemoSettings Large = new("rigid grey resin", 0.05, LargeResin, "flat on the plate", "none");
    private static readonly DemoSettings Pla = new("PLA", 0.16, DeskFilament, "as in the file", "from the plate only");
    private static readonly DemoSettings Tpu = new("TPU 95A", 0.2, DeskFilament, "standing", "none");

    public static IReadOnlyList<DemoReport> All() =>
    [
        Report("mantle", "hollow", 1, VppRigid, Failed, "trapped-liquid", "use", 121, "Marguerite D.", Resin, "Three weeks after painting a drop appeared at the chin. Then another. The head is full of uncured resin and always will be."),
        Report("mantle", "hollow", 1, VppRigid, Failed, "cracked", "use", 113, "pim", Resin, "Cracked from inside along the cheek on a warm window sill. Smelled. Binned it with gloves on."),
        Report("mantle", "hollow", 1, VppRigid, WorkedWithCare, "trapped-liquid", "cleaning", 104, "quayside prints", Resin, "Drilled two holes where the neck is, about 5 ml came out. Please model them."),
        Report("mantle", "hollow", 1, VppTough, Failed, "trapped-liquid", "use", 90, "ferryman", Resin, "Heavier than it should be, and it sloshes."),
        Report("mantle", "hollow", 1, MexRigid, Worked, null, null, 99, "two-left-boots", Pla, "In filament the closed hollow is no problem at all."),
        Report("mantle", "hollow", 2, VppRigid, Worked, null, null, 55, "quayside prints", Resin, "Drains are in the right place. Dry as a biscuit."),
        Report("mantle", "hollow", 2, VppRigid, Worked, null, null, 41, "Marguerite D.", Resin, "Second head, no drop so far."),
        Report("mantle", "hollow", 2, VppRigid, Worked, null, null, 33, "tidepool", Small, "Washed with a syringe through one hole, came out of the other. Good."),
        Report("mantle", "hollow", 2, VppRigid, WorkedWithCare, "support-scars", "cleaning", 17, "Lene", Small, "Scars on the forehead: tilt it backwards, not forwards."),
        Report("skirt", "standard", 1, VppRigid, Failed, "does-not-fit-printer", "printing", 130, "harbourlight", Small, "Does not fit my printer. Turned it every way there is."),
        Report("skirt", "standard", 1, VppRigid, Failed, "does-not-fit-printer", "printing", 108, "shingle_st", Small, "Same here. A skirt in two halves, please."),
        Report("skirt", "standard", 1, VppRigid, Failed, "does-not-fit-printer", "printing", 69, "Anselm", Resin, "143 × 89 plate: no."),
        Report("skirt", "standard", 1, VppRigid, WorkedWithCare, "warped", "cleaning", 58, "brine & co", Large, "Fits the big one diagonally. Two tentacles lifted a millimetre after curing, hot water fixed it."),
        Report("skirt", "standard", 1, MexRigid, Worked, null, null, 97, "two-left-boots", Pla, "Seven hours, no supports except under the tips."),
        Report("skirt", "standard", 1, MexRigid, Worked, null, null, 50, "old-slipway", Pla, "Fine at 0.2, used leftover colours."),
        Report("bellows", "squeezable", 1, MexFlexible, Worked, null, null, 88, "Wenna T.", Tpu, "It squeezes! 2 walls, no infill, slow."),
        Report("bellows", "squeezable", 1, MexFlexible, WorkedWithCare, "layers-parted", "use", 46, "old-slipway", Tpu, "One fold opened after a hundred squeezes. A child was involved. 5 °C hotter next time."),
        Report("left-arm", "standard", 1, VppRigid, WorkedWithCare, "snapped", "assembly", 75, "Lene", Small, "Tip of the curl broke off while pushing the peg into the concertina. Glued, invisible."),
    ];
}
