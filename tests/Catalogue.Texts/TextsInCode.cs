using System.ComponentModel.DataAnnotations;
using System.Reflection;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;
using System.Text;
using System.Text.RegularExpressions;
using Catalogue.Geometry.Formats;
using Catalogue.Model.Languages;

namespace Catalogue.Texts;

/// <summary>A text that the program says, and the folder (below the root) whose resource files hold it.</summary>
public sealed record SaidText(string Key, string Folder);

/// <summary>
/// Every text that the program says, read off its compiled code: a <see cref="Sentence"/> is always made from an interpolated string, so the compiler leaves its words as a row of literals between the
/// calls that build it. What pages say is found in the same way, because they are compiled too; what scripts say stands in calls of <c>t('…')</c>; what forms say in the messages of their attributes.
/// The mesh readers know no sentences: theirs are formats (see <see cref="FormatsInCode"/>).
/// </summary>
public static partial class TextsInCode
{
    /// <summary>Where the texts of scripts lie; what that folder holds is what browsers are given.</summary>
    public const string ScriptsFolder = "src/Catalogue.Web/Features/Scripts";

    /// <summary>The rooms that say something to people.</summary>
    public static IReadOnlyList<Assembly> Rooms { get; } = [Readers, typeof(Sentence).Assembly, typeof(Data.CatalogueDb).Assembly, typeof(Web.Problems).Assembly];

    private static Assembly Readers => typeof(MeshFormatException).Assembly;

