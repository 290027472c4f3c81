using System.Text;

namespace Catalogue.Fuzz;

/// <summary>Where inputs of one format come from.</summary>
internal interface ISampleKind
{
    string Name { get; }

    IEnumerable<byte[]> Seeds();

    /// <summary>A changed copy of <paramref name="parent"/>, perhaps with a piece of <paramref name="other"/>.</summary>
    byte[] Mutated(Random random, byte[] parent, byte[] other);

    /// <summary>An input of some hundred KiB to some MiB made to be costly.</summary>
    byte[] Large(Random random);
}

/// <summary>Changes that any format can undergo.</summary>
internal static class Mutation
{
    private static readonly int[] Numbers = [0, 1, 2, 3, -1, -2, 127, 128, 255, 256, 65535, 65536, int.MaxValue, int.MinValue, 1 << 24, 20_000_000, 20_000_001];

    /// <summary>Bytes flipped, set, cut out, doubled, moved in from elsewhere.</summary>
    public static byte[] OfBytes(Random random, byte[] parent, byte[] other)
    {
        var bytes = new List<byte>(parent);
        for (var changes = 1 + random.Next(4); changes > 0; changes--)
        {
            if (bytes.Count == 0) bytes.Add((byte)random.Next(256));
            var at = random.Next(bytes.Count);
            switch (random.Next(8))
            {
                case 0: bytes[at] ^= (byte)(1 << random.Next(8)); break;
                case 1: bytes[at] = (byte)random.Next(256); break;
                case 2: bytes.RemoveRange(at, Math.Min(bytes.Count - at, 1 + random.Next(1 << random.Next(10)))); break;
                case 3: bytes.InsertRange(at, bytes.GetRange(at, Math.Min(bytes.Count - at, 1 + random.Next(1 << random.Next(9))))); break;
                case 4:
                    var number = BitConverter.GetBytes(Numbers[random.Next(Numbers.Length)]);
                    for (var i = 0; i < 4 && at + i < bytes.Count; i++) bytes[at + i] = number[i];
                    break;
                case 5:
                    var single = BitConverter.GetBytes(random.Next(6) switch { 0 => float.NaN, 1 => float.PositiveInfinity, 2 => float.Epsilon, 3 => 1e30f, 4 => -0f, _ => 1e9f });
                    for (var i = 0; i < 4 && at + i < bytes.Count; i++) bytes[at + i] = single[i];
                    break;
                case 6 when other.Length > 0:
                    var start = random.Next(other.Length);
                    bytes.InsertRange(at, other.AsSpan(start, Math.Min(other.Length - start, 1 + random.Next(200))));
                    break;
                default: bytes.RemoveRange(at, bytes.Count - at); break;
            }
        }

        return [.. bytes];
    }

    /// <summary>Words of a text replaced by others, lines doubled, dropped, swapped and joined.</summary>
    public static byte[] OfText(Random random, byte[] parent, byte[] other, string[] words)
    {
        var text = Encoding.Latin1.GetString(parent);
        for (var changes = 1 + random.Next(4); changes > 0; changes--)
        {
            switch (random.Next(7))
            {
                case 0 or 1 or 2:
                    // A run of what is no space, quote or bracket makes way for a word.
                    var at = random.Next(text.Length + 1);
                    var (from, to) = (at, at);
                    while (from > 0 && IsInWord(text[from - 1])) from--;
                    while (to < text.Length && IsInWord(text[to])) to++;
                    text = text[..from] + words[random.Next(words.Length)] + text[to..];
                    break;
                case 3:
                    text = text.Insert(random.Next(text.Length + 1), words[random.Next(words.Length)]);
                    break;
                case 4:
                    var lines = text.Split('\n').ToList();
                    var (i, j) = (random.Next(lines.Count), random.Next(lines.Count));
                    if (random.Next(3) == 0) lines.RemoveAt(i);
                    else if (random.Next(2) == 0) lines.Insert(j, lines[i]);
                    else (lines[i], lines[j]) = (lines[j], lines[i]);
                    text = string.Join(random.Next(8) == 0 ? "\r" : "\n", lines);
                    break;
                case 5:
                    var foreign = Encoding.Latin1.GetString(other);
                    var cut = random.Next(foreign.Length + 1);
                    text = text.Insert(random.Next(text.Length + 1), foreign[cut..Math.Min(foreign.Length, cut + random.Next(300))]);
                    break;
                default:
                    return OfBytes(random, Encoding.Latin1.GetBytes(text), other);
            }

            if (text.Length > 200_000) text = text[..200_000];
        }

        return Encoding.Latin1.GetBytes(text);
    }

    private static bool IsInWord(char c) => c > ' ' && c is not ('"' or '<' or '>' or '/' or '=');
}
