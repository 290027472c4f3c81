using Catalogue.Demo.Contouring;
using Catalogue.Demo.Scenario;
using Catalogue.Demo.Shapes;
using Catalogue.Geometry.Meshes;
using static Catalogue.Demo.Scenario.DemoCodes;

namespace Catalogue.Demo.Figures;

/// <summary>Short ways to write down the figures' entries.</summary>
internal static class Entries
{
    public static readonly string[] EveryRigid = [MexRigid, VppRigid, VppTough, PbfRigid];
    public static readonly string[] Filament = [MexRigid, PbfRigid];
    public static readonly string[] Resin = [VppRigid, VppTough];

    /// <summary>Printers the reporters own, width × depth × height in mm.</summary>
    public static readonly Vec3 SmallResin = new(63.5, 114.3, 152.4);
    public static readonly Vec3 MiddleResin = new(143, 89, 175);
    public static readonly Vec3 LargeResin = new(218, 123, 220);
    public static readonly Vec3 DeskFilament = new(220, 220, 250);
    public static readonly Vec3 SmallFilament = new(180, 180, 180);
    public static readonly Vec3 Powder = new(160, 160, 300);

    /// <summary>A part with one variant and one revision.</summary>
    public static DemoPart Part(
        string slug, string name, string description, FilePose pose, string[] processes, Func<Shape> shape, string note, int daysAgo = 120, ContourSettings? settings = null) =>
        Part(slug, name, description, [pose.Assembled], new DemoVariant
        {
            Slug = "standard",
            Name = "Standard",
            Processes = processes,
            Revisions = [Revision(1, note, daysAgo, pose, shape, settings)],
        });

    public static DemoPart Part(string slug, string name, string description, IReadOnlyList<DemoPose> poses, params DemoVariant[] variants) => new()
    {
        Slug = slug,
        Name = name,
        Description = description,
        Poses = poses,
        Variants = variants,
    };

    /// <summary>A pose turned about the z axis through <paramref name="center"/>: for copies around a figure.</summary>
    public static DemoPose Around(FilePose pose, double degrees, Vec3 center)
    {
        var turn = Rotation.About(Vec3.UnitZ, double.DegreesToRadians(degrees));
        var first = pose.Assembled;
        return new(turn.After(first.Rotation), turn.Apply(first.Position - center) + center);
    }

    /// <summary>The same pose moved aside.</summary>
    public static DemoPose Beside(FilePose pose, double x, double y = 0) =>
        pose.Assembled with { Position = pose.Assembled.Position + new Vec3(x, y, 0) };

    public static DemoVariant Variant(string slug, string name, string[] processes, params DemoRevision[] revisions) => new()
    {
        Slug = slug,
        Name = name,
        Processes = processes,
        Revisions = revisions,
    };

    public static DemoRevision Revision(int number, string note, int daysAgo, FilePose pose, Func<Shape> shape, ContourSettings? settings = null) => new()
    {
        Number = number,
        Note = note,
        DaysAgo = daysAgo,
        Mesh = pose.Mesh(shape, settings),
    };

    /// <summary>An upload that went wrong: every triangle within <paramref name="radius"/> mm of a point of the file is missing.</summary>
    public static DemoRevision TornDraft(int number, string note, int daysAgo, FilePose pose, Func<Shape> shape, Vec3 figurePoint, double radius, ContourSettings? settings = null)
    {
        var whole = pose.Mesh(shape, settings);
        var hole = pose.ToFile.Apply(figurePoint - pose.Anchor);
        return new()
        {
            Number = number,
            Note = note,
            DaysAgo = daysAgo,
            Draft = true,
            Mesh = cancel =>
            {
                var mesh = whole(cancel);
                var kept = new List<int>(mesh.Indices.Length);
                for (var t = 0; t < mesh.TriangleCount; t++)
                {
                    var (a, b, c) = mesh.Triangle(t);
                    if (Vec3.Distance((a + b + c) / 3, hole) > radius) kept.AddRange(mesh.Indices.Slice(3 * t, 3));
                }

                return new(mesh.Positions.ToArray(), [.. kept]);
            },
        };
    }

