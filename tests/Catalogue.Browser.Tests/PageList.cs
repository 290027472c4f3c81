using System.Reflection;
using Catalogue.Browser.Tests.EveryPage;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>Every page that is looked at in the browser, for what does not need one: a page is added to the tests once.</summary>
internal static class PageList
{
    /// <summary>Pages for everybody, read off the classes of <see cref="PageLook"/>.</summary>
    public static IReadOnlyList<(string Name, string Path)> Public { get; } =
    [
        .. typeof(PageLook).Assembly.GetTypes().Where(type => type.IsSubclassOf(typeof(PageLook)))
            .SelectMany(type => type.GetMethods())
            .Where(method => method.GetParameters().Length == 2)
            .SelectMany(method => method.GetCustomAttributes<InlineDataAttribute>())
            .Select(page => ((string)page.Data[0]!, (string)page.Data[1]!)),
    ];

    /// <summary>Pages of designers and the host, who are signed in.</summary>
    public static IReadOnlyList<(string Name, string Path)> Designers => DesignerPagesTests.Pages;
}
