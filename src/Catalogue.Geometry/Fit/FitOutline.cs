using System.Buffers.Binary;
using System.Runtime.Intrinsics;

namespace Catalogue.Geometry.Fit;

/// <summary>What an outline says of a room.</summary>
public enum OutlineFit : byte
{
    /// <summary>Goes in, with more to spare than <see cref="FitSearch.DecisionToleranceMm"/>. Certain.</summary>
    Fits,

    /// <summary>Too long in every orientation. Certain.</summary>
    TooLarge,

    /// <summary>The outline is too coarse to tell: ask <see cref="FitProfile"/>, then <see cref="FitSearch"/>.</summary>
    Unclear,
}

/// <summary>A build volume as outlines are asked about it: usable lengths, sorted once for all parts.</summary>
public readonly struct OutlineRoom
{
    public OutlineRoom(BuildVolume volume)
        : this(volume.IsRound, volume.UsableWidth, volume.UsableDepth, volume.UsableHeight)
    {
    }

    private OutlineRoom(bool round, double width, double depth, double height)
    {
        IsRound = round;
        Sorted = round ? new(width, height, height) : SortedExtents.Of(width, depth, height);
    }

    internal bool IsRound { get; }

    /// <summary>In ascending order; of a round plate the diameter, then the height twice.</summary>
    internal SortedExtents Sorted { get; }

    /// <summary>The same with less room on each length.</summary>
    public OutlineRoom Less(double mm) => new(IsRound, Sorted.Small - mm, Sorted.Middle - mm, Sorted.Large - mm);
}

/// <summary>
/// A <see cref="FitProfile"/> boiled down to <see cref="Size"/> bytes: rooms that a part surely goes into, rooms that it surely does not, and a
/// narrow strip between. For asking a whole range of parts about one volume.
/// </summary>
/// <remarks>
/// The members of the profile are gathered in <see cref="Boxes"/> groups (for round plates <see cref="Rounds"/>) around members far from each other. A room that takes
/// the middle of a group takes the part. A room smaller than the least lengths of every group, less the profile's slack, takes it in no rotation. Lengths are
/// a byte each, rounded the safe way. Cost: some 20 ns to ask, a fraction of a millisecond to make.
/// </remarks>
public static class FitOutline
{
    /// <summary>Bytes of an outline, whatever the part.</summary>
    public const int Size = HeaderSize + (6 * Boxes) + (4 * Rounds);

    public const int Boxes = 32;
    public const int Rounds = 16;

    private const uint Magic = 0x314C544F; // "OTL1"
    private const int HeaderSize = 4 + (8 * Axes);
    private const int Axes = 5; // small, middle, large; diameter, height
    private const double Grain = 1e-6;

