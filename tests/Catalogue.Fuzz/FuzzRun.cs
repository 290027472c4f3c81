using System.Globalization;

namespace Catalogue.Fuzz;

/// <summary>
/// Mutates inputs, keeps those that reach new code, and checks every one: no exception but the reader's own, under 2 s of
/// processor time per MiB (2 s for less), memory under 12 times the file and 64 MiB.
/// </summary>
internal sealed class FuzzRun(ISampleKind kind, InstrumentedReader reader, int seed, string failureFolder)
{
    private const int MostKept = 4000;
    private const int LongestKept = 64 << 10;

    private readonly Random _random = new(seed);
    private readonly List<byte[]> _kept = [];
    private readonly SortedDictionary<string, long> _outcomes = new(StringComparer.Ordinal);
    private long _inputs;
    private int _failures;
    private double _slowest;
    private double _largest;

    /// <summary>True when nothing was found. The time is this process's processor time: a run beside other work takes longer, not less.</summary>
    public bool Run(TimeSpan duration)
    {
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind.Name}: seed {seed}, {duration.TotalMinutes:0.#} minutes of processor time"));
        foreach (var sample in kind.Seeds()) Try(sample);
        var end = Environment.CpuUsage.TotalTime + duration;
        var nextReport = DateTime.UtcNow + TimeSpan.FromMinutes(1);
        while (Environment.CpuUsage.TotalTime < end)
        {
            var input = _inputs % 4000 == 3999 ? kind.Large(_random) : kind.Mutated(_random, _kept[_random.Next(_kept.Count)], _kept[_random.Next(_kept.Count)]);
            Try(input);
            if (DateTime.UtcNow < nextReport) continue;
            Report();
            nextReport += TimeSpan.FromMinutes(1);
        }

        Report();
        foreach (var (outcome, count) in _outcomes) Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {outcome}: {count}"));
        return _failures == 0;
    }

    private void Report() => Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{kind.Name}: {_inputs} inputs, {_kept.Count} kept, {reader.Covered} places reached, {_failures} failures, slowest {_slowest:0.00} of its time, largest {_largest:0.00} of its memory, {Environment.CpuUsage.TotalTime.TotalMinutes:0.0} processor minutes"));

    private void Try(byte[] input)
    {
        _inputs++;
        var megabytes = input.Length / (double)(1 << 20);
        var (memoryAllowed, secondsAllowed) = ((12.0 * input.Length) + (64 << 20), 2 * Math.Max(1, megabytes));
        var allocated = GC.GetAllocatedBytesForCurrentThread();
        var processor = Environment.CpuUsage.TotalTime;
        var error = reader.Read(new MemoryStream(input, writable: false), out var outcome);
        var seconds = (Environment.CpuUsage.TotalTime - processor).TotalSeconds;
        allocated = GC.GetAllocatedBytesForCurrentThread() - allocated;
        _outcomes[outcome] = _outcomes.GetValueOrDefault(outcome) + 1;
        if (error is not null) Fail(input, error.ToString());
        _slowest = Math.Max(_slowest, seconds / secondsAllowed);
        if (seconds > secondsAllowed) Fail(input, string.Create(CultureInfo.InvariantCulture, $"took {seconds:0.0} s of processor time"));

        // What was allocated over all bounds what was held at once; only when it is too much, or now and then, the peak is measured.
        if (allocated > memoryAllowed || input.Length > LongestKept || _inputs % 5000 == 0) CheckPeak(input, memoryAllowed);
        if (reader.FoundNew() && input.Length <= LongestKept)
        {
            if (_kept.Count < MostKept) _kept.Add(input);
            else _kept[_random.Next(MostKept)] = input;
        }
    }

    private void CheckPeak(byte[] input, double allowed)
    {
        GC.Collect(GC.MaxGeneration, GCCollectionMode.Aggressive, blocking: true, compacting: true);
        GC.WaitForPendingFinalizers();
        if (ResidentMemory.Restart() is not { } before) return;
        reader.Read(new MemoryStream(input, writable: false), out _);
        var grown = ResidentMemory.Peak() - before;
        _largest = Math.Max(_largest, grown / allowed);
        if (grown > allowed) Fail(input, string.Create(CultureInfo.InvariantCulture, $"held {grown / 1e6:0} MB at once"));
    }

    private void Fail(byte[] input, string what)
    {
        _failures++;
        Directory.CreateDirectory(failureFolder);
        var path = Path.Combine(failureFolder, string.Create(CultureInfo.InvariantCulture, $"{kind.Name}-{seed}-{_failures}"));
        if (_failures <= 100) File.WriteAllBytes(path, input);
        Console.WriteLine($"FAILURE {path} ({input.Length} bytes): {what}");
    }
}
