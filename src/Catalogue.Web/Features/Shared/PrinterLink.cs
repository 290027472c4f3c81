using System.Globalization;
using Catalogue.Geometry.Fit;
using Catalogue.Model;
using Catalogue.Model.Printers;

namespace Catalogue.Web.Features.Shared;

/// <summary>A printer as the query of an address: <c>process=VPP-rigid&amp;volume=64x114x152&amp;margin=2</c>, or <c>round=200x300</c>.</summary>
public static class PrinterLink
{
    /// <summary>The printer that a query names; null when it does not speak of one. A name without a value says “any”.</summary>
    /// <exception cref="RuleBrokenException">What is there cannot be understood; the message shows how to write it.</exception>
    public static Printer? Read(IQueryCollection query)
    {
        ArgumentNullException.ThrowIfNull(query);
        if (!query.ContainsKey("process") && !query.ContainsKey("volume") && !query.ContainsKey("round")) return null;
        var (volume, round) = (query["volume"].ToString().Trim(), query["round"].ToString().Trim());

        // Two numbers typed where three are asked for are a round plate all the same.
        if (round.Length == 0 && BuildVolume.TryParse(volume, out var plate) && plate.IsRound) (volume, round) = ("", volume);
        return Printer.Parse(query["process"].ToString().Trim(), volume, round, Margin(query["margin"].ToString().Trim()));
    }

    /// <summary>The query that <see cref="Read"/> reads, without a question mark; empty for a printer that is not known.</summary>
    public static string Query(this Printer printer)
    {
        ArgumentNullException.ThrowIfNull(printer);
        var parts = new List<string>(3);
        if (printer.Process is { } process) parts.Add("process=" + process);
        if (printer.Volume is { } volume)
        {
            parts.Add((volume.IsRound ? "round=" : "volume=") + volume);
            if (volume.MarginMm > 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"margin={volume.MarginMm}"));
        }

        return string.Join('&', parts);
    }

    private static double? Margin(string text)
    {
        if (text.Length == 0) return null;
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm)
            ? mm
            : throw new RuleBrokenException("margin-invalid", $"“{text}” is not a margin. Write a number of millimetres with a point for decimals, for example 2 or 1.5.");
    }
}
