using System.CommandLine;

namespace Catalogue.Web.Commands;

/// <summary>The program's words. Without a command it serves; whatever ASP.NET Core itself understands (<c>--urls</c>, <c>--Section:Key</c>) is passed on.</summary>
internal static class CommandLine
{
    private const int WrongUse = 2;

    public static Task<int> RunAsync(string[] args)
    {
        if (args.Length == 0 || args[0].StartsWith("--", StringComparison.Ordinal) && args[0] is not ("--help" or "--version"))
            return ServeCommand.RunAsync(args);
        var root = new RootCommand("A catalogue of printable, poseable figures. Without a command it serves on http://127.0.0.1:5080 with data in ./data.")
        {
            DemoCommand.Create(),
            InspectCommand.Create(),
            PasswordLinkCommand.Create(),
        };
        var parsed = root.Parse(args);
        return parsed.Errors.Count > 0 ? RefuseAsync(parsed) : parsed.InvokeAsync();
    }

    /// <summary>Wrong words go to standard error, with where to find the right ones.</summary>
    private static async Task<int> RefuseAsync(ParseResult parsed)
    {
        foreach (var error in parsed.Errors) await Console.Error.WriteLineAsync(error.Message);
        await Console.Error.WriteLineAsync("Nothing was done. “--help” after a command lists its words.");
        return WrongUse;
    }
}