    public static byte[] Of(FitProfile profile)
    {
        ArgumentNullException.ThrowIfNull(profile);
        var bytes = new byte[Size];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, Magic);
        var (small, middle, large) = profile.Boxed;
        var (diameters, heights) = profile.Standing;
        Gather([small.ToArray(), middle.ToArray(), large.ToArray()], profile.SlackMm, Boxes, bytes.AsSpan(4, 24), bytes.AsSpan(HeaderSize, 6 * Boxes));
        Gather([diameters.ToArray(), heights.ToArray()], profile.RoundSlackMm, Rounds, bytes.AsSpan(28, 16), bytes.AsSpan(HeaderSize + (6 * Boxes)));
        return bytes;
    }

    /// <summary>True for bytes that <see cref="Of"/> made; others are no outline of this version.</summary>
    public static bool IsOne(ReadOnlySpan<byte> bytes) => bytes.Length == Size && BinaryPrimitives.ReadUInt32LittleEndian(bytes) == Magic;

    /// <param name="outline">As <see cref="Of"/> made it.</param>
    public static OutlineFit Ask(ReadOnlySpan<byte> outline, in OutlineRoom room) => room.IsRound ? AskRound(outline, room.Sorted) : AskBoxed(outline, room.Sorted);

    private static OutlineFit AskBoxed(ReadOnlySpan<byte> outline, in SortedExtents room)
    {
        var groups = outline[HeaderSize..];
        int s, m, l;
        if ((s = Steps(outline, 0, room.Small + Grain)) < 0 || (m = Steps(outline, 1, room.Middle + Grain)) < 0 || (l = Steps(outline, 2, room.Large + Grain)) < 0)
            return OutlineFit.TooLarge;
        var least = Within(groups, 0, s) & Within(groups, 1, m) & Within(groups, 2, l);
        if (least == Vector256<byte>.Zero) return OutlineFit.TooLarge;
        const double Tight = FitSearch.DecisionToleranceMm + Grain;
        if ((s = Steps(outline, 0, room.Small - Tight)) < 0 || (m = Steps(outline, 1, room.Middle - Tight)) < 0 || (l = Steps(outline, 2, room.Large - Tight)) < 0)
            return OutlineFit.Unclear;
        var taken = Within(groups, 3, s) & Within(groups, 4, m) & Within(groups, 5, l);
        return taken == Vector256<byte>.Zero ? OutlineFit.Unclear : OutlineFit.Fits;

        static Vector256<byte> Within(ReadOnlySpan<byte> groups, int run, int most) =>
            Vector256.LessThanOrEqual(Vector256.Create(groups.Slice(run * Boxes, Boxes)), Vector256.Create((byte)most));
    }

    private static OutlineFit AskRound(ReadOnlySpan<byte> outline, in SortedExtents room)
    {
        var groups = outline[(HeaderSize + (6 * Boxes))..];
        int d, h;
        if ((d = Steps(outline, 3, room.Small + Grain)) < 0 || (h = Steps(outline, 4, room.Middle + Grain)) < 0) return OutlineFit.TooLarge;
        if ((Within(groups, 0, d) & Within(groups, 1, h)) == Vector128<byte>.Zero) return OutlineFit.TooLarge;
        const double Tight = FitSearch.DecisionToleranceMm + Grain;
        if ((d = Steps(outline, 3, room.Small - Tight)) < 0 || (h = Steps(outline, 4, room.Middle - Tight)) < 0) return OutlineFit.Unclear;
        return (Within(groups, 2, d) & Within(groups, 3, h)) == Vector128<byte>.Zero ? OutlineFit.Unclear : OutlineFit.Fits;

        static Vector128<byte> Within(ReadOnlySpan<byte> groups, int run, int most) =>
            Vector128.LessThanOrEqual(Vector128.Create(groups.Slice(run * Rounds, Rounds)), Vector128.Create((byte)most));
    }

    /// <summary>How many whole steps of an axis' scale a length is, at most 255; negative when it is below the scale.</summary>
    private static int Steps(ReadOnlySpan<byte> outline, int axis, double length)
    {
        var at = outline[(4 + (8 * axis))..];
        double from = BinaryPrimitives.ReadSingleLittleEndian(at), step = BinaryPrimitives.ReadSingleLittleEndian(at[4..]);
        return length < from ? -1 : (int)Math.Min(255, (length - from) / step);
    }

    /// <summary>Writes the scale of each axis, then per axis the least lengths of the groups, then per axis the lengths of their middles.</summary>
    /// <param name="lengths">Per axis the lengths of the profile's members.</param>
    private static void Gather(float[][] lengths, double slack, int groups, Span<byte> scales, Span<byte> runs)
    {
        var (middles, groupOf) = Groups(lengths, groups);
        for (var axis = 0; axis < lengths.Length; axis++)
        {
            var values = lengths[axis];
            var least = new double[groups];
            Array.Fill(least, double.PositiveInfinity);
            for (var i = 0; i < values.Length; i++) least[groupOf[i]] = Math.Min(least[groupOf[i]], values[i] - slack - Grain);
            for (var g = 0; g < groups; g++) least[g] = double.IsPositiveInfinity(least[g]) ? least[0] : least[g];
            var from = float.BitDecrement((float)least.Min());
            var step = (float)Math.Max(1e-6, (middles.Max(m => values[m]) - from) / 254.0);
            BinaryPrimitives.WriteSingleLittleEndian(scales[(8 * axis)..], from);
            BinaryPrimitives.WriteSingleLittleEndian(scales[((8 * axis) + 4)..], step);
            for (var g = 0; g < groups; g++)
            {
                runs[(axis * groups) + g] = (byte)Math.Clamp(Math.Floor(((least[g] - from) / step) - Grain), 0, 255);
                runs[((lengths.Length + axis) * groups) + g] = (byte)Math.Clamp(Math.Ceiling(((values[middles[g]] - from) / step) + Grain), 0, 255);
            }
        }
    }

    /// <summary>Members far from each other, each the farthest from those before it, and for every member the nearest of them. With few members some come twice.</summary>
    private static (int[] Middles, int[] GroupOf) Groups(float[][] lengths, int groups)
    {
        var count = lengths[0].Length;
        var (middles, groupOf, distance) = (new int[groups], new int[count], new float[count]);
        Array.Fill(distance, float.PositiveInfinity);
        for (var g = 0; g < groups; g++)
        {
            var farthest = g == 0 ? 0 : Array.IndexOf(distance, distance.Max());
            if (g > 0 && distance[farthest] == 0) farthest = middles[0];
            middles[g] = farthest;
            for (var i = 0; i < count; i++)
            {
                var d = 0f;
                foreach (var axis in lengths) d = Math.Max(d, Math.Abs(axis[i] - axis[farthest]));
                if (d < distance[i]) (distance[i], groupOf[i]) = (d, g);
            }
        }

        return (middles, groupOf);
    }
}
