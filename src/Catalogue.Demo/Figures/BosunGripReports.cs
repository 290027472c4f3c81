using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>What people wrote about the crab.</summary>
internal static class BosunGripReports
{
    private static readonly DemoSettings Petg = new("PETG", 0.16, DeskFilament, "as in the file", "from the plate");
    private static readonly DemoSettings Pla = new("PLA", 0.2, SmallFilament, "as in the file", "from the plate");
    private static readonly DemoSettings Resin = new("rigid resin", 0.05, SmallResin, "tilted 35°", "medium");
    private static readonly DemoSettings Pa12 = new("PA12 powder", 0.1, Powder, "anyhow", "none");

    public static IReadOnlyList<DemoReport> All() =>
    [
        Report("carapace", "sockets", 1, MexRigid, Worked, null, null, 120, "two-left-boots", Petg, "Clicked in at the first try. Very satisfying."),
        Report("carapace", "sockets", 1, MexRigid, Worked, null, null, 111, "ferryman", Petg, "Tight, good drag, holds the barbell."),
        Report("carapace", "sockets", 1, MexRigid, WorkedWithCare, "detail-lost", "printing", 101, "old-slipway", Pla, "The stripes on the suit do not show at all. Painted them from imagination."),
        Report("carapace", "sockets", 1, MexRigid, WorkedWithCare, "detail-lost", "printing", 83, "Anselm", Pla, "Stripes invisible at 0.2 mm layers, just visible at 0.12."),
        Report("carapace", "sockets", 1, MexRigid, Failed, "cracked", "assembly", 64, "shingle_st", Pla, "Cold workshop, cold PLA: the left socket split from mouth to rim. Warm it first, as the step says."),
        Report("carapace", "sockets", 1, PbfRigid, Worked, null, null, 40, "quayside prints", Pa12, "Ball and socket are perfect in nylon."),
        Report("left-claw", "ball", 1, MexRigid, Worked, null, null, 120, "two-left-boots", Petg, "Good."),
        Report("left-claw", "ball", 1, MexRigid, WorkedWithCare, "too-loose", "use", 57, "Lene", Pla, "After a month the arm sinks. A scrap of tape on the ball."),
        Report("left-claw", "ball", 1, MexRigid, Failed, "snapped", "assembly", 64, "shingle_st", Pla, "Neck of the ball broke along a layer. Print it lying down!"),
        Report("carapace", "sleeves", 1, VppRigid, Worked, null, null, 92, "Marguerite D.", Resin, "Stripes crisp, sleeves slide in with a hiss."),
        Report("carapace", "sleeves", 1, VppRigid, Worked, null, null, 73, "pim", Resin, "Fits the small plate with room to spare."),
        Report("left-claw", "sleeve", 1, VppRigid, Worked, null, null, 92, "Marguerite D.", Resin, "Good."),
        Report("right-claw", "sleeve", 1, VppRigid, WorkedWithCare, "support-scars", "cleaning", 73, "pim", Resin, "Scars inside the nipper, hidden by paint."),
        Report("right-claw", "sleeve", 1, VppRigid, Failed, "snapped", "use", 29, "harbourlight", Resin, "Dropped. The nipper's upper finger is somewhere under the sideboard."),
        Report("eye-stalk", "standard", 1, MexRigid, WorkedWithCare, "layers-parted", "cleaning", 70, "old-slipway", Pla, "Stalks printed standing are weak, one came off with the brim. Print them lying."),
        Report("eye-stalk", "standard", 1, VppRigid, Worked, null, null, 51, "tidepool", Resin, "Both fine."),
    ];
}
