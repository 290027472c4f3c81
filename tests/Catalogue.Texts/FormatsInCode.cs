using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace Catalogue.Texts;

/// <summary>
/// The texts of a room that knows no sentences: every <see cref="FormattableString"/> of it. The compiler makes one by putting the format on the stack, then an array of what goes into its holes, then
/// calling <see cref="FormattableStringFactory"/>; between the array and the call another one may be made, for a hole.
/// </summary>
internal static partial class FormatsInCode
{
    public static IEnumerable<string> Of(MetadataReader reader, byte[] code)
    {
        // Words with the number of holes that the array behind them has room for. Those of other calls with an array are passed over, because their words have other holes.
        var begun = new Stack<(string Words, int Holes)>();
        string? last = null;
        var holes = 0;
        foreach (var (op, token) in Instructions.Of(code))
        {
            if (op is ILOpCode.Ldstr)
            {
                (last, holes) = (reader.GetUserString(MetadataTokens.UserStringHandle(token & 0xFFFFFF)), 0);
                continue;
            }

            if (last is not null && Instructions.Constant(op, token) is { } number)
            {
                holes = number;
                continue;
            }

            if (last is not null && (op is ILOpCode.Newarr || (op is ILOpCode.Call && NameOf(reader, token).Name == nameof(Array.Empty)))) begun.Push((last, holes));
            last = null;
            if (op is not ILOpCode.Call || NameOf(reader, token) is not (nameof(FormattableStringFactory), nameof(FormattableStringFactory.Create))) continue;
            while (begun.Peek() is var (words, room) && HolesIn(words) != room) begun.Pop();
            yield return begun.Pop().Words;
        }
    }

    private static int HolesIn(string format) => Hole().Count(format);

    /// <summary>The method that is called, and its type where that is another room's.</summary>
    private static (string Type, string Name) NameOf(MetadataReader reader, int token)
    {
        var handle = MetadataTokens.EntityHandle(token);
        if (handle.Kind == HandleKind.MethodSpecification) handle = reader.GetMethodSpecification((MethodSpecificationHandle)handle).Method;
        if (handle.Kind != HandleKind.MemberReference) return default;
        var member = reader.GetMemberReference((MemberReferenceHandle)handle);
        var type = member.Parent.Kind == HandleKind.TypeReference ? reader.GetString(reader.GetTypeReference((TypeReferenceHandle)member.Parent).Name) : "";
        return (type, reader.GetString(member.Name));
    }

    [GeneratedRegex(@"(?<!\{)\{\d+[^}]*\}")]
    private static partial Regex Hole();
}
