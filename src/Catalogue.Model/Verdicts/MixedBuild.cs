using Catalogue.Model.Figures;
using Catalogue.Model.Printers;

namespace Catalogue.Model.Verdicts;

/// <summary>A printer with what it can make of a figure.</summary>
/// <param name="Printer">With a process; two printers may have the same one.</param>
/// <param name="Verdict">Of the whole figure on it alone.</param>
/// <param name="CostOfPart">What the material of all pieces of a part costs there, in any one unit; for comparing printers.</param>
public sealed record PrinterCase(Printer Printer, FigureVerdict Verdict, IReadOnlyDictionary<Guid, double> CostOfPart);

/// <summary>A connection of two parts: a joint and, per process it is used on, its judgement there.</summary>
public sealed record MixedJoint(Guid FirstPartId, Guid SecondPartId, IReadOnlyDictionary<string, Verdict> OnProcess)
{
    /// <summary>The part whose material has to give, so that only its process counts; null = both count.</summary>
    public Guid? StrainedPartId { get; init; }
}

/// <summary>A part with the printer it goes to.</summary>
/// <param name="Part">As judged on that printer.</param>
/// <param name="Printer">Position in the list of printers.</param>
public sealed record MixedPart(PartVerdict Part, int Printer);

/// <summary>
/// A figure built from parts of several printers: the fewest printers on which it can be built at all, of these the best verdict, then the least material cost.
/// </summary>
/// <remarks>
/// Two parts that are joined may come from different processes only where one of their joints is used on both (a ball for filament does not go into a
/// sleeve for resin). Optional parts go where they suit best, and decide nothing. Exact for up to <see cref="MostSteps"/> steps of search per
/// set of printers, which is far beyond what figures of forty parts need; beyond that the best found so far. Pure, deterministic.
/// </remarks>
public sealed record MixedBuild(Verdict Verdict, IReadOnlyList<MixedPart> Parts, double Cost)
{
    public const int MostPrinters = 6;

    private const int MostSteps = 200_000;

    /// <summary>The printers that are used, in the order given.</summary>
    public IReadOnlyList<int> Printers => [.. Parts.Where(p => p.Part.Part.Role != PartRole.Optional).Select(p => p.Printer).Distinct().Order()];

    /// <summary>The best build; null when the figure cannot be built with these printers, alone or together, or not all parts are checked yet.</summary>
    /// <param name="printers">At most <see cref="MostPrinters"/>, each with a process, each judged for the same parts.</param>
    /// <param name="joints">Between any two parts of the figure.</param>
    public static MixedBuild? Of(IReadOnlyList<PrinterCase> printers, IReadOnlyList<MixedJoint> joints)
    {
        ArgumentNullException.ThrowIfNull(printers);
        ArgumentNullException.ThrowIfNull(joints);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(printers.Count, MostPrinters);
        for (var count = 1; count <= printers.Count; count++)
        {
            MixedBuild? best = null;
            foreach (var subset in Enumerable.Range(1, (1 << printers.Count) - 1).Where(s => int.PopCount(s) == count))
            {
                foreach (var worst in new[] { Verdict.Suits, Verdict.Care })
                {
                    if (best is not null && best.Verdict < worst) break;
                    if (new Search(printers, joints, subset, worst).Best() is not { } found) continue;
                    if (best is null || found.Verdict < best.Verdict || (found.Verdict == best.Verdict && found.Cost < best.Cost)) best = found;
                    break;
                }
            }

            if (best is not null) return best;
        }

        return null;
    }

    /// <summary>One set of printers, no part and no joint worse than a verdict: the least cost by depth-first search.</summary>
    private sealed class Search
    {
        private readonly IReadOnlyList<PrinterCase> _printers;
        private readonly Verdict _worst;
        private readonly Dictionary<(Guid, Guid), List<MixedJoint>> _joints = [];
        private readonly List<int> _allowed = [];

        /// <summary>What has to be built: a required part, or a choice with its members.</summary>
        private readonly List<List<PartVerdict>> _slots;

        private readonly List<(PartVerdict Part, int Printer, double Cost)> _taken = [];
        private readonly double[] _leastOfRest;
        private readonly List<List<(PartVerdict Part, int Printer, double Cost)>> _options = [];
        private List<(PartVerdict Part, int Printer, double Cost)>? _best;
        private double _bestCost = double.PositiveInfinity;
        private int _steps;

