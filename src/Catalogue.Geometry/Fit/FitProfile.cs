using System.Buffers.Binary;
using System.Runtime.Intrinsics;
using Catalogue.Geometry.Hulls;
using Catalogue.Geometry.Meshes;

namespace Catalogue.Geometry.Fit;

/// <summary>What a <see cref="FitProfile"/> says of a build volume.</summary>
/// <param name="Fits">The best kept rotation goes in. Certain; "no" is certain only when not <paramref name="NearEdge"/>.</param>
/// <param name="NearEdge">Within 0.5 mm of the limit, or the kept rotations are not dense enough to tell: ask <see cref="FitSearch"/> with the hull.</param>
/// <param name="SpareMm">The best kept rotation's smallest margin; negative: that much too long there. No rotation spares more than the profile's slack above it.</param>
/// <param name="Size">The part's lengths along the volume's width, depth and height in that rotation; on a round plate the footprint's diameter twice, then the height.</param>
/// <param name="Rotation">Turns the part as the file has it into that pose.</param>
public readonly record struct ProfileFit(bool Fits, bool NearEdge, double SpareMm, Vec3 Size, Rotation Rotation);

/// <summary>The least room a part can do with: rotations of which none is better than another on every side, for boxes and for round plates.</summary>
/// <remarks>
/// The Pareto front of the three extents of a part over all rotations (axes exchanged so that they ascend) and of (diameter of the footprint's smallest enclosing
/// circle, height) over all directions, each thinned so that every rotation has a kept one that is larger by at most a slack on each side: proven by
/// exhausting the rotations (<see cref="RotationSearch{TGoal}"/>, <see cref="DirectionSearch{TGoal}"/>). So the best spare of all lies between the one that
/// <see cref="Query"/> gives and that plus the slack. The slack is what a fixed amount of work reaches: for a figure of 150 mm some 2 mm, less for
/// smaller parts and angular ones, more for long rods. Lengths kept are those of the whole hull in the kept rotation, rounded up.
/// <para>It is not an exact fit test: near the edge it says so and leaves the answer to <see cref="FitSearch"/> on the hull. It knows nothing of the
/// part's insides, of supports or of other parts on the plate, and its rotations are not advice on how to print.</para>
/// Cost: about 50 to 100 ms to make, whatever the mesh, well under a microsecond to ask; up to 25 kB. Immutable, thread-safe.
/// </remarks>
public sealed class FitProfile
{
    /// <summary>Closer to the limit than this the hull itself is asked (design of the range search).</summary>
    public const double EdgeMm = 0.5;

    private const uint Magic = 0x31544946; // "FIT1"
    private const int HeaderSize = 32;
    private const int BoxedSize = 12;
    private const int StandingSize = 10;
    private const double Steps = 65_000;
    private const double RodriguesStep = 1.0 / 65_536;
    private const double DirectionStep = 1.0 / 32_767;

    private readonly byte[] _bytes;
    private readonly double _step; // mm per unit of a kept length
    private readonly int _boxedCount;
    private readonly int _standingCount;
    private readonly float[] _small;
    private readonly float[] _middle;
    private readonly float[] _large;
    private readonly float[] _diameters;
    private readonly float[] _heights;

