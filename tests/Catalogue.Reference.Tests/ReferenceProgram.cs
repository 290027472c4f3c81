using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using Catalogue.Geometry.Meshes;
using Xunit;

namespace Catalogue.Reference.Tests;

/// <summary>What a reference library says of a mesh. <paramref name="VolumeMm3"/> is null where the library takes it for no solid.</summary>
public sealed record ReferenceMeasures(double? VolumeMm3, double AreaMm2, double HullVolumeMm3, double BoxVolumeMm3);

/// <summary>
/// The scans of the npm packages and the compiled program that measures with CGAL, made once for all tests: installs the packages, compiles
/// for about a minute. Where Node, a C++ compiler or CGAL are missing (the test command installs them), the tests are skipped with what to install.
/// </summary>
public sealed class ReferenceProgram : IAsyncLifetime
{
    private readonly string _folder = Directory.CreateTempSubdirectory("catalogue-reference-").FullName;
    private string _missing = "";

    public async ValueTask InitializeAsync()
    {
        foreach (var name in new[] { "measure.cpp", "scans.js", "package.json", "package-lock.json" })
            File.Copy(Path.Combine(AppContext.BaseDirectory, name), Path.Combine(_folder, name));
        _missing = await RunAsync("npm", "ci --ignore-scripts --no-audit --no-fund") is { } npm ? $"The scans could not be installed from npm: {npm}"
            : await RunAsync("node", "scans.js .") is { } node ? throw new InvalidOperationException(node)
            : await RunAsync("g++", "-O1 -std=c++17 -o measure measure.cpp -isystem /usr/include/eigen3 -lgmp -lmpfr") is { } compiler
                ? $"g++ with libcgal-dev and libeigen3-dev is needed: {compiler}" : "";
    }

    public ValueTask DisposeAsync()
    {
        Directory.Delete(_folder, recursive: true);
        return ValueTask.CompletedTask;
    }

    public void SkipIfMissing() => Assert.SkipWhen(_missing.Length > 0, _missing);

    public Stream Scan(string name) => File.OpenRead(Path.Combine(_folder, name + ".obj"));

    public async Task<ReferenceMeasures> MeasureAsync(TriangleMesh mesh, CancellationToken cancellation)
    {
        var path = Path.Combine(_folder, Guid.NewGuid().ToString("N"));
        await File.WriteAllBytesAsync(path,
            [
                .. BitConverter.GetBytes(mesh.VertexCount), .. BitConverter.GetBytes(mesh.TriangleCount),
                .. MemoryMarshal.AsBytes(mesh.Positions), .. MemoryMarshal.AsBytes(mesh.Indices),
            ], cancellation);
        using var program = Start(Path.Combine(_folder, "measure"), path);
        var words = (await program.StandardOutput.ReadToEndAsync(cancellation)).Split(' ', StringSplitOptions.TrimEntries);
        await program.WaitForExitAsync(cancellation);
        Assert.Equal((0, 4), (program.ExitCode, words.Length));
        double Number(int at) => double.Parse(words[at], CultureInfo.InvariantCulture);
        return new(words[0] == "open" ? null : Number(0), Number(1), Number(2), Number(3));
    }

    /// <summary>Null when it went well, else the end of what it said.</summary>
    private async Task<string?> RunAsync(string program, string arguments)
    {
        try
        {
            using var process = Start(program, arguments);
            var (output, errors) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
            await process.WaitForExitAsync();
            var said = (await output + await errors).Trim();
            return process.ExitCode == 0 ? null : said[^Math.Min(said.Length, 500)..];
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            return e.Message;
        }
    }

    private Process Start(string program, string arguments) => Process.Start(new ProcessStartInfo(program, arguments)
    {
        WorkingDirectory = _folder,
        RedirectStandardOutput = true,
        RedirectStandardError = true,
    })!;
}
