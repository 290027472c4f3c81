using System.Collections.Concurrent;

namespace Catalogue.Web.Storage;

/// <summary>A folder of files that are worked out when they are first asked for. It may be deleted at any time: they are made again.</summary>
/// <remarks>A file is made once, whoever else asks meanwhile, and nobody's leaving stops it. Written whole or not at all. Names say what is in them. Thread-safe.</remarks>
/// <param name="most">When there are more, the oldest go: for answers to questions that anybody can vary.</param>
internal sealed class KeptFiles(string folder, int most = int.MaxValue)
{
    private readonly ConcurrentDictionary<string, Lazy<Task>> _making = new();

    /// <summary>How many are being made, or wait for it.</summary>
    public int Making => _making.Count;

    /// <summary>Where a file of that name is kept, whether it is there or not.</summary>
    public string PathOf(string name) => Path.Combine(folder, name[..2], name);

    public bool Has(string name) => File.Exists(PathOf(name));

    /// <summary>Ends when the file is there.</summary>
    /// <param name="make">Leaves it there by <see cref="KeepAsync"/>; not called when it is there already or being made. What it throws is told to everybody who waits.</param>
    public async Task OnceAsync(string name, Func<Task> make)
    {
        if (Has(name)) return;
        var making = _making.GetOrAdd(name, _ => new(() => Task.Run(() => Has(name) ? Task.CompletedTask : make())));
        try
        {
            await making.Value;
        }
        finally
        {
            _making.TryRemove(KeyValuePair.Create(name, making));
        }
    }

    public async Task KeepAsync(string name, ReadOnlyMemory<byte> content)
    {
        var path = PathOf(name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        if (most < int.MaxValue) MakeRoom();
        var temporary = $"{path}.{Guid.NewGuid():N}";
        await File.WriteAllBytesAsync(temporary, content);
        File.Move(temporary, path, overwrite: true);
    }

    /// <summary>A tenth at a time, so that it is seldom done.</summary>
    private void MakeRoom()
    {
        var files = new DirectoryInfo(folder).GetFiles("*", SearchOption.AllDirectories);
        if (files.Length < most) return;
        foreach (var file in files.OrderBy(f => f.LastWriteTimeUtc).Take(Math.Max(1, most / 10))) file.Delete();
    }
}
