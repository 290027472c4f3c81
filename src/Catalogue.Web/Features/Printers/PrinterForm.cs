using System.Globalization;
using Catalogue.Geometry.Fit;
using Catalogue.Model.Printers;
using Catalogue.Model.Verdicts;

namespace Catalogue.Web.Features.Printers;

/// <summary>The fields of “my printer” as the visitor typed them, and what is wrong with them.</summary>
/// <remarks>Numbers take a point or a comma. Empty lengths mean that no build volume is named.</remarks>
internal sealed class PrinterForm
{
    private const double LargestMm = 2000;
    private readonly Dictionary<string, Sentence> _errors = [];

    public string Process { get; private init; } = "";
    public bool IsRound { get; private init; }
    public string Width { get; private init; } = "";
    public string Depth { get; private init; } = "";
    public string Height { get; private init; } = "";
    public string Diameter { get; private init; } = "";
    public string RoundHeight { get; private init; } = "";
    public string Margin { get; private init; } = "2";
    public bool Inches { get; private init; }

    /// <summary>How the printer works, for estimates of time; empty = as the process usually does.</summary>
    public string Layer { get; private init; } = "";

    public string Cycle { get; private init; } = "";
    public string Flow { get; private init; } = "";

    /// <summary>What it draws, in mm, for fine relief; empty = as the process usually does.</summary>
    public string Line { get; private init; } = "";

    /// <summary>Processes that the visitor can print with as well.</summary>
    public IReadOnlyList<string> Also { get; private init; } = [];

    /// <summary>By process: the size of that other printer, such as 220x220x250; none = that of the first.</summary>
    public IReadOnlyDictionary<string, string> AlsoSizes { get; private init; } = new Dictionary<string, string>();

    /// <summary>Sentences by field name, empty when the form can be kept.</summary>
    public IReadOnlyDictionary<string, Sentence> Errors => _errors;

    /// <summary>The printer that the fields name; null when they name none or one of them is wrong.</summary>
    public Printer? Printer { get; private set; }

    /// <summary>The other printers, in the same room as the first; none without a first process.</summary>
    public IReadOnlyList<Catalogue.Model.Printers.Printer> AlsoPrinters { get; private set; } = [];

    /// <summary>The form as it stands for a printer that is known already.</summary>
    public static PrinterForm Of(Printer printer, IReadOnlyList<Printer> also, bool inches)
    {
        var volume = printer.Volume;
        var box = volume is { IsRound: false } ? volume : null;
        var round = volume is { IsRound: true } ? volume : null;
        return new()
        {
            Process = printer.Process ?? "",
            IsRound = round is not null,
            Width = Text(box?.Width),
            Depth = Text(box?.Depth),
            Height = Text(box?.Height),
            Diameter = Text(round?.Width),
            RoundHeight = Text(round?.Height),
            Margin = volume is null ? "2" : Text(volume.Value.MarginMm),
            Inches = inches,
            Layer = Text(printer.Pace.LayerMm),
            Cycle = Text(printer.Pace.CycleSeconds),
            Flow = Text(printer.Pace.FlowMm3PerSecond),
            Line = Text(printer.Pace.LineMm),
            Also = [.. also.Select(p => p.Process!)],
            AlsoSizes = also.Where(p => p.Volume is not null && p.Volume != volume).DistinctBy(p => p.Process).ToDictionary(p => p.Process!, p => p.Volume!.Value.ToString()),
        };
    }

    /// <summary>The form as it was sent.</summary>
    public static PrinterForm Sent(IQueryCollection query, IReadOnlyCollection<string> processes)
    {
        var form = new PrinterForm
        {
            Process = query["process"].ToString(),
            IsRound = query["plate"] == "round",
            Width = Field(query, "width"),
            Depth = Field(query, "depth"),
            Height = Field(query, "height"),
            Diameter = Field(query, "diameter"),
            RoundHeight = Field(query, "round-height"),
            Margin = Field(query, "margin"),
            Inches = query["unit"] == "inch",
            Layer = Field(query, "layer"),
            Cycle = Field(query, "cycle"),
            Flow = Field(query, "flow"),
            Line = Field(query, "line"),
            Also = [.. query["also"].OfType<string>().Where(processes.Contains).Distinct().Take(MixedBuild.MostPrinters - 1)],
            AlsoSizes = processes.Select(p => (Process: p, Size: Field(query, "size-" + p))).Where(s => s.Size.Length > 0).ToDictionary(s => s.Process, s => s.Size),
        };
        form.Check(processes);
        return form;
    }

