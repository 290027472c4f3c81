using System.Net;

namespace Catalogue.Web.Tests.Languages;

/// <summary>What is refused is said in the language of who asked, when it is asked.</summary>
public sealed class RefusalsTests(SqliteCatalogue catalogue) : CatalogueTests(catalogue), IClassFixture<SqliteCatalogue>
{
    [Fact]
    public async Task A_program_gets_a_problem_in_the_language_its_address_asks_for()
    {
        using var program = Catalogue.Visitor();
        program.DefaultRequestHeaders.AcceptLanguage.ParseAdd("de");
        using var asked = await program.GetAsync("/api/nowhere?language=de");
        Assert.Equal("Vielleicht ist die Adresse vertippt, oder was hier war, ist umgezogen. Es ist nichts verloren: Schau im Sortiment nach.",
            await asked.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found"));
        using var plain = await program.GetAsync("/api/nowhere");
        Assert.StartsWith("The address may be mistyped", await plain.ExpectProblemAsync(HttpStatusCode.NotFound, "not-found"), StringComparison.Ordinal);
        using var stranger = await program.GetAsync("/api/drafts?language=de");
        Assert.StartsWith("Es wurde nichts geändert.", await stranger.ExpectProblemAsync(HttpStatusCode.Unauthorized, "token-missing"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_designer_is_refused_and_told_of_success_in_German()
    {
        using var browser = await Catalogue.SignedInAsync();
        await browser.GoAsync("/account?language=de");
        await browser.SubmitAsync("?handler=Token", ("TokenName", ""));
        Assert.Contains("Der Name eines Zugriffsschlüssels hat 1 bis 80 Zeichen", browser.Text, StringComparison.Ordinal);
        await browser.SubmitAsync("?handler=Password", ("Passwords.Present", "wrong"), ("Passwords.New", "seven small lamps ashore"));
        Assert.Contains("Das ist nicht dein jetziges Passwort.", browser.Text, StringComparison.Ordinal);
        await browser.GoAsync("/edit-figure");
        await browser.SubmitAsync("/edit-figure", ("Form.Title", "Die Mondfischerin"), ("Form.HeightMm", "120"), ("Form.Licence", "CC-BY-4.0"));
        Assert.Contains("„Die Mondfischerin“ ist begonnen.", browser.Text, StringComparison.Ordinal);
        Assert.Contains("Entwurf", browser.Text, StringComparison.Ordinal);
    }

    /// <summary>Messages of attributes are constants, so they are put into the reader's language where they are shown.</summary>
    [Fact]
    public async Task What_a_form_lacks_is_said_in_German()
    {
        using var browser = await Catalogue.SignedInAsync();
        await browser.GoAsync("/edit-figure?language=de");
        await browser.SubmitAsync("/edit-figure", ("Form.Title", ""), ("Form.HeightMm", "hoch"), ("Form.Licence", "CC-BY-4.0"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, browser.Status);
        Assert.Contains("Eine Figur braucht einen Titel.", browser.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("A figure needs", browser.Text, StringComparison.Ordinal);
    }
}
