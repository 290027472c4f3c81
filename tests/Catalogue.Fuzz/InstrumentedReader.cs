using System.Reflection;
using System.Runtime.InteropServices;
using System.Runtime.Loader;
using SharpFuzz;

namespace Catalogue.Fuzz;

/// <summary>
/// The geometry library, rewritten on the fly so that it counts the branches it takes, and its reader. Compiled code cannot
/// refer to the rewritten copy, so it is called by reflection.
/// </summary>
internal sealed unsafe class InstrumentedReader
{
    private const int MapBytes = 1 << 16;

    private readonly byte* _map = (byte*)NativeMemory.AllocZeroed(MapBytes);
    private readonly byte[] _seen = new byte[MapBytes];
    private readonly Action<Stream> _read;

    public InstrumentedReader()
    {
        var original = Path.Combine(AppContext.BaseDirectory, "Catalogue.Geometry.dll");
        var folder = Directory.CreateTempSubdirectory("catalogue-fuzz-").FullName;
        var copy = Path.Combine(folder, Path.GetFileName(original));
        File.Copy(original, copy);
        Fuzzer.Instrument(copy, _ => true, Options.Value);
        SharpFuzz.Common.Trace.SharedMem = _map;
        var context = new AssemblyLoadContext("instrumented");
        var library = context.LoadFromStream(new MemoryStream(File.ReadAllBytes(copy)));
        Directory.Delete(folder, recursive: true);
        var method = library.GetType("Catalogue.Geometry.Formats.MeshFileReader", throwOnError: true)!
            .GetMethods(BindingFlags.Public | BindingFlags.Static).Single(m => m.Name == "Read" && m.GetParameters().Length == 3);
        _read = stream => method.Invoke(null, BindingFlags.DoNotWrapExceptions, null, [stream, null, CancellationToken.None], null);
    }

    /// <summary>Different places in the library's code reached so far, with how often counted in steps of powers of two.</summary>
    public int Covered { get; private set; }

    /// <summary>Reads one input. Null when it was read or refused as it should be; else what was thrown.</summary>
    public Exception? Read(Stream stream, out string outcome)
    {
        new Span<byte>(_map, MapBytes).Clear();
        SharpFuzz.Common.Trace.PrevLocation = 0;
        try
        {
            _read(stream);
            outcome = "read";
            return null;
        }
        catch (Exception e) when (e.GetType().Name == "MeshFormatException")
        {
            outcome = (string)e.GetType().GetProperty("Code")!.GetValue(e)!;
            return null;
        }
#pragma warning disable CA1031 // Finding any other exception is what this program is for.
        catch (Exception e)
#pragma warning restore CA1031
        {
            outcome = e.GetType().Name;
            return e;
        }
    }

    /// <summary>Whether the last input reached something that none did before.</summary>
    public bool FoundNew()
    {
        var found = false;
        for (var i = 0; i < MapBytes; i++)
        {
            if (_map[i] == 0) continue;
            var step = (byte)(1 << Math.Min(7, System.Numerics.BitOperations.Log2(_map[i])));
            if ((_seen[i] & step) != 0) continue;
            if (_seen[i] == 0) Covered++;
            _seen[i] |= step;
            found = true;
        }

        return found;
    }
}
