using System.Globalization;
using System.Text;

namespace Catalogue.Fuzz;

/// <summary>OBJ.</summary>
internal sealed class ObjSamples : ISampleKind
{
    private static readonly string[] Words =
    [
        "v", "vt", "vn", "vp", "f", "fo", "l", "p", "o", "g", "s", "usemtl", "mtllib", "cstype", "curv", "surf", "#", "\\", "\\\n", "\\\r\n", "\n", "\r", "/", "//", "1/2/3", "1//3", "-1", "-2", "0", "1", "2", "3", "4", "5",
        "99", "2147483647", "2147483648", "-2147483649", "9223372036854775807", "-9223372036854775808", "99999999999999999999", "1.5", "-1e3", "1e400", "nan", "inf", "1e30", "3.1+e2", "12,5", "\0", "\u00EF\u00BB\u00BF",
    ];

    public string Name => "obj";

    public IEnumerable<byte[]> Seeds()
    {
        const string Corners = "v 0 0 0\nv 10 0 0\nv 10 10 0\nv 0 10 0\nv 5 5 0\nv 5 5 9\n";
        string[] texts =
        [
            Corners + "f 1 2 3\n", Corners + "o part\ng a b\ns 1\nusemtl m\nf 1 2 3 4\n", Corners + "f 1 2 5 4\nf -1 -2 -3\n", Corners + "f 1/1/1 2/2/2 3//3 4/4\n",
            "f 1 2 3 6 4\n" + Corners, Corners + "f 1 2 \\\n 3 4 \\\r\n 5\n", Corners + "f 1 3 2 4\nf 1 2 3 4 1 2 3 4\n", Corners + "l 1 2\np 1\ncurv 0 1\nf 1 2 3 # end",
            "# comment\\\nv nan 0 0\nv 1 x 0\n" + Corners + "f 3 4 5\n", Corners + "f 1 2 3 4 5 6 1 3 5 2 4 6 5 4 3 2 1\n",
        ];
        foreach (var text in texts) yield return Encoding.UTF8.GetBytes(text);
        yield return [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(texts[1])];
        yield return [0xFE, 0xFF, .. Encoding.BigEndianUnicode.GetBytes(texts[1])];
        yield return Encoding.UTF8.GetBytes("\uFEFF" + texts[1]);
    }

    public byte[] Mutated(Random random, byte[] parent, byte[] other) =>
        random.Next(4) == 0 ? Mutation.OfBytes(random, parent, other) : Mutation.OfText(random, parent, other, Words);

    public byte[] Large(Random random)
    {
        var text = new StringBuilder();
        var n = random.Next(3, 60_000);
        switch (random.Next(5))
        {
            case 0: // scribbles: polygons of random corners
                for (var i = 0; i < n; i++) text.Append(CultureInfo.InvariantCulture, $"v {random.Next(1000)} {random.Next(1000)} {random.Next(3)}\n");
                for (var left = n; left > 3;)
                {
                    var corners = Math.Min(left, random.Next(3, 1 << random.Next(2, 16)));
                    text.Append('f');
                    for (var i = 0; i < corners; i++) text.Append(' ').Append(1 + random.Next(n));
                    text.Append('\n');
                    left -= corners;
                }

                break;
            case 1: // a comb: every second corner reflex, all in one row of cells
                for (var i = 0; i < n; i++) text.Append(CultureInfo.InvariantCulture, $"v {i} {(i % 2 == 0 ? 0 : 1000)} 0\n");
                text.Append('f');
                for (var i = 1; i <= n; i++) text.Append(' ').Append(i);
                break;
            case 2: // few corners used again and again
                text.Append("v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 1 1\nf");
                for (var i = 0; i < n; i++) text.Append(' ').Append(1 + random.Next(4));
                break;
            case 3:
                text.Append("v 0 0 0\nv 1 0 0\nv 0 1 0\n");
                for (var i = 0; i < 4 * n; i++) text.Append("f 1 2 3\n");
                break;
            default:
                text.Append(string.Concat(Enumerable.Repeat(Words[random.Next(Words.Length)] + (random.Next(2) == 0 ? " " : "\n"), 4 * n)));
                break;
        }

        return Encoding.Latin1.GetBytes(text.ToString());
    }
}
