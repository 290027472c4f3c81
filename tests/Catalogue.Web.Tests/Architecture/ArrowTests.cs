using System.Reflection;
using System.Xml.Linq;

namespace Catalogue.Web.Tests.Architecture;

/// <summary>The arrow of design: Web → Migrations → Data → Model → Geometry; Demo → Model, Geometry; Web → Demo.</summary>
public sealed class ArrowTests
{
    private static readonly Dictionary<string, string[]> Allowed = new()
    {
        ["Catalogue.Geometry"] = [],
        ["Catalogue.Model"] = ["Catalogue.Geometry"],
        ["Catalogue.Data"] = ["Catalogue.Model", "Catalogue.Geometry"],
        ["Catalogue.Demo"] = ["Catalogue.Model", "Catalogue.Geometry"],
        ["Catalogue.Migrations"] = ["Catalogue.Data", "Catalogue.Model", "Catalogue.Geometry"],
        ["Catalogue.Web"] = ["Catalogue.Migrations", "Catalogue.Data", "Catalogue.Demo", "Catalogue.Model", "Catalogue.Geometry"],
    };

    public static TheoryData<string> Assemblies => [.. Allowed.Keys];

    [Theory, MemberData(nameof(Assemblies))]
    public void An_assembly_refers_only_to_those_its_arrows_point_to(string assembly)
    {
        var references = Assembly.Load(assembly).GetReferencedAssemblies().Select(r => r.Name!).Where(n => n.StartsWith("Catalogue.", StringComparison.Ordinal));
        Assert.Empty(references.Except(Allowed[assembly]));
    }

    [Theory, InlineData("Catalogue.Geometry"), InlineData("Catalogue.Model"), InlineData("Catalogue.Demo")]
    public void The_pure_rooms_know_nothing_of_web_database_or_packages(string assembly)
    {
        var foreign = Assembly.Load(assembly).GetReferencedAssemblies().Select(r => r.Name!)
            .Where(n => !n.StartsWith("System", StringComparison.Ordinal) && !n.StartsWith("Catalogue.", StringComparison.Ordinal) && n != "netstandard");
        Assert.Empty(foreign);
    }

    /// <summary>A feature meets another in Data, in Model or by URL; Shared is the one room all of them use.</summary>
    [Fact]
    public void Features_do_not_call_each_other()
    {
        var sources = Path.Combine(Root(), "src", "Catalogue.Web", "Features");
        var features = Directory.GetDirectories(sources).Select(d => Path.GetFileName(d)!).Where(f => f != "Shared").ToList();
        var calls =
            from feature in features
            from file in Directory.GetFiles(Path.Combine(sources, feature), "*.cs*", SearchOption.AllDirectories)
            let text = File.ReadAllText(file)
            from other in features
            where other != feature && text.Contains($"Features.{other}", StringComparison.Ordinal)
            select $"{Path.GetFileName(file)} → {other}";
        Assert.Empty(calls);
    }

    [Fact]
    public void Versions_of_packages_stand_in_one_place()
    {
        var projects = Directory.GetFiles(Root(), "*.csproj", SearchOption.AllDirectories);
        Assert.NotEmpty(projects);
        Assert.All(projects, project => Assert.DoesNotContain(
            XDocument.Load(project).Descendants("PackageReference"), reference => reference.Attribute("Version") is not null));
    }

    private static string Root()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "Catalogue.sln"))) folder = folder.Parent!;
        return folder.FullName;
    }
}
