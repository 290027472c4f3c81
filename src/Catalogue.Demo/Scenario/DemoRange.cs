using Catalogue.Geometry.Meshes;

namespace Catalogue.Demo.Scenario;

/// <summary>Everything a catalogue needs to be filled with a believable range: figures, texts, shapes, reports.</summary>
/// <param name="Name">The range's name, for the page head.</param>
/// <param name="Story">Markdown: who the puppets are.</param>
/// <param name="PromisedProcesses">The processes every figure of the range should reach.</param>
/// <param name="PromisedVolume">The smallest build volume every figure should reach, width × depth × height in mm.</param>
/// <param name="Figures">In the order they are introduced.</param>
public sealed record DemoRange(
    string Name,
    string Story,
    IReadOnlyList<string> PromisedProcesses,
    Vec3 PromisedVolume,
    IReadOnlyList<DemoFigure> Figures);

/// <summary>One figure with all it takes to publish it. Codes are plain strings, listed in <see cref="DemoCodes"/>.</summary>
public sealed record DemoFigure
{
    /// <summary>Lower-case words joined by hyphens; unique in the range.</summary>
    public required string Slug { get; init; }
    public required string Title { get; init; }

    /// <summary>One sentence for lists and search.</summary>
    public required string Summary { get; init; }

    /// <summary>Words that several figures of the range share.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>Markdown.</summary>
    public required string Story { get; init; }

    /// <summary>Markdown.</summary>
    public required string Painting { get; init; }

    public double HeightMm { get; init; } = 120;

    /// <summary>N of 1:N: the troupe's wooden originals stand 720 mm tall.</summary>
    public double Scale { get; init; } = 6;

    /// <summary>SPDX licence expression.</summary>
    public required string Licence { get; init; }

    public required IReadOnlyList<DemoCredit> Credits { get; init; }

    /// <summary>How sure the design is of its reference.</summary>
    public required string ReferenceNote { get; init; }

    /// <summary>Sentences shown before anything is downloaded.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    public IReadOnlyList<DemoChoice> Choices { get; init; } = [];
    public required IReadOnlyList<DemoPart> Parts { get; init; }
    public required IReadOnlyList<DemoJoint> Joints { get; init; }
    public required IReadOnlyList<DemoHardware> Hardware { get; init; }
    public required IReadOnlyList<DemoStep> Steps { get; init; }
    public IReadOnlyList<DemoReport> Reports { get; init; } = [];
}

/// <summary>Who did what.</summary>
public sealed record DemoCredit(string Name, string Role);

/// <summary>A named set of parts of which exactly one is built; <paramref name="DefaultPart"/> is the part slug built when nobody chooses.</summary>
public sealed record DemoChoice(string Slug, string Name, string DefaultPart);

/// <summary>One printed piece.</summary>
public sealed record DemoPart
{
    /// <summary>Unique in its figure.</summary>
    public required string Slug { get; init; }
    public required string Name { get; init; }

    /// <summary>One or two plain sentences.</summary>
    public required string Description { get; init; }

    public int Quantity => Poses.Count;

    /// <summary><c>required</c>, <c>optional</c> or <c>choice</c> (then <see cref="Choice"/> names the set).</summary>
    public string Role { get; init; } = DemoCodes.Required;
    public string? Choice { get; init; }
    public required IReadOnlyList<DemoVariant> Variants { get; init; }

    /// <summary>Where each copy sits in the assembled figure; the same for every variant and revision.</summary>
    public required IReadOnlyList<DemoPose> Poses { get; init; }
}

/// <summary>Assembled place of a part: turn a point of the file by <paramref name="Rotation"/>, then move it by <paramref name="Position"/> (mm).
/// The figure stands on z = 0 and looks toward −y.</summary>
public sealed record DemoPose(Rotation Rotation, Vec3 Position)
{
    public Vec3 Apply(Vec3 filePoint) => Rotation.Apply(filePoint) + Position;
}

/// <summary>One shape of a part, made for one or more processes.</summary>
public sealed record DemoVariant
{
    /// <summary>Unique in its part.</summary>
    public required string Slug { get; init; }
    public required string Name { get; init; }
    public required IReadOnlyList<string> Processes { get; init; }

    /// <summary>Numbered from 1 without gaps.</summary>
    public required IReadOnlyList<DemoRevision> Revisions { get; init; }
}

/// <summary>One upload, in mm.</summary>
public sealed record DemoRevision
{
    public required int Number { get; init; }

    /// <summary>Why it was uploaded.</summary>
    public required string Note { get; init; }

    /// <summary>True for an upload that must stay a draft because its mesh is not closed.</summary>
    public bool Draft { get; init; }

    /// <summary>Days before the demo starts on which it was (or would have been) published.</summary>
    public required int DaysAgo { get; init; }

