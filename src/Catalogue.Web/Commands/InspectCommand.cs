using System.CommandLine;
using System.Security.Cryptography;
using Catalogue.Geometry.Fit;
using Catalogue.Geometry.Formats;
using Catalogue.Model;
using Catalogue.Model.Inspections;
using Catalogue.Model.Printers;
using Catalogue.Model.Processes;

namespace Catalogue.Web.Commands;

/// <summary><c>inspect FILE…</c>: every check on mesh files, without a database.</summary>
internal static class InspectCommand
{
    public static Command Create()
    {
        var files = new Argument<string[]>("FILE") { Description = "Mesh files: STL, OBJ or 3MF.", Arity = ArgumentArity.OneOrMore };
        var unit = new Option<string?>("--unit") { Description = "The unit of the numbers in the files: mm or inch. Without it: as the file says, or guessed with a warning." };
        unit.AcceptOnlyFromAmong("mm", "inch");
        var process = new Option<string?>("--process") { Description = "Judge on this process only, for example VPP-rigid. Without it: on all built-in ones." };
        process.AcceptOnlyFromAmong([.. BuiltInProcesses.Create().Select(p => p.Code)]);
        var volume = new Option<string?>("--volume") { Description = "Fit into this build volume in any orientation: width x depth x height in mm, for example 64x114x152." };
        var round = new Option<string?>("--round") { Description = "Fit into a round build volume: diameter x height in mm, for example 200x300." };
        var json = new Option<bool>("--json") { Description = "Print one JSON object per file, nothing else." };
        var command = new Command("inspect", "Check mesh files before publishing them: closed, size, volume, verdict per process.")
        {
            files, unit, process, volume, round, json,
        };
        command.Validators.Add(parsed =>
        {
            try
            {
                _ = Printer.Parse(null, parsed.GetValue(volume), parsed.GetValue(round), null);
            }
            catch (RuleBrokenException wrong)
            {
                parsed.AddError(wrong.Message);
            }
        });
        command.SetAction((parsed, cancellation) => RunAsync(
            parsed.GetValue(files)!, parsed.GetValue(unit), parsed.GetValue(process),
            Printer.Parse(null, parsed.GetValue(volume), parsed.GetValue(round), null).Volume, parsed.GetValue(json), cancellation));
        return command;
    }

    private static async Task<int> RunAsync(string[] files, string? unit, string? process, BuildVolume? volume, bool json, CancellationToken cancellation)
    {
        var processes = BuiltInProcesses.Create().Where(p => process is null || p.Code == process).ToList();
        var rejected = false;
        foreach (var file in files)
        {
            var request = new InspectionRequest
            {
                File = Path.GetFileName(file),
                Unit = unit switch { "mm" => LengthUnit.Millimetre, "inch" => LengthUnit.Inch, _ => null },
                Processes = processes,
                Volume = volume,
            };
            var report = await InspectAsync(file, request, cancellation);
            rejected |= report.Error is not null;
            if (json) Console.Out.WriteLine(InspectionJson.Write(report));
            else InspectionText.Write(Console.Out, report);
        }

        return rejected ? 1 : 0;
    }

    private static async Task<InspectionReport> InspectAsync(string file, InspectionRequest request, CancellationToken cancellation)
    {
        var line = new ProgressLine(Console.Error, !Console.IsErrorRedirected, Path.GetFileName(file));
        try
        {
            await using var content = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16, FileOptions.SequentialScan);
            var sha256 = Convert.ToHexStringLower(await SHA256.HashDataAsync(content, cancellation));
            content.Position = 0;
            return MeshInspector.Inspect(content, content.Length, request with { Sha256 = sha256 }, line.Report, cancellation).Report;
        }
        catch (MeshFormatException unreadable)
        {
            return new() { File = request.File, Error = new(unreadable.Code, unreadable.Message) };
        }
        catch (Exception missing) when (missing is IOException or UnauthorizedAccessException)
        {
            return new() { File = request.File, Error = new("file-unreadable", $"{file} cannot be opened: {missing.Message}") };
        }
        finally
        {
            line.Wipe();
        }
    }
}
