namespace Catalogue.Demo.Scenario;

/// <summary>The words the demo uses where the catalogue has codes. Who publishes the range translates them in one place.</summary>
public static class DemoCodes
{
    public const string MexRigid = "MEX-rigid";
    public const string MexFlexible = "MEX-flexible";
    public const string VppRigid = "VPP-rigid";
    public const string VppTough = "VPP-tough";
    public const string VppFlexible = "VPP-flexible";
    public const string PbfRigid = "PBF-rigid";

    public const string Required = "required";
    public const string Optional = "optional";
    public const string ChoiceMember = "choice";

    public const string PopInBall = "pop-in ball";
    public const string PlugInSleeve = "plug-in sleeve";
    public const string PinnedHinge = "pinned hinge";
    public const string PressFit = "press fit";
    public const string Glued = "glued";
    public const string Retracting = "retracting";

    public const string Worked = "worked";
    public const string WorkedWithCare = "worked-with-care";
    public const string Failed = "failed";

    public static IReadOnlyList<string> Processes { get; } = [MexRigid, MexFlexible, VppRigid, VppTough, VppFlexible, PbfRigid];
    public static IReadOnlyList<string> Roles { get; } = [Required, Optional, ChoiceMember];
    public static IReadOnlyList<string> JointKinds { get; } = [PopInBall, PlugInSleeve, PinnedHinge, PressFit, Glued, Retracting];

    public static IReadOnlyList<string> HardwareKinds { get; } =
        ["rod", "screw", "magnet", "spring", "elastic", "motor", "light", "wheel", "adhesive", "paint", "tool", "other"];

    public static IReadOnlyList<string> Outcomes { get; } = [Worked, WorkedWithCare, Failed];

    public static IReadOnlyList<string> Symptoms { get; } =
    [
        "came-loose", "warped", "detail-lost", "snapped", "cracked", "trapped-liquid", "too-tight", "too-loose", "hole-blocked",
        "does-not-fit-printer", "layers-parted", "support-scars", "fused", "other",
    ];

    public static IReadOnlyList<string> Stages { get; } = ["printing", "cleaning", "assembly", "use"];
}
