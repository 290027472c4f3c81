using Catalogue.Demo.Scenario;
using static Catalogue.Demo.Figures.Entries;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>What people wrote about the diver: fourteen aerials in rigid resin, nine of them broken; one leg that does not take its rod.</summary>
internal static class FathomJoeReports
{
    private static readonly DemoSettings Grey = new("rigid grey resin", 0.05, SmallResin, "standing, tilted 30°", "light, on the collar only");
    private static readonly DemoSettings Fine = new("rigid resin, water-washable", 0.03, MiddleResin, "lying along the plate", "medium, every 3 mm");
    private static readonly DemoSettings Tough = new("tough resin", 0.05, MiddleResin, "standing, tilted 20°", "light");
    private static readonly DemoSettings Pla = new("PLA", 0.12, DeskFilament, "as in the file", "organic, from the plate");

    public static IReadOnlyList<DemoReport> All() =>
    [
        .. new (string Outcome, string? Symptom, string? Stage, int Days, string Who, DemoSettings How, string Note)[]
        {
            (Failed, "snapped", "cleaning", 139, "harbourlight", Grey, "Came off with the supports. Collar fine, whip in the sink."),
            (Failed, "snapped", "use", 133, "two-left-boots", Grey, "Lasted until the cat. Clean break right above the collar."),
            (Worked, null, null, 128, "Marguerite D.", Fine, "Lying down at 0.03 it came out straight. I carry it in a drinking straw."),
            (Failed, "snapped", "assembly", 121, "ferryman", Grey, "Snapped while I pushed the foot in. The hole needs a twist of the drill first, my fault in part."),
            (Failed, "snapped", "use", 117, "shingle_st", Grey, "Fell 20 cm onto carpet. Everything survived except you know what."),
            (Worked, null, null, 110, "quayside prints", Grey, "Fine, but I removed supports under warm water with a scalpel."),
            (Failed, "snapped", "cleaning", 102, "pim", Fine, "Broke in the wash, just from swirling the basket."),
            (Failed, "snapped", "cleaning", 93, "Anselm", Grey, "Second one also gone at the third support from the top."),
            (Worked, null, null, 88, "old-slipway", Fine, "OK after annealing in hot water for a minute."),
            (Failed, "snapped", "use", 71, "the other Joe", Grey, "Two weeks on a shelf at a school. I should have known."),
            (WorkedWithCare, "warped", "cleaning", 66, "tidepool", Fine, "Bent like a fishing rod after curing. Straightened it in hot water."),
            (Failed, "snapped", "use", 48, "Lene", Grey, "Dusting. There is now a piece of guitar string in there, much better."),
            (Worked, null, null, 35, "harbourlight", Fine, "Third try, lying down, works. Printed four to get one."),
            (Failed, "snapped", "assembly", 12, "brine & co", Grey, "Tweezers. Please thicken it or give us a wire version for resin too."),
        }.Select(r => Report("aerial", "whip", 1, VppRigid, r.Outcome, r.Symptom, r.Stage, r.Days, r.Who, r.How, r.Note)),
        Report("aerial", "whip", 1, VppTough, Worked, null, null, 84, "quayside prints", Tough, "In tough resin it bends and comes back. Two of two."),
        Report("aerial", "whip", 1, VppTough, Worked, null, null, 52, "Lene", Tough, "Survived the dusting test."),
        Report("aerial", "whip", 1, VppTough, WorkedWithCare, "warped", "printing", 30, "ferryman", Tough, "Leans a little, nobody has noticed but me."),
        Report("aerial", "wire-foot", 1, MexRigid, Worked, null, null, 100, "two-left-boots", Pla, "Wire version is the way. Bead on top from a broken necklace."),
        Report("right-leg", "standard", 1, VppRigid, Failed, "cracked", "assembly", 126, "shingle_st", Grey, "The rod goes through the left leg and stops dead at the right one. Pushed. Tongue split."),
        Report("right-leg", "standard", 1, VppRigid, WorkedWithCare, "too-tight", "assembly", 95, "Marguerite D.", Fine, "Right hip hole is 1.3 and something. Opened it in three drill sizes, slowly."),
        Report("right-leg", "standard", 1, MexRigid, WorkedWithCare, "too-tight", "assembly", 77, "two-left-boots", Pla, "No way the rod enters as printed, drilled it. Left leg was fine."),
        Report("left-leg", "standard", 1, VppRigid, Worked, null, null, 95, "Marguerite D.", Fine, "Reamed once, perfect drag."),
        Report("left-leg", "standard", 1, MexRigid, Worked, null, null, 77, "two-left-boots", Pla, "Good."),
        Report("tea-mug", "standard", 1, VppRigid, WorkedWithCare, "came-loose", "printing", 60, "pim", Grey, "Printed it straight up as filed: loud sucking noise and the rim tore a little. Tilted it 45°, fine."),
        Report("speaking-trumpet", "standard", 1, VppRigid, Failed, "trapped-liquid", "use", 44, "tidepool", Grey, "Never cured inside the tube. Weeks later a sticky drop ran out and softened the paint. Flush it with a syringe!"),
        Report("helmet", "standard", 1, MexRigid, WorkedWithCare, "detail-lost", "printing", 40, "old-slipway", Pla, "Face is soft at 0.12 but he still has the moustache. 0.08 with a 0.25 nozzle if you can."),
        Report("suit", "standard", 1, PbfRigid, Worked, null, null, 21, "quayside prints", new("PA12 powder", 0.1, Powder, "anyhow", "none"), "Dyed it with tea, appropriately."),
    ];
}
