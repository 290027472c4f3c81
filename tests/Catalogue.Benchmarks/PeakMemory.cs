using System.Globalization;

namespace Catalogue.Benchmarks;

/// <summary>The process's peak resident memory since it was last restarted; known on Linux only.</summary>
internal static class PeakMemory
{
    /// <summary>Restarts the count; the bytes resident now, or null where the system does not tell.</summary>
    public static long? Restart()
    {
        try
        {
            // 5 resets the high-water mark: proc_pid_clear_refs(5).
            File.WriteAllText("/proc/self/clear_refs", "5");
            return Status("VmRSS:");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    public static long? Read() => Status("VmHWM:");

    private static long? Status(string field)
    {
        if (!File.Exists("/proc/self/status")) return null;
        var line = File.ReadLines("/proc/self/status").FirstOrDefault(l => l.StartsWith(field, StringComparison.Ordinal));
        return line is null ? null : 1024 * long.Parse(line[field.Length..].Replace("kB", "", StringComparison.Ordinal), NumberStyles.Integer | NumberStyles.AllowLeadingWhite | NumberStyles.AllowTrailingWhite, CultureInfo.InvariantCulture);
    }
}
