using Catalogue.Web.Storage;

namespace Catalogue.Web.Tests.Pictures;

/// <summary>Files that are worked out when first asked for.</summary>
public sealed class KeptFilesTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-kept-").FullName;

    [Fact]
    public async Task What_many_ask_for_at_once_is_made_once_and_no_longer_counts_as_being_made()
    {
        var files = new KeptFiles(_folder);
        var (made, go) = (0, new TaskCompletionSource());
        var asked = Enumerable.Range(0, 8).Select(_ => files.OnceAsync("abc.json", async () =>
        {
            await go.Task;
            Interlocked.Increment(ref made);
            await files.KeepAsync("abc.json", "1"u8.ToArray());
        })).ToList();
        Assert.Equal(1, files.Making);

        // Nobody stays to see the end of this one.
        _ = files.OnceAsync("left.json", () => files.KeepAsync("left.json", "2"u8.ToArray()));
        go.SetResult();
        await Task.WhenAll(asked);
        while (files.Making > 0) await Task.Delay(10, TestContext.Current.CancellationToken);
        Assert.Equal((1, true), (made, files.Has("left.json")));
        Assert.Equal("1", await File.ReadAllTextAsync(files.PathOf("abc.json"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task What_could_not_be_made_says_why_and_is_tried_again()
    {
        var files = new KeptFiles(_folder);
        await Assert.ThrowsAsync<InvalidDataException>(() => files.OnceAsync("bad.json", () => throw new InvalidDataException()));
        Assert.False(files.Has("bad.json"));
        await files.OnceAsync("bad.json", () => files.KeepAsync("bad.json", "3"u8.ToArray()));
        Assert.True(files.Has("bad.json"));
    }

    [Fact]
    public async Task Of_too_many_the_oldest_go()
    {
        var files = new KeptFiles(_folder, most: 10);
        for (var i = 0; i < 30; i++)
        {
            var name = $"{i:00}.json";
            await files.KeepAsync(name, "4"u8.ToArray());
            File.SetLastWriteTimeUtc(files.PathOf(name), DateTime.UnixEpoch.AddDays(i));
        }

        Assert.True(files.Has("29.json"));
        Assert.False(files.Has("00.json"));
        Assert.InRange(Directory.GetFiles(_folder, "*", SearchOption.AllDirectories).Length, 1, 10);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
