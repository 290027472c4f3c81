using Catalogue.Model.Figures;
using Catalogue.Model.Processes;

namespace Catalogue.Model.Scaling;

/// <summary>A joint when its parts are printed at another size.</summary>
public static class RescaledJoint
{
    /// <summary>
    /// What is printed grows with the scale: balls, sockets, sleeves, holes, plugs. The pin of a hinge is a rod out of a shop: it becomes the one that suits the hole
    /// (<see cref="RescaledRod.ForHole"/>). Strains of snap and bend are ratios and stay; plays do not.
    /// </summary>
    public static JointSpec Scaled(this JointSpec joint, Process process, PrintScale scale)
    {
        ArgumentNullException.ThrowIfNull(joint);
        var pin = joint is { Kind: JointKind.PinnedHinge, InnerDiameterMm: { } rod, OuterDiameterMm: { } hole } ? RescaledRod.ForHole(hole, rod, process, scale).RodMm : (double?)null;
        return joint with
        {
            InnerDiameterMm = pin ?? (joint.Kind == JointKind.PinnedHinge ? joint.InnerDiameterMm : joint.InnerDiameterMm * scale.Factor),
            OuterDiameterMm = joint.OuterDiameterMm * scale.Factor,
            MouthDiameterMm = joint.MouthDiameterMm * scale.Factor,
            LengthMm = joint.LengthMm * scale.Factor,
        };
    }
}