        public Search(IReadOnlyList<PrinterCase> printers, IReadOnlyList<MixedJoint> joints, int subset, Verdict worst)
        {
            (_printers, _worst) = (printers, worst);
            for (var i = 0; i < printers.Count; i++)
                if ((subset >> i & 1) != 0) _allowed.Add(i);
            foreach (var joint in joints)
            {
                foreach (var key in new[] { (joint.FirstPartId, joint.SecondPartId), (joint.SecondPartId, joint.FirstPartId) })
                {
                    if (!_joints.TryGetValue(key, out var list)) _joints[key] = list = [];
                    list.Add(joint);
                }
            }

            var parts = printers[0].Verdict.Parts;
            _slots =
            [
                .. parts.Where(p => p.Part.Role == PartRole.Required).Select(p => new List<PartVerdict> { p }),
                .. parts.Where(p => p.Part.ChoiceId is not null).GroupBy(p => p.Part.ChoiceId!.Value).Select(g => g.OrderByDescending(p => p.Part.IsDefaultMember).ToList()),
            ];
            foreach (var slot in _slots)
            {
                _options.Add([
                    .. from member in slot
                       from printer in _allowed
                       let part = On(printer, member.Part.PartId)
                       where part is { Chosen: not null } && part.Verdict <= worst
                       let cost = printers[printer].CostOfPart.GetValueOrDefault(part.Part.PartId)
                       orderby cost
                       select (part, printer, cost),
                ]);
            }

            _leastOfRest = new double[_slots.Count + 1];
            for (var i = _slots.Count - 1; i >= 0; i--)
                _leastOfRest[i] = _leastOfRest[i + 1] + (_options[i].Count > 0 ? _options[i].Min(o => o.Cost) : 0);
        }

        public MixedBuild? Best()
        {
            if (_slots.Count == 0 || _options.Exists(o => o.Count == 0)) return null;
            Go(0, 0);
            if (_best is null) return null;
            List<MixedPart> parts = [.. _best.Select(t => new MixedPart(t.Part, t.Printer))];
            foreach (var optional in _printers[0].Verdict.Parts.Where(p => p.Part.Role == PartRole.Optional))
            {
                var best = _allowed.Select(i => new MixedPart(On(i, optional.Part.PartId)!, i)).Where(p => p.Part.Chosen is not null).MinBy(p => p.Part.Verdict);
                if (best is not null) parts.Add(best);
            }

            return new(_worst, parts, _bestCost);
        }

        private PartVerdict? On(int printer, Guid part) => _printers[printer].Verdict.Parts.FirstOrDefault(p => p.Part.PartId == part);

        private void Go(int slot, double cost)
        {
            if (cost + _leastOfRest[slot] >= _bestCost || ++_steps > MostSteps) return;
            if (slot == _slots.Count)
            {
                (_best, _bestCost) = ([.. _taken], cost);
                return;
            }

            foreach (var option in _options[slot])
            {
                if (!_taken.TrueForAll(t => Joins(t, option))) continue;
                _taken.Add(option);
                Go(slot + 1, cost + option.Cost);
                _taken.RemoveAt(_taken.Count - 1);
            }
        }

        private bool Joins((PartVerdict Part, int Printer, double Cost) one, (PartVerdict Part, int Printer, double Cost) other)
        {
            if (!_joints.TryGetValue((one.Part.Part.PartId, other.Part.Part.PartId), out var joints)) return true;
            var (first, second) = (_printers[one.Printer].Printer.Process!, _printers[other.Printer].Printer.Process!);
            var shared = joints.Where(j => j.OnProcess.ContainsKey(first) && j.OnProcess.ContainsKey(second)).ToList();

            // On one process a pair of parts without a joint there is the designer's business, as it is on a single printer.
            return shared.Count == 0
                ? first == second
                : shared.TrueForAll(j => Holds(j, one.Part.Part.PartId, first) && Holds(j, other.Part.Part.PartId, second));
        }

        private bool Holds(MixedJoint joint, Guid part, string process) =>
            (joint.StrainedPartId is { } strained && strained != part) || joint.OnProcess[process] <= _worst;
    }
}
