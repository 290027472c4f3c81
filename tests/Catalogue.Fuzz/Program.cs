using Catalogue.Fuzz;

// dotnet run -c Release --project tests/Catalogue.Fuzz -- --reader stl|obj|3mf --minutes N [--seed N] [--failures FOLDER]  (minutes of processor time)
string? Argument(string name) => Array.IndexOf(args, name) is var at and >= 0 && at + 1 < args.Length ? args[at + 1] : null;

ISampleKind? kind = Argument("--reader") switch { "stl" => new StlSamples(), "obj" => new ObjSamples(), "3mf" => new PackageSamples(), _ => null };
if (kind is null || !double.TryParse(Argument("--minutes"), System.Globalization.CultureInfo.InvariantCulture, out var minutes))
{
    Console.Error.WriteLine("Use: --reader stl|obj|3mf --minutes N [--seed N] [--failures FOLDER]");
    return 2;
}

var seed = int.TryParse(Argument("--seed"), out var given) ? given : Environment.TickCount;
var failures = Argument("--failures") ?? Path.Combine(Path.GetTempPath(), "catalogue-fuzz");
return new FuzzRun(kind, new InstrumentedReader(), seed, failures).Run(TimeSpan.FromMinutes(minutes)) ? 0 : 1;
