using System.CommandLine;

namespace Catalogue.Web.Commands;

/// <summary>The program's words. Without a command it serves; whatever ASP.NET Core itself understands (<c>--urls</c>, <c>--Section:Key</c>) is passed on.</summary>
internal static class CommandLine
{
    public static Task<int> RunAsync(string[] args)
    {
        if (args.Length == 0 || args[0].StartsWith("--", StringComparison.Ordinal) && args[0] is not ("--help" or "--version"))
            return ServeCommand.RunAsync(args);
        var root = new RootCommand("A catalogue of printable, poseable figures. Without a command it serves on http://127.0.0.1:5080 with data in ./data.")
        {
            DemoCommand.Create(),
            InspectCommand.Create(),
        };
        return root.Parse(args).InvokeAsync();
    }
}
