using System.Globalization;
using BenchmarkDotNet.Running;
using Catalogue.Benchmarks;
using Catalogue.Benchmarks.Ranges;

if (args is ["growth", ..]) Growth.Run(args.AsSpan(1));
else if (args is ["range", ..]) await RangeGrowth.RunAsync(args[1..]);
else if (args is ["sample", var triangles, var file]) Samples.Write(int.Parse(triangles, CultureInfo.InvariantCulture), file);
else BenchmarkSwitcher.FromAssembly(typeof(Growth).Assembly).Run(args);
