using System.Diagnostics;

namespace Catalogue.Model.Inspections;

/// <summary>Times the stages of an inspection and tells of them.</summary>
internal sealed class InspectionClock(InspectionStage? tell)
{
    private readonly Dictionary<string, double> _stages = [];
    private readonly long _start = Stopwatch.GetTimestamp();
    private long _stageStart;
    private string? _stage;

    public void Begin(string name, int percent)
    {
        End();
        (_stage, _stageStart) = (name, Stopwatch.GetTimestamp());
        tell?.Invoke(percent, name);
    }

    public void End()
    {
        if (_stage is not null) _stages[_stage] = Math.Round(Stopwatch.GetElapsedTime(_stageStart).TotalMilliseconds, 2);
        _stage = null;
    }

    public Dictionary<string, double> Milliseconds() =>
        new(_stages) { ["total"] = Math.Round(Stopwatch.GetElapsedTime(_start).TotalMilliseconds, 2) };
}