    /// <summary>Makes the mesh in the file's pose. Deterministic; takes up to a few tenths of a second; safe to call from any thread; nothing is kept.</summary>
    public required Func<CancellationToken, TriangleMesh> Mesh { get; init; }
}

/// <summary>A connection of two parts. Dimensions that do not belong to its kind are null.</summary>
public sealed record DemoJoint
{
    public required string Slug { get; init; }
    public required string Name { get; init; }

    /// <summary>One of the joint kinds in <see cref="DemoCodes"/>.</summary>
    public required string Kind { get; init; }

    /// <summary>The part that receives: socket, hole, seat.</summary>
    public required string PartA { get; init; }

    /// <summary>The part that enters: ball, sleeve, pin, peg.</summary>
    public required string PartB { get; init; }

    /// <summary>Processes whose variants have the joint this way; empty = all.</summary>
    public IReadOnlyList<string> Processes { get; init; } = [];
    public double? BallMm { get; init; }
    public double? MouthMm { get; init; }

    /// <summary>Outside diameter of the plugged-in sleeve or peg.</summary>
    public double? SleeveMm { get; init; }

    /// <summary>Gap on the diameter.</summary>
    public double? ClearanceMm { get; init; }

    /// <summary>Diameter of the metal pin.</summary>
    public double? PinMm { get; init; }

    /// <summary>Diameter of the modelled hole for the pin.</summary>
    public double? HoleMm { get; init; }

    /// <summary>Length of the pin, sleeve or peg that is held.</summary>
    public double? LengthMm { get; init; }

    /// <summary>Retracting parts: thickness that has to bend.</summary>
    public double? BendThicknessMm { get; init; }

    /// <summary>Retracting parts: radius of the seat it bends over, to the middle of the thickness.</summary>
    public double? BendRadiusMm { get; init; }

    /// <summary>What else is to be said of it; null = nothing.</summary>
    public string? Note { get; init; }

    /// <summary>Slugs of the figure's hardware this joint uses.</summary>
    public IReadOnlyList<string> Hardware { get; init; } = [];
}

/// <summary>Something that is not printed.</summary>
public sealed record DemoHardware
{
    public required string Slug { get; init; }

    /// <summary>One of the hardware kinds in <see cref="DemoCodes"/>.</summary>
    public required string Kind { get; init; }
    public required string Name { get; init; }
    public required int Quantity { get; init; }

    /// <summary>In words: "Ø 1.5 mm".</summary>
    public required string Size { get; init; }
    public double? DiameterMm { get; init; }

    /// <summary>Length to cut each piece to.</summary>
    public double? CutLengthMm { get; init; }
    public string? Substitutes { get; init; }
    public string? Caution { get; init; }

    /// <summary>Only needed with this optional part or choice member; null = always.</summary>
    public string? ForPart { get; init; }

    /// <summary>Only needed for these processes; empty = all.</summary>
    public IReadOnlyList<string> Processes { get; init; } = [];
}

/// <summary>One assembly step.</summary>
public sealed record DemoStep
{
    public required int Number { get; init; }
    public required string Title { get; init; }

    /// <summary>Markdown.</summary>
    public required string Text { get; init; }
    public IReadOnlyList<string> Parts { get; init; } = [];
    public IReadOnlyList<string> Hardware { get; init; } = [];

    /// <summary>Only for these processes; empty = all.</summary>
    public IReadOnlyList<string> Processes { get; init; } = [];

    /// <summary>Only when this optional part or choice member is built; null = always.</summary>
    public string? ForPart { get; init; }
}

/// <summary>What happened when somebody printed one revision of a part.</summary>
public sealed record DemoReport
{
    public required string Part { get; init; }
    public required string Variant { get; init; }
    public required int Revision { get; init; }
    public required string Process { get; init; }

    /// <summary><c>worked</c>, <c>worked-with-care</c> or <c>failed</c>.</summary>
    public required string Outcome { get; init; }

    /// <summary>One of the symptoms in <see cref="DemoCodes"/>; null when it worked.</summary>
    public string? Symptom { get; init; }

    /// <summary><c>printing</c>, <c>cleaning</c>, <c>assembly</c> or <c>use</c>; null when it worked.</summary>
    public string? Stage { get; init; }
    public required string Note { get; init; }
    public required DemoSettings Settings { get; init; }
    public required int DaysAgo { get; init; }

    /// <summary>The name the reporter gave.</summary>
    public required string Reporter { get; init; }
}

/// <summary>Printer settings as people write them down.</summary>
/// <param name="Material">"PLA", "rigid grey resin", …</param>
/// <param name="LayerMm">Layer height.</param>
/// <param name="VolumeMm">Build volume, width × depth × height.</param>
/// <param name="Orientation">How it lay on the plate.</param>
/// <param name="Supports">What held it.</param>
public sealed record DemoSettings(string Material, double LayerMm, Vec3 VolumeMm, string Orientation, string Supports);
