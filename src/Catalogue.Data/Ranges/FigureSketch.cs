using Catalogue.Geometry.Fit;
using Catalogue.Model.Figures;
using Catalogue.Model.Verdicts;

namespace Catalogue.Data.Ranges;

/// <summary>The best and the worst that a verdict can come to; the same when the index alone can tell.</summary>
internal readonly record struct VerdictSpan(Verdict Best, Verdict Worst)
{
    public bool IsSettled => Best == Worst;
}

/// <summary>
/// What a figure's verdicts rest on, packed: a byte per variant and process, an outline per variant. Comes to the same verdict as <see cref="FigureJudge"/>,
/// without its reasons, in a fraction of a microsecond per process.
/// </summary>
/// <remarks>Some 4 kB for a figure of ten parts. Immutable.</remarks>
internal sealed class FigureSketch
{
    private const byte NotMade = byte.MaxValue;

    private readonly PartLine[] _parts;
    private readonly Guid[] _inspections;
    private readonly byte[] _states;
    private readonly byte[] _outlines;
    private readonly byte[] _verdicts;
    private readonly (int First, int Second)[] _joints;
    private readonly byte[] _jointVerdicts;
    private readonly byte[] _atAnySize;
    private readonly int _processes;
    private readonly int _choices;

    private FigureSketch(FigureSketch other, byte[] jointVerdicts)
    {
        (_parts, _inspections, _states, _outlines, _verdicts) = (other._parts, other._inspections, other._states, other._outlines, other._verdicts);
        (_joints, _processes, _choices, _jointVerdicts) = (other._joints, other._processes, other._choices, jointVerdicts);
        _atAnySize = AtAnySizes();
    }

    /// <param name="parts">The parts as the figure has them.</param>
    /// <param name="outlines">Per variant, over all parts; null for a mesh that is measured without one.</param>
    /// <param name="verdictOf">The kept verdict of a revision on a process; null while there is none.</param>
    public FigureSketch(
        IReadOnlyList<IndexedPart> parts, IReadOnlyList<IndexedJoint> joints, IReadOnlyList<byte[]?> outlines, IReadOnlyList<string> processes,
        Func<Guid, string, Verdict?> verdictOf)
    {
        var variants = parts.SelectMany(p => p.Variants).ToList();
        _processes = processes.Count;
        _parts = new PartLine[parts.Count];
        _inspections = [.. variants.Select(v => v.InspectionId)];
        _states = new byte[variants.Count];
        _outlines = new byte[variants.Count * FitOutline.Size];
        _verdicts = new byte[variants.Count * _processes];
        var (at, choices) = (0, new List<Guid>());
        for (var i = 0; i < parts.Count; i++)
        {
            var part = parts[i];
            if (part.ChoiceId is { } choice && !choices.Contains(choice)) choices.Add(choice);
            _parts[i] = new(at, part.Variants.Count, part.Role == PartRole.Required, part.ChoiceId is { } own ? choices.IndexOf(own) : -1, part.IsDefaultMember);
            at += part.Variants.Count;
        }

        _choices = choices.Count;
        for (var v = 0; v < variants.Count; v++)
        {
            _states[v] = (byte)(!variants[v].IsMeasured ? State.NotMeasured : outlines[v] is null ? State.WithoutOutline : State.Outlined);
            outlines[v]?.CopyTo(_outlines.AsSpan(v * FitOutline.Size));
            for (var p = 0; p < _processes; p++)
            {
                _verdicts[(v * _processes) + p] = variants[v].MadeFor.Contains(processes[p])
                    ? (byte)(verdictOf(variants[v].RevisionId, processes[p]) ?? Verdict.Unchecked)
                    : NotMade;
            }
        }

        var places = parts.Select((p, i) => (p.Id, Index: i)).ToDictionary(p => p.Id, p => p.Index);
        var joined = joints.Where(j => places.ContainsKey(j.FirstPartId) && places.ContainsKey(j.SecondPartId)).ToList();
        _joints = [.. joined.Select(j => (places[j.FirstPartId], places[j.SecondPartId]))];
        _jointVerdicts = Verdicts(joined, processes);
        _atAnySize = AtAnySizes();
    }

