using Catalogue.Model.Comparison;

namespace Catalogue.Web.Features.Shared;

/// <summary>What changed in a revision, opened or folded. <c>Where</c> tells it from others on the page; volume and area are those of the revision, <c>Picture</c> is where the change is drawn.</summary>
internal sealed record ChangeLine(string Where, RevisionChange Change, double VolumeMm3, double AreaMm2, bool Open, string Picture);
