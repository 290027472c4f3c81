using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Thickness;

/// <summary>A connected area where walls are thinner than a limit, both faces of a wall together; or limbs narrower, or gaps.</summary>
public sealed record ThinRegion
{
    /// <summary>The least thickness, width or gap in it, mm, leaving out what is thinner on less than a hundredth of its area (or 0.1 mm²): a flaw of the mesh.</summary>
    public required double MinMm { get; init; }

    /// <summary>Half of its area is thinner than this, mm.</summary>
    public required double TypicalMm { get; init; }

    /// <summary>Area of the surface in it, mm²; both faces of a wall count.</summary>
    public required double AreaMm2 { get; init; }

    /// <summary>The place of the least thickness: a point of the surface, in the mesh's coordinates.</summary>
    public required Vec3 At { get; init; }

    /// <summary>
    /// How far it reaches from where it is held, mm: twice the mean distance of its area from the outline at which thicker matter goes on (for gaps: at
    /// which open air goes on). The height of a fin, the length of a rod, half the span of a pane between two holds, half the length of a
    /// hole. To about a tenth. When nothing holds it, the side of a square of half its area.
    /// </summary>
    public required double ReachMm { get; init; }

    /// <summary>Runs out to nothing, like the edge of a blade or the bottom of a crease: a tenth of it is thinner than 0.4 (of gaps, 0.6) of <see cref="TypicalMm"/>.</summary>
    public bool Tapers { get; init; }

    /// <summary>
    /// Of matter: held by thicker matter on one side only or on none (a fin, a blade, a rod); false when held on different sides (a pane, a web) or
    /// bent round by more than about 80° and so stiff by itself (a tube, a dome). Of no meaning for gaps.
    /// </summary>
    public bool FreeStanding { get; init; }

    /// <summary>Of gaps: the walls belong to separate pieces of the mesh, such as could move against each other.</summary>
    public bool BetweenPieces { get; init; }
}

/// <summary>What is thinner than one step of a ladder of limits.</summary>
/// <param name="BelowMm">The step, mm.</param>
/// <param name="Count">Regions there are; specks smaller than the step squared do not count.</param>
/// <param name="AreaMm2">Their area together.</param>
/// <param name="Regions">The largest of them, those that reach farther than one and a half steps first; of walls some free-standing and some held ones.</param>
public sealed record ThinStep(double BelowMm, int Count, double AreaMm2, IReadOnlyList<ThinRegion> Regions);
