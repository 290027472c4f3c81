namespace Catalogue.Geometry.Liquids;

/// <summary>How many columns hold liquid at each height, in steps of 0.05 mm; a stretch counts in every step whose middle it covers.</summary>
/// <param name="height">No stretch lies outside 0 and this; mm, the steps grow where it is above 1000.</param>
internal sealed class AreaProfile(double height)
{
    private readonly double _step = Math.Max(0.05, height / 20_000);
    private readonly int[] _changes = new int[(int)(height / Math.Max(0.05, height / 20_000)) + 3];
    private int _first = int.MaxValue;
    private int _last = -1;

    public void Add(float from, float to)
    {
        var (first, last) = (Step(from), Step(to));
        if (first == last) return;
        _changes[first]++;
        _changes[last]--;
        (_first, _last) = (Math.Min(_first, first), Math.Max(_last, last));
    }

    /// <summary>The most columns at any height, and the length of all steps that have at least <paramref name="least"/>. Empties the profile.</summary>
    public (int Area, double Length) Take(double least)
    {
        var (area, largest, steps) = (0, 0, 0);
        for (var step = _first; step <= _last; step++)
        {
            area += _changes[step];
            largest = Math.Max(largest, area);
            if (area >= least) steps++;
            _changes[step] = 0;
        }

        (_first, _last) = (int.MaxValue, -1);
        return (largest, steps * _step);
    }

    private int Step(float at) => Math.Clamp((int)Math.Ceiling((at / _step) - 0.5), 0, _changes.Length - 1);
}
