using System.Diagnostics;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Programs from npm that look at pages; the build restores them into checkers/node_modules.</summary>
internal static class PageCheckers
{
    private static readonly string Folder = Path.Combine(Workplace.Root, "tests", "Catalogue.Browser.Tests", "checkers");

    /// <summary>A file of a restored package, to be run in a page.</summary>
    public static async Task<string> ReadAsync(params string[] path)
    {
        var file = Path.Combine([Folder, "node_modules", .. path]);
        if (!File.Exists(file)) Assert.Fail($"{file} is not restored: install Node.js with npm, then build again.");
        return await File.ReadAllTextAsync(file);
    }

    /// <summary>Runs a script of this folder in Node.js and gives what it printed; its messages are for whoever reads the test's output.</summary>
    public static async Task<string> RunAsync(string script, params string[] arguments)
    {
        var path = Path.Combine(Folder, script);
        if (!File.Exists(path)) Assert.Fail($"{script} is not restored: install Node.js with npm, then build again.");
        using var node = Process.Start(new ProcessStartInfo("node", [path, .. arguments]) { WorkingDirectory = Folder, RedirectStandardOutput = true, RedirectStandardError = true })!;
        var messages = node.StandardError.ReadToEndAsync();
        var printed = await node.StandardOutput.ReadToEndAsync();
        await node.WaitForExitAsync();
        TestContext.Current.TestOutputHelper?.WriteLine(await messages);
        return printed;
    }
}
