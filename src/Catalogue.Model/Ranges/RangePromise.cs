using Catalogue.Model.Processes;

namespace Catalogue.Model.Ranges;

/// <summary>The range and what it promises: the processes and the smallest build volume every figure should reach. One row.</summary>
public sealed class RangePromise
{
    public const int OnlyId = 1;
    public const string UsualCurrency = "EUR";

    private RangePromise()
    {
    }

    public RangePromise(string title)
    {
        Id = OnlyId;
        Title = Text.Required(title, $"The range's title", 80);
        // A widely reachable small resin printer: common practice.
        (WidthMm, DepthMm, HeightMm) = (63.5, 114.3, 152.4);
        Processes = ["MEX-rigid", "VPP-rigid"];
    }

    public int Id { get; private set; }
    public string Title { get; private set; } = "";
    public string Introduction { get; private set; } = "";
    public double WidthMm { get; private set; }
    public double DepthMm { get; private set; }
    public double HeightMm { get; private set; }
    public string[] Processes { get; private set; } = [];

    /// <summary>What prices are in: a code of ISO 4217, such as EUR.</summary>
    public string Currency { get; private set; } = UsualCurrency;

    /// <summary>Counts every change that a reader of the range could see; caches are as fresh as the number they hold.</summary>
    public long Revision { get; private set; }

    /// <summary>Counts every time processes or their limits have become other ones.</summary>
    public long JudgementRevision { get; private set; }

    public void Describe(string title, string? introduction)
    {
        Title = Text.Required(title, $"The range's title", 80);
        Introduction = Text.Optional(introduction, $"The introduction", 2_000);
    }

    /// <summary>Names what prices are in. The numbers stay as they are: nothing is converted.</summary>
    public void PriceIn(string currency)
    {
        var code = (currency ?? "").Trim().ToUpperInvariant();
        if (code.Length != 3 || !code.All(char.IsAsciiLetterUpper))
            throw new RuleBrokenException("currency-invalid", $"“{currency}” is not a currency’s three letters (ISO 4217), such as EUR or USD. Nothing was changed.");
        Currency = code;
    }

    public void Promise(double widthMm, double depthMm, double heightMm, IReadOnlyCollection<string> processes)
    {
        ArgumentNullException.ThrowIfNull(processes);
        if (widthMm is not (> 0 and <= 5000) || depthMm is not (> 0 and <= 5000) || heightMm is not (> 0 and <= 5000))
            throw new RuleBrokenException("volume-invalid", $"A promised volume has three lengths above 0 and up to 5000 mm. Nothing was changed.");
        if (processes.FirstOrDefault(p => !ProcessCode.IsValid(p)) is { } bad)
            throw new RuleBrokenException("process-invalid", $"“{bad}” is not a process code like “VPP-rigid”. Nothing was changed.");
        (WidthMm, DepthMm, HeightMm) = (widthMm, depthMm, heightMm);
        Processes = [.. processes];
    }
}
