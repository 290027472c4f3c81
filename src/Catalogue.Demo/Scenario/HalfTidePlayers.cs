using Catalogue.Demo.Figures;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Scenario;

/// <summary>The demo range: a travelling seaside troupe of clockwork puppets.</summary>
public static class HalfTidePlayers
{
    /// <summary>The whole range. Texts are ready at once; each mesh is made when its <see cref="DemoRevision.Mesh"/> is called.</summary>
    public static DemoRange Range() => new(
        "The Half-Tide Players",
        """
        **The Half-Tide Players** perform on wet sand. Their stage is pegged out when the ebb uncovers it, the puppets are wound, the lamps are lit, and
        the show has to be over when the flood comes back: a little under six hours, one matinée, one evening, no encores. They have travelled the
        coast this way, with two carts and a barrel organ, for longer than the harbour registers agree on.

        The originals are carved from driftwood, 72 cm tall, and driven by the works of ships' clocks. These are faithful sixth-scale figures of
        them, drawn from the sketchbooks of the troupe's mechanic, made to be printed, pinned together, wound (a little) and posed. Every figure has a key
        in its back. It is the same key.
        """,
        [MexRigid, VppRigid],
        new(63.5, 114.3, 152.4),
        [
            DorotheaBeacon.Figure(),
            OctaviaSqueeze.Figure(),
            FathomJoe.Figure(),
            BosunGrip.Figure(),
            NellGale.Figure(),
            MisterPeriwinkle.Figure(),
            LadyPlume.Figure(),
            BigDrumOlaf.Figure(),
        ]);
}
