using System.Globalization;
using Catalogue.Geometry.Fit;
using Catalogue.Model;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Shared;

/// <summary>
/// A printer as the query of an address: <c>process=VPP-rigid&amp;volume=64x114x152&amp;margin=2</c>, or <c>round=200x300</c>; how it works, where that is said, as
/// <c>layer=0.05&amp;cycle=8&amp;flow=5&amp;line=0.4</c>.
/// </summary>
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
        var printer = Printer.Parse(query["process"].ToString().Trim(), volume, round, Number(query, "margin", t => $"“{t}” is not a margin. Write a number of millimetres with a point for decimals, for example 2 or 1.5."));
        return printer with { Pace = Pace(query) };
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

        Add("layer", printer.Pace.LayerMm);
        Add("cycle", printer.Pace.CycleSeconds);
        Add("flow", printer.Pace.FlowMm3PerSecond);
        Add("line", printer.Pace.LineMm);
        return string.Join('&', parts);

        void Add(string name, double? value)
        {
            if (value is { } number) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{name}={number}"));
        }
    }

    /// <summary>
    /// The other printers that a query names, each as <c>also=VPP-flexible</c> in the volume of the first, or with one of its own: <c>also=MEX-rigid@220x220x250</c>
    /// (<c>@200x300</c> for a round plate).
    /// </summary>
    /// <exception cref="RuleBrokenException">What is there cannot be understood; the message shows how to write it.</exception>
    public static IReadOnlyList<Printer> ReadAlso(IQueryCollection query, Printer first)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentNullException.ThrowIfNull(first);
        var others = new List<Printer>();
        foreach (var word in query["also"].OfType<string>().SelectMany(w => w.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)))
        {
            var at = word.IndexOf('@', StringComparison.Ordinal);
            var room = at < 0 ? first.Volume : null;
            if (at >= 0)
            {
                if (!BuildVolume.TryParse(word[(at + 1)..], out var volume))
                    throw new RuleBrokenException("volume-invalid", $"“{word}” has no build volume behind the @. Write VPP-flexible, or MEX-rigid@220x220x250.");
                room = volume.WithMargin(first.Volume?.MarginMm ?? 0);
            }

            var other = Printer.Parse(at < 0 ? word : word[..at], null, null, null);
            others.Add(other with { Volume = room, Pace = at < 0 ? first.PaceOn(other.Process!) : PrinterPace.Usual });
            if (others.Count >= MixedBuild.MostPrinters)
                throw new RuleBrokenException("printers-invalid", $"At most {MixedBuild.MostPrinters} printers can be combined.");
        }

        return others;
    }

    /// <summary>The words that <see cref="ReadAlso"/> reads.</summary>
    public static string QueryAlso(IReadOnlyList<Printer> also, Printer first)
    {
        ArgumentNullException.ThrowIfNull(also);
        ArgumentNullException.ThrowIfNull(first);
        return string.Join('&', also.Select(p => "also=" + p.Process + (p.Volume == first.Volume || p.Volume is null ? "" : "@" + p.Volume)));
    }

    private static PrinterPace Pace(IQueryCollection query) => PrinterPace.Checked(
        Number(query, "layer", t => $"“{t}” is not a layer height. Write a number of millimetres with a point for decimals, for example 0.05."),
        Number(query, "cycle", t => $"“{t}” is not a time per layer. Write a number of seconds with a point for decimals, for example 8."),
        Number(query, "flow", t => $"“{t}” is not a flow. Write a number of mm³ a second with a point for decimals, for example 5."),
        Number(query, "line", t => $"“{t}” is not a width of a line. Write a number of millimetres with a point for decimals, for example 0.4."));

    private static double? Number(IQueryCollection query, string name, Func<string, Sentence> refusal)
    {
        var text = query[name].ToString().Trim();
        if (text.Length == 0) return null;
        return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
            ? number
            : throw new RuleBrokenException(name + "-invalid", refusal(text));
    }
}
