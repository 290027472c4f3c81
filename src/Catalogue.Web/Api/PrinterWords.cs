using System.ComponentModel;
using Catalogue.Web.Features.Shared;

namespace Catalogue.Web.Api;

/// <summary>The printer in the query, for the description of the API; <see cref="PrinterLink"/> reads it.</summary>
internal sealed record PrinterWords(
    [property: Description("A process code such as VPP-rigid.")] string? Process,
    [property: Description("A build volume, width x depth x height in mm: 64x114x152.")] string? Volume,
    [property: Description("A round build volume, diameter x height in mm: 200x300.")] string? Round,
    [property: Description("Kept free on every side, in mm.")] double? Margin,
    [property: Description("Layer height in mm, for estimates of time; the process's usual one without.")] double? Layer,
    [property: Description("Width of a line or pixel in mm, for fine relief.")] double? Line,
    [property: Description("Seconds per layer, for resin and powder.")] double? Cycle,
    [property: Description("Flow in mm³ a second, for filament.")] double? Flow);
