namespace Catalogue.Model.Figures;

/// <content>How the figure goes together: hardware, joints and steps. They belong to the figure, not to an edition, and change at once.</content>
public sealed partial class Figure
{
    public HardwareNeed AddHardware(HardwareSpec spec, DateTime now, IReadOnlyCollection<Part>? parts = null)
    {
        var need = new HardwareNeed(this, spec, _hardware.Count == 0 ? 1 : _hardware.Max(h => h.Position) + 1, Mine(parts));
        _hardware.Add(need);
        Changed(now);
        return need;
    }

    public void ChangeHardware(HardwareNeed need, HardwareSpec spec, DateTime now, IReadOnlyCollection<Part>? parts = null)
    {
        ArgumentNullException.ThrowIfNull(need);
        need.Describe(spec, Mine(parts));
        Changed(now);
    }

    public void RemoveHardware(HardwareNeed need, DateTime now)
    {
        _hardware.Remove(need);
        Changed(now);
    }

    public Joint AddJoint(JointSpec spec, Part first, Part second, DateTime now)
    {
        Mine([first, second]);
        var joint = new Joint(this, spec, first, second);
        _joints.Add(joint);
        Changed(now);
        return joint;
    }

    public void ChangeJoint(Joint joint, JointSpec spec, Part first, Part second, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(joint);
        Mine([first, second]);
        joint.Describe(spec, first, second);
        Changed(now);
    }

    public void RemoveJoint(Joint joint, DateTime now)
    {
        _joints.Remove(joint);
        Changed(now);
    }

    public Step AddStep(StepSpec spec, DateTime now, IReadOnlyCollection<Part>? parts = null, IReadOnlyCollection<HardwareNeed>? hardware = null)
    {
        var step = new Step(this, spec, _steps.Count == 0 ? 1 : _steps.Max(s => s.Position) + 1, Mine(parts), Mine(hardware));
        _steps.Add(step);
        Changed(now);
        return step;
    }

    public void ChangeStep(Step step, StepSpec spec, DateTime now, IReadOnlyCollection<Part>? parts = null, IReadOnlyCollection<HardwareNeed>? hardware = null)
    {
        ArgumentNullException.ThrowIfNull(step);
        step.Describe(spec, Mine(parts), Mine(hardware));
        Changed(now);
    }

    /// <summary>Puts a step at the given place, counted from 1; the others close up.</summary>
    public void MoveStep(Step step, int position, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(step);
        var order = _steps.Where(s => s != step).OrderBy(s => s.Position).ToList();
        order.Insert(Math.Clamp(position - 1, 0, order.Count), step);
        for (var i = 0; i < order.Count; i++) order[i].Position = i + 1;
        Changed(now);
    }

    public void RemoveStep(Step step, DateTime now)
    {
        _steps.Remove(step);
        Changed(now);
    }

    private IReadOnlyCollection<Part> Mine(IReadOnlyCollection<Part>? parts)
    {
        if (parts is not null && parts.Any(p => p.FigureId != Id))
            throw new RuleBrokenException("part-foreign", $"A part named here belongs to another figure than “{Title}”. Nothing was changed.");
        return parts ?? [];
    }

    private IReadOnlyCollection<HardwareNeed> Mine(IReadOnlyCollection<HardwareNeed>? hardware)
    {
        if (hardware is not null && hardware.Any(h => !_hardware.Contains(h)))
            throw new RuleBrokenException("hardware-foreign", $"A step can only name hardware of its own figure. Nothing was changed.");
        return hardware ?? [];
    }
}