    /// <summary>A file that was changed after the program was built: then what is read off the program is not what stands in the code. Null when there is none.</summary>
    public static string? NewerThanBuild(string root) => Rooms.SelectMany(room =>
    {
        var built = File.GetLastWriteTimeUtc(room.Location);
        return Directory.EnumerateFiles(Path.Combine(root, "src", room.GetName().Name!), "*.cs*", SearchOption.AllDirectories)
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) || f.EndsWith(".cshtml", StringComparison.Ordinal))
            .Where(f => !f.Contains("/obj/", StringComparison.Ordinal) && File.GetLastWriteTimeUtc(f) > built);
    }).FirstOrDefault();

    public static IReadOnlyList<SaidText> Of(string root) =>
        [.. Rooms.SelectMany(OfRoom).Concat(OfScripts(Path.Combine(root, "wwwroot"))).Where(t => IsSaid(t.Key)).Distinct()];

    /// <summary>Marks alone are the same in every language; not so the commas between numbers, where a comma is also what decimals stand behind.</summary>
    private static bool IsSaid(string key) => HoleOrEntity().Replace(key, "").Any(char.IsLetter) || NumbersInRow().IsMatch(key);

    private static IEnumerable<SaidText> OfRoom(Assembly room)
    {
        foreach (var type in room.GetTypes())
        {
            foreach (var property in type.GetProperties(BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.DeclaredOnly))
            {
                foreach (var rule in property.GetCustomAttributes<ValidationAttribute>(false))
                    if (rule.ErrorMessage is { } message) yield return new(message, FolderOf(room, type.Namespace ?? "", type.Name));
            }
        }

        using var file = new PEReader(File.OpenRead(room.Location));
        var reader = file.GetMetadataReader();
        foreach (var handle in reader.MethodDefinitions)
        {
            var method = reader.GetMethodDefinition(handle);
            if (method.RelativeVirtualAddress == 0) continue;
            var outermost = method.GetDeclaringType();
            while (reader.GetTypeDefinition(outermost).GetDeclaringType() is { IsNil: false } outer) outermost = outer;
            var type = reader.GetTypeDefinition(outermost);
            var folder = FolderOf(room, reader.GetString(type.Namespace), reader.GetString(type.Name));
            var code = file.GetMethodBody(method.RelativeVirtualAddress).GetILBytes()!;
            foreach (var key in room == Readers ? FormatsInCode.Of(reader, code) : KeysOf(reader, code)) yield return new(key, folder);
        }
    }

    /// <summary><c>Catalogue.Model.Verdicts</c> is <c>src/Catalogue.Model/Verdicts</c>; the compiled page <c>Features_Figures__Cost</c> is in <c>src/Catalogue.Web/Features/Figures</c>.</summary>
    private static string FolderOf(Assembly room, string space, string type)
    {
        var name = room.GetName().Name!;
        if (space.StartsWith("AspNetCoreGeneratedDocument", StringComparison.Ordinal)) return $"src/{name}/Features/{type.Split('_')[1]}";
        var inner = space.Length > name.Length && space.StartsWith(name + ".", StringComparison.Ordinal) ? space[name.Length..].Replace('.', '/') : "";
        return $"src/{name}{inner}";
    }

    private static IEnumerable<SaidText> OfScripts(string folder)
    {
        foreach (var script in Directory.EnumerateFiles(folder, "*.js", SearchOption.AllDirectories).Where(f => !f.Contains("/lib/", StringComparison.Ordinal)))
        {
            foreach (Match call in ScriptText().Matches(File.ReadAllText(script)))
                yield return new(call.Groups["text"].Value.Replace("\\'", "'", StringComparison.Ordinal), ScriptsFolder);
        }
    }

    private static IEnumerable<string> KeysOf(MetadataReader reader, byte[] code)
    {
        var building = new Stack<Building>();
        var (last, lastIsNumber) = ("", new Queue<int>());
        foreach (var (op, token) in Instructions.Of(code))
        {
            if (op is ILOpCode.Ldstr)
            {
                last = reader.GetUserString(MetadataTokens.UserStringHandle(token & 0xFFFFFF));
            }
            else if (Instructions.Constant(op, token) is { } number)
            {
                lastIsNumber.Enqueue(number);
                if (lastIsNumber.Count > 2) lastIsNumber.Dequeue();
            }
            else if (op is ILOpCode.Newobj && IsOfSentence(reader, token, ".ctor", 2))
            {
                building.Push(new(lastIsNumber.First(), lastIsNumber.Last()));
                if (building.Peek().IsComplete) building.Pop();
            }
            else if (op is ILOpCode.Call or ILOpCode.Callvirt && building.Count > 0)
            {
                var now = building.Peek();
                if (IsOfSentence(reader, token, nameof(Sentence.AppendLiteral), 1)) now.Literal(last);
                else if (IsOfSentence(reader, token, nameof(Sentence.AppendFormatted), 2)) now.Hole(last);
                else continue;
                if (!now.IsComplete) continue;
                building.Pop();
                yield return now.Key;
            }

            if (op is ILOpCode.Ldnull) last = "";
        }
    }

    private static bool IsOfSentence(MetadataReader reader, int token, string name, int parameters)
    {
        var handle = MetadataTokens.EntityHandle(token);
        if (handle.Kind == HandleKind.MemberReference)
        {
            var member = reader.GetMemberReference((MemberReferenceHandle)handle);
            return reader.StringComparer.Equals(member.Name, name) && member.Parent.Kind == HandleKind.TypeReference
                && reader.StringComparer.Equals(reader.GetTypeReference((TypeReferenceHandle)member.Parent).Name, nameof(Sentence))
                && reader.GetBlobReader(member.Signature) is var signature && Parameters(ref signature) == parameters;
        }

        if (handle.Kind != HandleKind.MethodDefinition) return false;
        var method = reader.GetMethodDefinition((MethodDefinitionHandle)handle);
        return reader.StringComparer.Equals(method.Name, name) && reader.StringComparer.Equals(reader.GetTypeDefinition(method.GetDeclaringType()).Name, nameof(Sentence))
            && reader.GetBlobReader(method.Signature) is var own && Parameters(ref own) == parameters;
    }

    private static int Parameters(ref BlobReader signature)
    {
        signature.ReadSignatureHeader();
        return signature.ReadCompressedInteger();
    }

    [GeneratedRegex(@"\bt\(\s*'(?<text>(?:\\.|[^'\\])+)'")]
    private static partial Regex ScriptText();

    [GeneratedRegex(@":0\.[0#]+\}, \{")]
    private static partial Regex NumbersInRow();

    [GeneratedRegex(@"\{[^}]*\}|<[^>]*>|&[a-z]+;")]
    private static partial Regex HoleOrEntity();

    /// <summary>A sentence whose literals and holes are being met; the compiler says before how long the literals are and how many holes there are.</summary>
    private sealed class Building(int length, int holes)
    {
        private readonly StringBuilder _key = new();
        private int _length;
        private int _holes;

        public bool IsComplete => _length >= length && _holes >= holes;

        public string Key => _key.ToString();

        public void Literal(string words)
        {
            _length += words.Length;
            _key.Append(words.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));
        }

        /// <param name="format">What was last put on the stack; empty for the hole without a format.</param>
        public void Hole(string format)
        {
            _key.Append('{').Append(_holes++);
            if (format.Length > 0) _key.Append(':').Append(format);
            _key.Append('}');
        }
    }
}