    public Sentence? ErrorOf(string field) => _errors.GetValueOrDefault(field);

    private void Check(IReadOnlyCollection<string> processes)
    {
        if (Process.Length > 0 && !processes.Contains(Process))
            _errors["process"] = $"This catalogue knows no such process. Choose one of the list.";
        var volume = IsRound ? RoundVolume() : BoxVolume();
        var margin = Margin.Length == 0 ? 0 : Number("margin", $"The margin", Margin, 0, Catalogue.Model.Printers.Printer.LargestMarginMm);
        var pace = new PrinterPace(
            Optional("layer", $"The layer height", Layer, PrinterPace.LeastLayerMm, PrinterPace.MostLayerMm, "mm"),
            Optional("cycle", $"The time per layer", Cycle, PrinterPace.LeastCycleSeconds, PrinterPace.MostCycleSeconds, T($"seconds")),
            Optional("flow", $"The flow", Flow, PrinterPace.LeastFlow, PrinterPace.MostFlow, T($"mm³ a second")))
        {
            LineMm = Optional("line", $"The width of a line", Line, PrinterPace.LeastLineMm, PrinterPace.MostLineMm, "mm"),
        };
        foreach (var (process, size) in AlsoSizes.Where(s => Also.Contains(s.Key) && !BuildVolume.TryParse(s.Value, out _)))
            _errors["size-" + process] = $"“{size}” is not a size. Write it like 220x220x250, or 180x280 for a round plate; empty = the size below.";
        if (_errors.Count > 0) return;
        if (volume is { } given && margin is { } mm)
        {
            if (2 * mm >= Math.Min(given.Width, Math.Min(given.Depth, given.Height)))
            {
                _errors["margin"] = $"A margin this wide on every side leaves no room. Make it smaller.";
                return;
            }

            volume = given.WithMargin(mm);
        }

        if (Process.Length > 0 || volume is not null)
        {
            Printer = new Printer(Process.Length > 0 ? Process : null, volume) { Pace = pace };
            AlsoPrinters = Process.Length == 0 ? [] : [.. Also.Where(p => p != Process || AlsoSizes.ContainsKey(p)).Select(p => Other(p, Printer))];
        }
        else _errors["process"] = $"Choose a process, or give a size, or both; without either there is no printer to judge for.";
    }

    /// <summary>In the room of the first printer, which it shares then, or another machine in a size of its own.</summary>
    private Printer Other(string process, Printer first) => AlsoSizes.TryGetValue(process, out var size) && BuildVolume.TryParse(size, out var own)
        ? new(process, own.WithMargin(first.Volume?.MarginMm ?? 0))
        : first.On(process);

    private BuildVolume? BoxVolume()
    {
        if (Width.Length + Depth.Length + Height.Length == 0) return null;
        var (w, d, h) = (Number("width", $"The width", Width), Number("depth", $"The depth", Depth), Number("height", $"The height", Height));
        return w is null || d is null || h is null ? null : BuildVolume.Rectangular(w.Value, d.Value, h.Value);
    }

    private BuildVolume? RoundVolume()
    {
        if (Diameter.Length + RoundHeight.Length == 0) return null;
        var (d, h) = (Number("diameter", $"The diameter", Diameter), Number("round-height", $"The height", RoundHeight));
        return d is null || h is null ? null : BuildVolume.Round(d.Value, h.Value);
    }

    private double? Optional(string field, Sentence name, string text, double least, double most, string unit) =>
        text.Length == 0 ? null : Number(field, name, text, least, most, unit);

    private double? Number(string field, Sentence name, string text, double least = 1, double most = LargestMm, string unit = "mm")
    {
        var ok = double.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var mm) && mm >= least && mm <= most;
        if (ok) return mm;
        _errors[field] = text.Length == 0 ? S($"{name} is missing.")
            : least < 1 ? S($"{name} is not a number from {least:0.###} to {most:0} {unit}: “{text}”. Write it like 0.5 or 7.")
            : $"{name} is not a number from {least:0.###} to {most:0} {unit}: “{text}”. Write it like 114 or 114.3.";
        return null;
    }

    private static string Field(IQueryCollection query, string name)
    {
        var text = query[name].ToString().Trim();
        return text.Length <= 20 ? text : text[..20];
    }

    private static string Text(double? mm) => mm?.ToString(CultureInfo.InvariantCulture) ?? "";
}
