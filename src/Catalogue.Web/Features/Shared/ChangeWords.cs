using Catalogue.Model.Comparison;

namespace Catalogue.Web.Features.Shared;

/// <summary>What changed from one mesh to the next, in words.</summary>
internal static class ChangeWords
{
    /// <summary>Below this nothing is said to have changed: the grain of single precision at hand size, in mm, and a little.</summary>
    private const double Grain = 0.0005;

    /// <summary>Less than a thousandth of the whole is no change of a volume or an area worth naming.</summary>
    private const double SmallShare = 0.001;

    /// <summary>The whole change in half a sentence: “up to 1.2 mm different, volume +4 %”.</summary>
    /// <param name="volumeAfter">The volume of the later mesh, mm³.</param>
    public static string Of(MeshChange change, double volumeAfter, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(change);
        var largest = change.Largest().LargestMm;
        var said = new List<string> { largest < Grain ? T($"the surface is where it was") : T($"up to {lengths.Fine(largest)} different") };
        if (change.VolumeMm3 is { } volume && Share(volume, volumeAfter) is { } share) said.Add(T($"volume {share}"));
        if (change.Before.Closed != change.After.Closed) said.Add(change.After.Closed ? T($"closed now") : T($"open now"));
        if (change.Before.Shells != change.After.Shells) said.Add(Pieces(change.Before.Shells, change.After.Shells));
        return string.Join(", ", said);
    }

    /// <summary>One way: “up to 0.8 mm (exact to 0.01 mm), at x 12.1, y 4, z 33 mm; 0.05 mm on average”.</summary>
    public static string Of(Deviation deviation, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(deviation);
        if (deviation.LargestMm < Grain) return T($"no difference (exact to {lengths.Fine(deviation.ErrorBoundMm)})");
        return T($"up to {lengths.Fine(deviation.LargestMm)} (exact to {lengths.Fine(deviation.ErrorBoundMm)}), {Place(deviation.At)}; {lengths.Fine(deviation.MeanMm)} on average");
    }

    /// <summary>“at x 12.1, y 4, z 33 mm”: the file's own coordinates.</summary>
    public static string Place(double[] at)
    {
        ArgumentNullException.ThrowIfNull(at);
        return T($"at x\u00A0{Written(at[0])}, y\u00A0{Written(at[1])}, z\u00A0{Written(at[2])}\u00A0mm");
    }

    /// <summary>“+0.5 mm wide, −2 mm high”, or “unchanged”.</summary>
    public static string Size(MeshChange change, Lengths lengths)
    {
        ArgumentNullException.ThrowIfNull(change);
        string[] names = [T($"along x"), T($"along y"), T($"along z")];
        var said = change.SizeMm.Zip(names).Where(s => Math.Abs(s.First) >= Grain)
            .Select(s => $"{(s.First > 0 ? "+" : "−")}{lengths.Fine(Math.Abs(s.First))} {s.Second}").ToList();
        return said.Count == 0 ? T($"unchanged") : string.Join(", ", said);
    }

    /// <summary>“+0.31 cm³ (+4.2 %)”, “unchanged”, or why there is no answer.</summary>
    public static string Volume(MeshChange change, double volumeAfter)
    {
        ArgumentNullException.ThrowIfNull(change);
        if (change.VolumeMm3 is { } volume) return Amount(volume / 1000, "cm³", Share(volume, volumeAfter));
        return change.Before.Closed ? T($"not known: the new surface is open") : change.After.Closed ? T($"not known: the old surface was open") : T($"not known: both surfaces are open");
    }

    public static string Area(MeshChange change, double areaAfter)
    {
        ArgumentNullException.ThrowIfNull(change);
        return Amount(change.AreaMm2 / 100, "cm²", Share(change.AreaMm2, areaAfter));
    }

    /// <summary>“2 pieces instead of 1; 3 holes through instead of 2”, or “unchanged”.</summary>
    public static string Shape(MeshChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        var (before, after) = (change.Before, change.After);
        if (before == after) return T($"unchanged");
        var said = new List<string>();
        if (before.Closed != after.Closed) said.Add(after.Closed ? T($"closed, was open") : T($"open, was closed"));
        if (before.Shells != after.Shells) said.Add(Pieces(before.Shells, after.Shells));
        if (before.Voids != after.Voids) said.Add(after.Voids == 1 ? T($"1 void inside instead of {before.Voids}") : T($"{after.Voids} voids inside instead of {before.Voids}"));
        if (before.Handles != after.Handles) said.Add(after.Handles == 1 ? T($"1 hole through instead of {before.Handles}") : T($"{after.Handles} holes through instead of {before.Handles}"));
        return string.Join("; ", said);
    }

    /// <summary>True when everything but the place is as it was: then the part was moved or turned rather than reshaped.</summary>
    public static bool IsPerhapsMoved(MeshChange change, double volumeAfter, double areaAfter)
    {
        ArgumentNullException.ThrowIfNull(change);
        return change.Largest().LargestMm >= 0.1 && change.Before == change.After && change.VolumeMm3 is { } volume
            && Math.Abs(volume) < 1e-5 * Math.Abs(volumeAfter) && Math.Abs(change.AreaMm2) < 1e-5 * areaAfter;
    }

    private static string Pieces(int before, int after) => after == 1 ? T($"1 piece instead of {before}") : T($"{after} pieces instead of {before}");

    private static string Amount(double value, string unit, string? share)
    {
        if (value == 0) return T($"unchanged");
        if (share is null) return T($"changed by less than {100 * SmallShare}\u00A0%");
        var text = Math.Abs(value).ToString(Math.Abs(value) < 0.1 ? "0.####" : "0.##", Language.Current.Numbers);
        return $"{(value < 0 ? "−" : "+")}{text}\u00A0{unit} ({share})";
    }

    /// <summary>“+4.2 %” of what was there before; null when that is next to nothing.</summary>
    private static string? Share(double change, double after)
    {
        var before = Math.Abs(after - change);
        if (before == 0 || Math.Abs(change) < SmallShare * before) return null;
        var percent = 100 * Math.Abs(change) / before;
        return $"{(change < 0 ? "−" : "+")}{percent.ToString(percent < 10 ? "0.#" : "0", Language.Current.Numbers)}\u00A0%";
    }

    /// <summary>A coordinate, without the minus of a number that is shown as 0.</summary>
    private static string Written(double value) => (Math.Abs(value) < 0.005 ? 0 : value).ToString("0.##", Language.Current.Numbers).Replace('-', '−');
}
