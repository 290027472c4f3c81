namespace Catalogue.Web.Tests;

/// <summary>Tests that hold on every database. Each class of them has a sealed child per database.</summary>
public abstract class CatalogueTests
{
    protected CatalogueTests(CatalogueFixture catalogue)
    {
        ArgumentNullException.ThrowIfNull(catalogue);
        Assert.SkipWhen(catalogue.SkipReason is not null, catalogue.SkipReason ?? "");
        Catalogue = catalogue;
    }

    protected CatalogueFixture Catalogue { get; }
}
