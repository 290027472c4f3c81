using Catalogue.Data.Ranges;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Features.Shared;

/// <summary>Names of processes as readers read them: ours in their language, a host's own as they are.</summary>
internal static class ProcessWords
{
    /// <summary>“Resin, rigid”, where it stands alone.</summary>
    public static string Named(this Process process)
    {
        ArgumentNullException.ThrowIfNull(process);
        return Known(process.Name);
    }

    /// <summary>“rigid resin”, within a sentence.</summary>
    public static string Spoken(this Process process)
    {
        ArgumentNullException.ThrowIfNull(process);
        return Known(process.SpokenName);
    }

    /// <summary>The name of a process by its code; the code itself of one that is gone.</summary>
    public static string NameOf(this RangeSnapshot snapshot, string process)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        return snapshot.Process(process)?.Named() ?? process;
    }

    /// <summary>The same within a sentence.</summary>
    public static string SpokenOf(this RangeSnapshot snapshot, string process)
    {
        ArgumentNullException.ThrowIfNull(snapshot);
        return snapshot.Process(process)?.Spoken() ?? process;
    }

    /// <summary>Several within a sentence, commas between.</summary>
    public static string SpokenOf(this RangeSnapshot snapshot, IEnumerable<string> processes) => string.Join(", ", processes.Select(p => snapshot.SpokenOf(p)));
}
