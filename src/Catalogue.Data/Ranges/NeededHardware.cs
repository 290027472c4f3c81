using System.Collections.Concurrent;
using Catalogue.Model.Figures;

namespace Catalogue.Data.Ranges;

/// <summary>The kinds of hardware that a figure cannot do without, per process, a bit each. Few figures differ, so equal ones are kept once.</summary>
internal sealed class NeededHardware
{
    public static readonly NeededHardware Nothing = new([]);

    private static readonly ConcurrentDictionary<string, NeededHardware> Known = new(StringComparer.Ordinal);

    /// <summary>On any process, then on each.</summary>
    private readonly int[] _kinds;

    private NeededHardware(int[] kinds) => _kinds = kinds;

    /// <param name="needs">What is not optional, with the processes it is for; none = all.</param>
    public static NeededHardware Of(IEnumerable<(HardwareKind Kind, string[] Processes)> needs, IReadOnlyList<string> processes)
    {
        var kinds = new int[processes.Count + 1];
        foreach (var (kind, on) in needs)
        {
            kinds[0] |= 1 << (int)kind;
            for (var p = 0; p < processes.Count; p++)
                if (on.Length == 0 || on.Contains(processes[p])) kinds[p + 1] |= 1 << (int)kind;
        }

        return Array.TrueForAll(kinds, k => k == 0) ? Nothing : Known.GetOrAdd(string.Join(' ', kinds), _ => new(kinds));
    }

    /// <summary>True when it takes hardware of a kind, or, for null, none at all.</summary>
    /// <param name="process">By its place in the snapshot; null = all that the figure names, whatever it is printed on.</param>
    public bool Has(HardwareKind? kind, int? process)
    {
        var kinds = _kinds.Length == 0 ? 0 : _kinds[process is { } place ? place + 1 : 0];
        return kind is { } one ? (kinds & (1 << (int)one)) != 0 : kinds == 0;
    }
}
