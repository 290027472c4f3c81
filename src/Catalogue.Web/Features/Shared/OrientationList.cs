using Catalogue.Model.Inspections;

namespace Catalogue.Web.Features.Shared;

/// <summary>Ways to lay a part down, for showing.</summary>
/// <param name="PictureOf">The address of a way's picture, by its place in <see cref="OrientationWords.Rows"/>; null where there is none.</param>
/// <param name="HeadingLevel">Of each way's name: one below the heading the list stands under.</param>
public sealed record OrientationList(OrientationsReport Report, Func<int, string?> PictureOf, int HeadingLevel);
