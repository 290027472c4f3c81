using Catalogue.Web.Commands;

return await CommandLine.RunAsync(args);

/// <summary>The entry point, visible to the tests that start the whole program.</summary>
public partial class Program;
