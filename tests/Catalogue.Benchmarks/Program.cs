using BenchmarkDotNet.Running;
using Catalogue.Benchmarks;

if (args is ["growth", ..]) Growth.Run(args.AsSpan(1));
else BenchmarkSwitcher.FromAssembly(typeof(Program).Assembly).Run(args);
