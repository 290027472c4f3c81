using System.Diagnostics;

namespace Catalogue.Model.Inspections;

/// <summary>Times the stages of an inspection and tells how far it is. Stages may run side by side, on any thread.</summary>
/// <remarks>
/// Each stage has a weight, about its share of the time of a large mesh; the percentage is the weight that is done, of all. It never goes back. It is told at every whole
/// per cent and with every stage that begins, one at a time; a check that has something to tell while another is being heard does not wait.
/// </remarks>
internal sealed class InspectionClock(InspectionStage? tell)
{
    /// <summary>What does not run counts as done at the end.</summary>
    private static readonly Dictionary<string, double> Weights = new()
    {
        ["read"] = 4,
        ["health"] = 5,
        ["tree"] = 5,
        ["repair"] = 4,
        ["selfIntersections"] = 6,
        ["measures"] = 1,
        ["fit"] = 4,
        ["fitProfile"] = 3,
        ["thickness"] = 27,
        ["gaps"] = 5,
        ["overhang"] = 5,
        ["holes"] = 8,
        ["limbs"] = 12,
        ["liquid"] = 7,
        ["detail"] = 10,
        ["orientations"] = 10,
    };

    private static readonly double All = Weights.Values.Sum();

    private readonly Dictionary<string, double> _milliseconds = [];
    private readonly Lock _lock = new();
    private readonly long _start = Stopwatch.GetTimestamp();
    private double _done;
    private int _told;

    /// <summary>The percentage at which all stages are done: less than 100 when something comes after them.</summary>
    public int End { get; set; } = 100;

    /// <summary>Does the work of a stage; it is handed where to tell the share done.</summary>
    public T Time<T>(string name, Func<IProgress<double>, T> work)
    {
        var stage = new Stage(this, name);
        stage.Begin();
        var start = Stopwatch.GetTimestamp();
        var result = work(stage);
        stage.Finish(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        return result;
    }

    /// <summary>Of each stage, and of all; stages that ran side by side add up to more than the whole.</summary>
    public Dictionary<string, double> Milliseconds()
    {
        lock (_lock) return new(_milliseconds) { ["total"] = Math.Round(Stopwatch.GetElapsedTime(_start).TotalMilliseconds, 2) };
    }

    private void Tell(string stage, bool anyway)
    {
        var percent = Math.Clamp((int)(End * _done / All), _told, End);
        if (percent == _told && !anyway) return;
        _told = percent;
        tell?.Invoke(percent, stage);
    }

    private sealed class Stage(InspectionClock clock, string name) : IProgress<double>
    {
        private readonly double _weight = Weights[name];
        private double _share;

        public void Begin()
        {
            lock (clock._lock) clock.Tell(name, anyway: true);
        }

        public void Report(double value)
        {
            if (!clock._lock.TryEnter()) return;
            try
            {
                Take(value);
                clock.Tell(name, anyway: false);
            }
            finally
            {
                clock._lock.Exit();
            }
        }

        public void Finish(double milliseconds)
        {
            lock (clock._lock)
            {
                clock._milliseconds[name] = Math.Round(milliseconds, 2);
                Take(1);
                clock.Tell(name, anyway: false);
            }
        }

        private void Take(double share)
        {
            if (!(share > _share)) return;
            clock._done += _weight * (Math.Min(share, 1) - _share);
            _share = Math.Min(share, 1);
        }
    }
}
