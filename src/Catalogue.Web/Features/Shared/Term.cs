using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>A word of the trade that not everybody who prints knows, in a few sentences. One list for the page of all words and for the help beside a finding.</summary>
/// <param name="Code">Its anchor on the page of words.</param>
/// <param name="Example">Where it shows on a figure, or a number that gives a feeling for it.</param>
public sealed record Term(string Code, Sentence Name, Sentence Means, Sentence Example)
{
    public static readonly Term Process = new("process", $"Process",
        $"How a piece is made, and of what: filament laid down in lines, resin cured layer by layer, powder melted together. Each has shapes it likes and shapes it cannot make.",
        $"A limb as thin as a match snaps in rigid resin, bends in flexible resin and wobbles while it is printed from filament: three processes, three answers for one shape.");

    public static readonly Term Verdict = new("verdict", $"Verdict",
        $"What the checks come to for one file on one process, or for a whole figure on your printer: suits, suits with care, unsuited, or unchecked. The worst needed part decides.",
        $"Eleven parts that print well and one that does not fit make a figure unsuited. The page names that one.");

    public static readonly Term Finding = new("finding", $"Finding",
        $"One thing that a check says of a file: what was measured, where on the part, the limit, and where the limit comes from.",
        $"“A wall is only 0.42 mm thick; walls need 0.5 mm here.”");

    public static readonly Term Stop = new("stop", $"Stop",
        $"A finding that stands in the way: printed like this the part fails, or does not fit. One is enough to make the part unsuited on that process.",
        $"A part 4 mm longer than the build volume in every orientation; a mesh with a hole in it.");

    public static readonly Term Care = new("care", $"Care",
        $"A finding that asks for attention: the part can be printed, and something about it goes wrong easily. The sentence says what to do.",
        $"A pin hole that comes out narrower than its rod: ream it by hand before you put the hinge together.");

    public static readonly Term Limit = new("limit", $"Limit",
        $"The number that a measurement is held against, for each process by itself. Each says where it comes from, and the host of this catalogue can change it.",
        $"Walls held on their sides, as the catalogue comes: 0.8 mm in filament, 0.5 mm in resin.");

    public static readonly Term BuildVolume = new("build-volume", $"Build volume",
        $"The room inside the printer that a piece has to go into: width, depth and height, or diameter and height of a round plate, less the margin that your printer keeps free.",
        $"A part is turned in every direction before it is said not to fit: a rod of 160 mm goes into 64 × 114 × 152 mm, on the diagonal.");

    public static readonly Term Spare = new("spare", $"Spare",
        $"How much smaller the part is than the build volume in the direction where it is tightest, laid down as suits it best.",
        $"“3.1 mm to spare” means that the volume could be 3.1 mm smaller each way.");

    public static readonly Term Mesh = new("mesh", $"Mesh",
        $"The surface of a part as a net of triangles: what the file holds. It has to be closed, with every triangle facing outward, or it is not clear what is inside.",
        $"Twenty thousand triangles are a part with some detail; a million are a sculpture.");

    public static readonly Term Wall = new("wall", $"Wall",
        $"Matter between two surfaces that are close together. Walls held on their sides may be thinner than fins and rods that stand free.",
        $"A coat’s hem, a hat’s brim, the rim around a pin hole.");

    public static readonly Term Limb = new("limb", $"Limb",
        $"A piece that is held at one end only and has little thickness for its length. The checks reckon whether a finger that pushes its tip, or a fall from a table, breaks it.",
        $"An arm, a rope, a lamp on a bracket.");

    public static readonly Term Gap = new("gap", $"Gap",
        $"Room between two surfaces that face each other. Narrower than the process can keep open, it fuses or fills.",
        $"The play around a ball that is printed inside its socket.");

    public static readonly Term Detail = new("detail", $"Relief",
        $"Raised and engraved lines. Lower than a layer or narrower than a line of your printer, they do not show.",
        $"Stitches 0.5 mm high show in resin and are lost in filament.");

    public static readonly Term Overhang = new("overhang", $"Overhang",
        $"Surface that leans outward so far that nothing below holds it while it is printed. It wants supports, which are cut away and leave marks.",
        $"The underside of an outstretched arm.");

    public static readonly Term Bridge = new("bridge", $"Bridge",
        $"A flat underside held at both ends. Filament can be drawn across a short one without supports.",
        $"The top of a window.");

    public static readonly Term Island = new("island", $"Island",
        $"A place where a layer starts with nothing below it. In resin it is washed away and the print fails; it always wants a support, or another orientation.",
        $"The tip of a hanging hand, before the arm above it is reached.");