    /// <summary>The same with joints judged anew; the same joints in the same order.</summary>
    public FigureSketch With(IReadOnlyList<IndexedPart> parts, IReadOnlyList<IndexedJoint> joints, IReadOnlyList<string> processes)
    {
        var places = parts.Select(p => p.Id).ToHashSet();
        return new(this, Verdicts([.. joints.Where(j => places.Contains(j.FirstPartId) && places.Contains(j.SecondPartId))], processes));
    }

    private static byte[] Verdicts(List<IndexedJoint> joints, IReadOnlyList<string> processes) =>
        [.. joints.SelectMany(j => processes.Select(p => j.On(p) is { } verdict ? (byte)verdict : NotMade))];

    private enum State : byte
    {
        NotMeasured,
        WithoutOutline,
        Outlined,
    }

    public int Variants => _states.Length;

    public Guid InspectionOf(int variant) => _inspections[variant];

    /// <summary>The kept verdict of a variant on a process; null where it is not made for it.</summary>
    public Verdict? VerdictOf(int variant, int process) => _verdicts[(variant * _processes) + process] is var v && v != NotMade ? (Verdict)v : null;

    /// <summary>How one variant goes into a room; a mesh not measured counts as fitting, because nothing is known against it.</summary>
    public OutlineFit Ask(int variant, in OutlineRoom room) => (State)_states[variant] switch
    {
        State.NotMeasured => OutlineFit.Fits,
        State.WithoutOutline => OutlineFit.Unclear,
        _ => FitOutline.Ask(_outlines.AsSpan(variant * FitOutline.Size, FitOutline.Size), room),
    };

    /// <summary>The outline that was kept of a variant; null where there is none.</summary>
    public byte[]? OutlineOf(int variant) => (State)_states[variant] == State.Outlined ? _outlines.AsSpan(variant * FitOutline.Size, FitOutline.Size).ToArray() : null;

    /// <summary>The verdict on a process whatever the volume: none is better.</summary>
    public Verdict AtAnySize(int process) => (Verdict)_atAnySize[process];

    private byte[] AtAnySizes()
    {
        var verdicts = new byte[_processes];
        for (var p = 0; p < verdicts.Length; p++) verdicts[p] = (byte)On(p, []).Best;
        return verdicts;
    }

    /// <summary>The verdict on a process, as far as the fits tell.</summary>
    /// <param name="fits">Per variant; empty = whatever the volume.</param>
    public VerdictSpan On(int process, ReadOnlySpan<OutlineFit> fits)
    {
        Span<byte> best = stackalloc byte[_parts.Length];
        Span<byte> worst = stackalloc byte[_parts.Length];
        var (low, high, built) = ((byte)0, (byte)0, _choices > 0);
        for (var i = 0; i < _parts.Length; i++)
        {
            (best[i], worst[i]) = OfPart(_parts[i], process, fits);
            if (_parts[i].IsRequired) (low, high, built) = (Math.Max(low, best[i]), Math.Max(high, worst[i]), true);
        }

        if (!built) return new(Verdict.Unchecked, Verdict.Unchecked);
        for (var j = 0; j < _joints.Length; j++)
        {
            var verdict = _jointVerdicts[(j * _processes) + process];
            if (verdict == NotMade) continue;
            var (first, second) = _joints[j];
            if (_parts[first].IsRequired && _parts[second].IsRequired) (low, high) = (Math.Max(low, verdict), Math.Max(high, verdict));
            else if (_parts[first].IsRequired) Hold(second, verdict, best, worst);
            else if (_parts[second].IsRequired) Hold(first, verdict, best, worst);
        }

        if (_choices == 0) return new((Verdict)low, (Verdict)high);
        var (least, most) = OfChoices(process, best, worst);
        return new((Verdict)Math.Max(low, least), (Verdict)Math.Max(high, most));

        // A member counts with its joints to parts that are always built.
        static void Hold(int member, byte verdict, Span<byte> best, Span<byte> worst) =>
            (best[member], worst[member]) = (Math.Max(best[member], verdict), Math.Max(worst[member], verdict));
    }

