using System.Globalization;

namespace Catalogue.Fuzz;

/// <summary>Resident memory of this process now and at its highest since restarted; Linux only (proc_pid_clear_refs(5)).</summary>
internal static class ResidentMemory
{
    public static long? Restart()
    {
        if (!File.Exists("/proc/self/clear_refs")) return null;
        File.WriteAllText("/proc/self/clear_refs", "5");
        return Field("VmRSS:");
    }

    public static long Peak() => Field("VmHWM:");

    private static long Field(string name)
    {
        var line = File.ReadLines("/proc/self/status").First(l => l.StartsWith(name, StringComparison.Ordinal));
        return 1024 * long.Parse(line[name.Length..^2].Trim(), CultureInfo.InvariantCulture);
    }
}