    /// <summary>Reads checked bytes: a header, members for boxes, members for round plates.</summary>
    private FitProfile(byte[] bytes)
    {
        _bytes = bytes;
        _boxedCount = BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(4));
        _standingCount = BinaryPrimitives.ReadUInt16LittleEndian(bytes.AsSpan(6));
        _step = BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(8));
        SlackMm = BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(16));
        RoundSlackMm = BinaryPrimitives.ReadDoubleLittleEndian(bytes.AsSpan(24));
        (_small, _middle, _large) = (Padded(_boxedCount), Padded(_boxedCount), Padded(_boxedCount));
        (_diameters, _heights) = (Padded(_standingCount), Padded(_standingCount));
        for (var i = 0; i < _boxedCount; i++)
        {
            var sorted = SortedExtents.Of(Lengths(BoxedAt(i)));
            (_small[i], _middle[i], _large[i]) = (Up(sorted.Small), Up(sorted.Middle), Up(sorted.Large));
        }

        for (var i = 0; i < _standingCount; i++)
        {
            var at = StandingAt(i);
            (_diameters[i], _heights[i]) = (Up(_step * ReadLength(at)), Up(_step * ReadLength(at[2..])));
        }
    }

    /// <summary>No rotation has a larger spare in a box than <see cref="Query"/> gives plus this (mm).</summary>
    public double SlackMm { get; }

    /// <summary>The same for round plates.</summary>
    public double RoundSlackMm { get; }

    /// <summary>Kept rotations for boxes.</summary>
    public int Count => _boxedCount;

    /// <summary>Kept rotations for round plates.</summary>
    public int RoundCount => _standingCount;

    /// <summary>The kept extents for boxes, each member's in ascending order, rounded up (mm).</summary>
    internal (ReadOnlyMemory<float> Small, ReadOnlyMemory<float> Middle, ReadOnlyMemory<float> Large) Boxed =>
        (_small.AsMemory(0, _boxedCount), _middle.AsMemory(0, _boxedCount), _large.AsMemory(0, _boxedCount));

    /// <summary>The kept diameters and heights for round plates, rounded up (mm).</summary>
    internal (ReadOnlyMemory<float> Diameters, ReadOnlyMemory<float> Heights) Standing => (_diameters.AsMemory(0, _standingCount), _heights.AsMemory(0, _standingCount));

    /// <param name="hull">Of the part, in mm.</param>
    /// <param name="stop">Ends the search with <see cref="OperationCanceledException"/>.</param>
    public static FitProfile Of(ConvexHull hull, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(hull);
        var whole = hull.Support;
        var few = whole.Reduced();
        var (boxed, boxedSlack) = FrontSearch.Rectangular(few, stop);
        var (standing, standingSlack) = FrontSearch.Round(few, stop);
        var step = Math.Max(2.1 * whole.Radius, 1e-6) / Steps;

        // What the kept lengths lie above those that the search compared: fewer vertices, coarser rotations, rounding up.
        var (boxedLift, standingLift) = (0.0, 0.0);
        var bytes = new byte[HeaderSize + (BoxedSize * boxed.Count) + (StandingSize * standing.Count)];
        var at = bytes.AsSpan(HeaderSize);
        for (var i = 0; i < boxed.Count; i++)
        {
            var (searched, center) = boxed[i];
            WriteNumber(at, center.X / RodriguesStep);
            WriteNumber(at[2..], center.Y / RodriguesStep);
            WriteNumber(at[4..], center.Z / RodriguesStep);
            var extents = whole.ExtentsIn(Turn(at));
            WriteLength(at[6..], extents.X, step);
            WriteLength(at[8..], extents.Y, step);
            WriteLength(at[10..], extents.Z, step);
            var kept = SortedExtents.Of(step * ReadLength(at[6..]), step * ReadLength(at[8..]), step * ReadLength(at[10..]));
            boxedLift = Math.Max(boxedLift, -kept.MarginIn(searched));
            at = at[BoxedSize..];
        }

        var circle = new EnclosingCircle(whole);
        for (var i = 0; i < standing.Count; i++)
        {
            var (searched, direction) = standing[i];
            WriteNumber(at[4..], direction.X / DirectionStep);
            WriteNumber(at[6..], direction.Y / DirectionStep);
            WriteNumber(at[8..], direction.Z / DirectionStep);
            var upright = Upright(at[4..]);
            WriteLength(at, circle.DiameterOf(hull, upright), step);
            WriteLength(at[2..], hull.VertexCount == 0 ? 0 : whole.ExtentAlong(upright.RowZ), step);
            standingLift = Math.Max(standingLift, Math.Max((step * ReadLength(at)) - searched.Small, (step * ReadLength(at[2..])) - searched.Middle));
            at = at[StandingSize..];
        }

        var rounding = 4 * whole.Rounding;
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, Magic);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(4), (ushort)boxed.Count);
        BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(6), (ushort)standing.Count);
        BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(8), step);
        BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(16), boxedSlack + boxedLift + rounding);
        BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(24), standingSlack + standingLift + rounding);
        return new(bytes);
    }

    /// <summary>The best kept rotation for a volume. Well under a microsecond.</summary>
    public ProfileFit Query(BuildVolume volume) => volume.IsRound ? QueryRound(volume) : QueryRectangular(volume);

    /// <summary>
    /// Version 1, little-endian: "FIT1", members for boxes, for round plates (uint16 each), mm per step, slack for boxes, for round plates in mm (float64 each);
    /// for each box member the rotation (Rodrigues vector, 3 × int16, in 1/65 536) and the extents x y z in steps (3 × uint16); for each round member
    /// diameter and height in steps (2 × uint16) and what points up (3 × int16, in 1/32 767).
    /// </summary>
    public byte[] ToBytes() => (byte[])_bytes.Clone();

    /// <summary>Reads what <see cref="ToBytes"/> wrote.</summary>
    /// <exception cref="FormatException">Not such bytes: another version, cut short, or no numbers. Compute the profile again from the hull.</exception>
    public static FitProfile FromBytes(ReadOnlySpan<byte> bytes) => TryFromBytes(bytes)
        ?? throw new FormatException("These bytes do not hold a fit profile of version 1. Compute it again from the hull.");

    /// <summary>Reads what <see cref="ToBytes"/> wrote; null when the bytes are something else, so that the caller can ask the hull instead.</summary>
    public static FitProfile? TryFromBytes(ReadOnlySpan<byte> bytes)
    {
        if (bytes.Length < HeaderSize || BinaryPrimitives.ReadUInt32LittleEndian(bytes) != Magic) return null;
        var (boxed, standing) = (BinaryPrimitives.ReadUInt16LittleEndian(bytes[4..]), BinaryPrimitives.ReadUInt16LittleEndian(bytes[6..]));
        if (boxed == 0 || standing == 0 || bytes.Length != HeaderSize + (BoxedSize * boxed) + (StandingSize * standing)) return null;
        for (var i = 8; i < HeaderSize; i += 8)
            if (!(BinaryPrimitives.ReadDoubleLittleEndian(bytes[i..]) is >= 0 and < 1e30)) return null;
        return new(bytes.ToArray());
    }

    private ProfileFit QueryRectangular(BuildVolume volume)
    {
        var room = SortedExtents.Of(volume.UsableWidth, volume.UsableDepth, volume.UsableHeight);
        var best = Largest(_small, room.Small, _middle, room.Middle, _large, room.Large);
        var member = BoxedAt(best);
        var (rotation, size) = (Turn(member), Lengths(member));
        var spare = SortedExtents.Of(size).MarginIn(room);
        (rotation, size) = AxesFor(volume, rotation, size, spare);
        return new(spare >= 0, !(spare >= EdgeMm || spare + SlackMm <= -EdgeMm), spare, size, rotation);
    }

    private ProfileFit QueryRound(BuildVolume volume)
    {
        var best = Largest(_diameters, volume.UsableWidth, _heights, volume.UsableHeight, _heights, volume.UsableHeight);
        var member = StandingAt(best);
        var (diameter, height) = (_step * ReadLength(member), _step * ReadLength(member[2..]));
        var spare = Math.Min(volume.UsableWidth - diameter, volume.UsableHeight - height);
        return new(spare >= 0, !(spare >= EdgeMm || spare + RoundSlackMm <= -EdgeMm), spare, new(diameter, diameter, height), Upright(member[4..]));
    }

    /// <summary>The member with the largest least margin; the first of equals.</summary>
    private static int Largest(float[] p, double roomP, float[] q, double roomQ, float[] s, double roomS)
    {
        var (vp, vq, vs) = (Vector512.Create((float)roomP), Vector512.Create((float)roomQ), Vector512.Create((float)roomS));
        var most = Vector512.Create(float.NegativeInfinity);
        var where = Vector512<int>.Zero;
        for (var i = 0; i < p.Length; i += 16)
        {
            var margin = Vector512.Min(
                vp - Vector512.LoadUnsafe(ref p[i]), Vector512.Min(vq - Vector512.LoadUnsafe(ref q[i]), vs - Vector512.LoadUnsafe(ref s[i])));
            where = Vector512.ConditionalSelect(Vector512.GreaterThan(margin, most).AsInt32(), Vector512.Create(i), where);
            most = Vector512.Max(most, margin);
        }

        var best = 0;
        for (var lane = 1; lane < 16; lane++)
            if (most[lane] > most[best] || (most[lane] == most[best] && where[lane] + lane < where[best] + best)) best = lane;
        return where[best] + best;
    }

    /// <summary>Exchanges axes, without mirroring, so that the longest extent lies along the longest side and so on; only where that is needed.</summary>
    private static (Rotation Rotation, Vec3 Size) AxesFor(BuildVolume volume, Rotation rotation, Vec3 size, double spare)
    {
        Span<double> sides = [volume.UsableWidth, volume.UsableDepth, volume.UsableHeight];
        if (Math.Min(sides[0] - size.X, Math.Min(sides[1] - size.Y, sides[2] - size.Z)) >= spare) return (rotation, size);
        Span<double> lengths = [size.X, size.Y, size.Z];
        Span<int> rows = [0, 1, 2];
        Span<int> axes = [0, 1, 2];
        lengths.Sort(rows);
        sides.Sort(axes);
        Span<Vec3> turned = [rotation.RowX, rotation.RowY, rotation.RowZ];
        Span<Vec3> placed = [default, default, default];
        Span<double> placedLengths = [0, 0, 0];
        for (var i = 0; i < 3; i++) (placed[axes[i]], placedLengths[axes[i]]) = (turned[rows[i]], lengths[i]);
        if (Vec3.Dot(Vec3.Cross(placed[0], placed[1]), placed[2]) < 0) placed[0] = -placed[0];
        return (new(placed[0], placed[1], placed[2]), new(placedLengths[0], placedLengths[1], placedLengths[2]));
    }

    private ReadOnlySpan<byte> BoxedAt(int i) => _bytes.AsSpan(HeaderSize + (BoxedSize * i), BoxedSize);

    private ReadOnlySpan<byte> StandingAt(int i) => _bytes.AsSpan(HeaderSize + (BoxedSize * _boxedCount) + (StandingSize * i), StandingSize);

    private Vec3 Lengths(ReadOnlySpan<byte> boxed) => new(_step * ReadLength(boxed[6..]), _step * ReadLength(boxed[8..]), _step * ReadLength(boxed[10..]));

    private static Rotation Turn(ReadOnlySpan<byte> at) => Rodrigues.ToRotation(Vector(at) * RodriguesStep);

    private static Rotation Upright(ReadOnlySpan<byte> at)
    {
        var up = Vector(at);
        return up is { X: 0, Y: 0, Z: >= 0 } ? Rotation.Identity : Rotation.BringingToZ(up);
    }

    private static Vec3 Vector(ReadOnlySpan<byte> at) => new(
        BinaryPrimitives.ReadInt16LittleEndian(at), BinaryPrimitives.ReadInt16LittleEndian(at[2..]), BinaryPrimitives.ReadInt16LittleEndian(at[4..]));

    private static ushort ReadLength(ReadOnlySpan<byte> at) => BinaryPrimitives.ReadUInt16LittleEndian(at);

    private static void WriteLength(Span<byte> at, double length, double step) =>
        BinaryPrimitives.WriteUInt16LittleEndian(at, (ushort)Math.Ceiling(length / step));

    private static void WriteNumber(Span<byte> at, double value) => BinaryPrimitives.WriteInt16LittleEndian(at, (short)Math.Round(value));

    private static float[] Padded(int count)
    {
        var values = new float[(count + 15) / 16 * 16];
        Array.Fill(values, float.PositiveInfinity);
        return values;
    }

    private static float Up(double value) => float.BitIncrement((float)value);
}