    /// <summary>What choices come to: with the members that serve best, or with the usual ones where a joint between two of them makes that better.</summary>
    private (byte Best, byte Worst) OfChoices(int process, ReadOnlySpan<byte> best, ReadOnlySpan<byte> worst)
    {
        Span<int> chosen = stackalloc int[_choices];
        Span<int> usual = stackalloc int[_choices];
        chosen.Fill(-1);
        usual.Fill(-1);
        var open = false;
        for (var i = 0; i < _parts.Length; i++)
        {
            var c = _parts[i].Choice;
            if (c < 0) continue;
            open |= best[i] != worst[i];
            if (usual[c] < 0 || (_parts[i].IsDefault && !_parts[usual[c]].IsDefault)) usual[c] = i;
        }

        for (var i = 0; i < _parts.Length; i++)
            if (_parts[i].Choice is >= 0 and var c && (chosen[c] < 0 || best[i] < best[chosen[c]] || (best[i] == best[chosen[c]] && i == usual[c]))) chosen[c] = i;
        if (!open)
        {
            var settled = Math.Min(Built(chosen, best, process), Built(usual, best, process));
            return (settled, settled);
        }

        // Which members serve best is not known: between the best that each may be, and what the usual build comes to at worst, or the best one with every joint there is.
        var (least, most) = ((byte)0, (byte)0);
        for (var c = 0; c < _choices; c++)
        {
            var (low, high) = (byte.MaxValue, byte.MaxValue);
            for (var i = 0; i < _parts.Length; i++)
                if (_parts[i].Choice == c) (low, high) = (Math.Min(low, best[i]), Math.Min(high, worst[i]));
            (least, most) = (Math.Max(least, low), Math.Max(most, high));
        }

        for (var j = 0; j < _joints.Length; j++)
            if (_parts[_joints[j].First].Choice >= 0 && _parts[_joints[j].Second].Choice >= 0 && _jointVerdicts[(j * _processes) + process] is var verdict && verdict != NotMade) most = Math.Max(most, verdict);
        return (least, Math.Min(most, Built(usual, worst, process)));
    }

    /// <summary>The worst of some members and of the joints between them.</summary>
    private byte Built(ReadOnlySpan<int> members, ReadOnlySpan<byte> verdicts, int process)
    {
        var worst = (byte)0;
        foreach (var member in members)
            if (member >= 0) worst = Math.Max(worst, verdicts[member]);
        for (var j = 0; j < _joints.Length; j++)
        {
            var verdict = _jointVerdicts[(j * _processes) + process];
            if (verdict != NotMade && members.Contains(_joints[j].First) && members.Contains(_joints[j].Second)) worst = Math.Max(worst, verdict);
        }

        return worst;
    }

    private (byte Best, byte Worst) OfPart(in PartLine part, int process, ReadOnlySpan<OutlineFit> fits)
    {
        const byte Unsuited = (byte)Verdict.Unsuited;
        var (best, worst) = (Unsuited, Unsuited);
        for (var v = part.FirstVariant; v < part.FirstVariant + part.Variants; v++)
        {
            var verdict = _verdicts[(v * _processes) + process];
            if (verdict == NotMade) continue;
            var fit = fits.IsEmpty ? OutlineFit.Fits : fits[v];
            best = Math.Min(best, fit == OutlineFit.TooLarge ? Unsuited : verdict);
            worst = Math.Min(worst, fit == OutlineFit.Fits ? verdict : Unsuited);
        }

        return (best, worst);
    }

    private readonly record struct PartLine(int FirstVariant, int Variants, bool IsRequired, int Choice, bool IsDefault);
}
