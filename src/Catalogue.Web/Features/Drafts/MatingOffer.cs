using System.Globalization;
using Catalogue.Model.Figures;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Features.Drafts;

/// <summary>A copy that can be put to another one at a joint of their parts.</summary>
/// <param name="Moving">Number of the copy in the form.</param>
/// <param name="Still">Number of the one that stays.</param>
internal sealed record MatingOffer(Joint Joint, int Moving, int Still, string MovingName, string StillName)
{
    /// <summary>Where a part is there many times, one like another: enough to try.</summary>
    private const int MostOthers = 4;

    private const int Most = 200;

    /// <summary>What the button sends, before the number of the way that is tried.</summary>
    public string Code => string.Create(CultureInfo.InvariantCulture, $"{Joint.Id:N}.{Moving}.{Still}.");

    /// <summary>Of joints that have something to go into something, between parts whose holes and pegs are known.</summary>
    public static IReadOnlyList<MatingOffer> Of(Figure figure, IReadOnlyList<CopyForm> copies, Func<CopyForm, string> nameOf)
    {
        var known = PoseForm.Parts(figure).Where(p => NewestShape.Of(p)?.Revision.Inspection.Holes is not null).ToDictionary(p => p.Id, p => p.Slug);
        return
        [
            .. (from joint in figure.Joints.OrderBy(j => j.Name)
                where joint.Kind is not (JointKind.Glued or JointKind.Retracting) && known.ContainsKey(joint.FirstPartId) && known.ContainsKey(joint.SecondPartId)
                from sides in new[] { (known[joint.FirstPartId], known[joint.SecondPartId]), (known[joint.SecondPartId], known[joint.FirstPartId]) }
                from moving in Numbers(copies, sides.Item1)
                from still in Numbers(copies, sides.Item2).Take(MostOthers)
                select new MatingOffer(joint, moving, still, nameOf(copies[moving]), nameOf(copies[still]))).Take(Most),
        ];
    }

    private static IEnumerable<int> Numbers(IReadOnlyList<CopyForm> copies, string part) => Enumerable.Range(0, copies.Count).Where(i => copies[i].Part == part);
}