    public static readonly Term Support = new("support", $"Support",
        $"Matter that is printed only to hold something up and is cut away afterwards.",
        $"They cost material and time; both are in the estimates.");

    public static readonly Term Orientation = new("orientation", $"Orientation",
        $"Which way up a part lies while it is printed. It decides over supports, marks, strength and whether it fits.",
        $"A flat shield stands on its edge in resin, so that each layer is small.");

    public static readonly Term Pool = new("pool", $"Pool",
        $"Resin that stays in a cup or hollow when the print is lifted out of the vat. It is not cured, runs out later, and cracks the part when it cures inside.",
        $"An upturned hat holds a spoonful.");

    public static readonly Term Suction = new("suction", $"Suction",
        $"A cup that is printed open side down holds the print to the film like a suction cup, and each layer pulls at it. A hole at its top lets air in.",
        $"A bell, a boot, a bowl.");

    public static readonly Term SealedVoid = new("sealed", $"Sealed void",
        $"A hollow without any way out. What is liquid or powder while it is printed stays in there for good.",
        $"A body hollowed to save resin, without a drain hole.");

    public static readonly Term Joint = new("joint", $"Joint",
        $"Where two parts meet. Balls pop in where the material gives; brittle material wants sleeves and glue, or a hinge on metal rod.",
        $"A ball of 8 mm behind a mouth of 7.75 mm stretches it by 3.2 %: filament takes that, rigid resin cracks.");

    public static readonly Term Hardware = new("hardware", $"Hardware",
        $"What a figure needs and no printer makes: rod, screws, magnets, glue. Lengths say what to cut.",
        $"“Metal rod 1.5 mm, 2 pieces of 14.5 mm.”");

    public static readonly Term SmallPart = new("small-part", $"Small part",
        $"A part that goes wholly into a cylinder the size of a small child’s throat. Children under three choke on such things.",
        $"A ball of 31 mm goes in, one of 32 mm does not.");

    public static readonly Term Revision = new("revision", $"Revision",
        $"One upload of a file. It is never changed; a better one gets the next number and says why it is there.",
        $"“Revision 3: pin hole widened, because five of nine broke there.”");

    public static readonly Term Edition = new("edition", $"Edition",
        $"All files of a figure that belong together. Readers see one edition or the next, never a mixture.",
        $"While you read edition 4, edition 5 may be published; what you have stays whole.");

    public static readonly Term Overruling = new("overruling", $"Overruled",
        $"The designer knows better than a check and says why. The finding stays to be seen and no longer counts. What stops cannot be overruled.",
        $"“The thin rim is glued to the base and carries nothing.”");

    /// <summary>All of them, in the order somebody new meets them.</summary>
    public static IReadOnlyList<Term> All { get; } =
    [
        Process, Verdict, Finding, Stop, Care, Limit, BuildVolume, Spare, Orientation, Mesh, Wall, Limb, Gap, Detail, Overhang, Bridge, Island, Support, Pool, Suction, SealedVoid, Joint,
        Hardware, SmallPart, Revision, Edition, Overruling,
    ];

    public static Term? Of(string code) => All.FirstOrDefault(t => t.Code == code);

    /// <summary>The words that some findings use and a newcomer may not know, each once.</summary>
    public static IReadOnlyList<Term> In(IEnumerable<Finding> findings)
    {
        ArgumentNullException.ThrowIfNull(findings);
        return [.. findings.SelectMany(f => OfFinding(f)).Distinct()];
    }

    private static IEnumerable<Term> OfFinding(Finding finding)
    {
        if (finding.Severity == Severity.Stop) yield return Stop;
        if (finding.Weight == Severity.Care) yield return Care;
        if (finding.Overruled is not null) yield return Overruling;
        var term = finding.Code switch
        {
            "fit.tight" or "fit.turn" => Spare,
            "fit.too-large" => BuildVolume,
            "wall.thin" or "wall.thin-free" or "wall.edge" => Wall,
            "limb.thin" or "limb.fragile" => Limb,
            "gap.narrow" or "gap.slot" or "gap.groove" => Gap,
            "detail.lost" or "detail.closed" => Detail,
            "overhang.area" => Overhang,
            "overhang.bridge" => Bridge,
            "overhang.island" => Island,
            "liquid.pool" => Pool,
            "liquid.suction" or "liquid.vent" => Suction,
            "liquid.sealed" or "liquid.drain" => SealedVoid,
            "small-part" => SmallPart,
            _ when finding.Code.StartsWith("joint.", StringComparison.Ordinal) => Joint,
            _ when finding.Code.StartsWith("mesh.", StringComparison.Ordinal) => Mesh,
            _ => null,
        };
        if (term is not null) yield return term;
    }
}