    /// <summary>The winding key, the same file for every puppet.</summary>
    public static DemoPart WindingKey(Vec3 place, Vec3 outward, double turn, string description)
    {
        // Clockwise about its own axis by 'turn' degrees, then out of the back.
        var stand = Rotation.BringingToZ(outward).Inverse().After(Rotation.About(Vec3.UnitZ, double.DegreesToRadians(turn)));
        return Part("winding-key", "Winding key", description, [new DemoPose(stand, place)], Variant(
            "standard", "Standard", EveryRigid, Revision(1, "The troupe's common key: one size, one hole, every puppet.", 200, FilePose.Upright(Vec3.Zero), Kit.KeyShape)));
    }

    public static DemoJoint Pinned(string slug, string name, string partA, string partB, double hole, double length, params string[] hardware) => new()
    {
        Slug = slug,
        Name = name,
        Kind = PinnedHinge,
        PartA = partA,
        PartB = partB,
        PinMm = Kit.RodMm,
        HoleMm = hole,
        ClearanceMm = Math.Round(hole - Kit.RodMm, 3),
        LengthMm = length,
        Hardware = hardware,
    };

    public static DemoJoint Ball(string slug, string name, string partA, string partB, params string[] processes) => new()
    {
        Slug = slug,
        Name = name,
        Kind = PopInBall,
        PartA = partA,
        PartB = partB,
        Processes = processes,
        BallMm = Kit.BallMm,
        MouthMm = Kit.MouthMm,
        ClearanceMm = Math.Round(Kit.SocketMm - Kit.BallMm, 3),
    };

    public static DemoJoint Sleeve(string slug, string name, string partA, string partB, string[] processes, params string[] hardware) => new()
    {
        Slug = slug,
        Name = name,
        Kind = PlugInSleeve,
        PartA = partA,
        PartB = partB,
        Processes = processes,
        SleeveMm = Kit.SleeveMm,
        ClearanceMm = Math.Round(Kit.SleeveHoleMm - Kit.SleeveMm, 3),
        LengthMm = Kit.SleeveLengthMm,
        Hardware = hardware,
    };

    public static DemoJoint Pressed(string slug, string name, string partA, string partB, double peg, double hole, double length) => new()
    {
        Slug = slug,
        Name = name,
        Kind = PressFit,
        PartA = partA,
        PartB = partB,
        SleeveMm = peg,
        ClearanceMm = Math.Round(hole - peg, 3),
        LengthMm = length,
    };

    public static DemoJoint Stuck(string slug, string name, string partA, string partB, double peg, double hole, double length, params string[] hardware) =>
        Pressed(slug, name, partA, partB, peg, hole, length) with { Kind = Glued, Hardware = hardware };

    public static DemoHardware Rod(string slug, string name, int quantity, double cutLength) => new()
    {
        Slug = slug,
        Kind = "rod",
        Name = name,
        Quantity = quantity,
        Size = "Ø 1.5 mm, brass or steel",
        DiameterMm = Kit.RodMm,
        CutLengthMm = cutLength,
        Substitutes = "A straight piece of hard wire or a fine nail of 1.4–1.5 mm, if the holes are reamed to suit.",
        Caution = "Wear eye protection when cutting: the end flies. Deburr both ends.",
    };

    public static DemoHardware Glue(string slug = "glue") => new()
    {
        Slug = slug,
        Kind = "adhesive",
        Name = "Two-part epoxy or gel superglue",
        Quantity = 1,
        Size = "a few drops",
        Substitutes = "On resin parts a drop of the same resin, cured in place with a UV torch.",
        Caution = "Ventilate, keep off skin and eyes.",
    };

    public static DemoHardware Reamer(string slug = "hand-drill") => new()
    {
        Slug = slug,
        Kind = "tool",
        Name = "Pin vice with a 1.6 mm drill",
        Quantity = 1,
        Size = "Ø 1.6 mm",
        DiameterMm = 1.6,
        Substitutes = "A tapered hand reamer.",
        Caution = "Turn it by hand. Cured rigid resin chips: go slowly, in steps, with eye protection.",
    };

    /// <summary>A report; <paramref name="symptom"/> and <paramref name="stage"/> are null when it worked.</summary>
    public static DemoReport Report(
        string part, string variant, int revision, string process, string outcome, string? symptom, string? stage,
        int daysAgo, string reporter, DemoSettings settings, string note) => new()
        {
            Part = part,
            Variant = variant,
            Revision = revision,
            Process = process,
            Outcome = outcome,
            Symptom = symptom,
            Stage = stage,
            DaysAgo = daysAgo,
            Reporter = reporter,
            Settings = settings,
            Note = note,
        };
}
