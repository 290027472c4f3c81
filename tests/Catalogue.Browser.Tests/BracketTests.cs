using Catalogue.Web.Features.Languages;
using Microsoft.AspNetCore.WebUtilities;
using Microsoft.Playwright;
using Xunit;

namespace Catalogue.Browser.Tests;

/// <summary>
/// Every page in the language that puts each text in brackets: what then stands outside of brackets, and is no word of the range's own data, is said to people past <c>Sentence</c> and could not
/// be translated.
/// </summary>
public sealed class BracketTests(RunningCatalogue catalogue, Chromium chromium)
{
    /// <summary>What is outside of brackets, by place. A sentence with emphasis or links in it goes over several nodes, so brackets are counted through the whole document.</summary>
    private const string Outside = """
        () => {
          const told = ['alt', 'title', 'placeholder', 'aria-label', 'label', 'data-said', 'data-off', 'data-full', 'data-to-print', 'data-printed'];
          const found = [];
          const placeOf = element => {
            const steps = [];
            for (; element && steps.length < 4; element = element.parentElement) steps.unshift(element.localName + (element.id ? '#' + element.id : element.classList[0] ? '.' + element.classList[0] : ''));
            return steps.join(' > ');
          };
          let depth = 0;
          const take = (place, text, told = false) => {
            let out = '';
            for (const sign of text) {
              if (sign === '⟦') depth++;
              if (depth === 0) out += sign;
              else if (sign === '⟧' && --depth === 0) out += '\n\n';
            }
            if (/\p{L}/u.test(out)) found.push([place, out, told ? 'their own' : '']);
          };
          const read = root => {
            const nodes = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
            while (nodes.nextNode()) {
              const element = nodes.currentNode.parentElement;
              if (element?.closest('script, style, noscript, time')) continue;
              const speaks = element?.closest('[lang]');
              if (speaks && speaks !== document.documentElement) continue; // Names of languages, each in its own.
              take(placeOf(element), nodes.currentNode.data, element?.closest('.prose') !== null);
            }
            if (depth !== 0) found.push([root.nodeName, 'a bracket is not closed', '']);
            depth = 0;
            for (const element of root.querySelectorAll('*')) {
              for (const name of told) if (element.hasAttribute(name)) take(`${placeOf(element)} [${name}]`, element.getAttribute(name));
              depth = 0;
              if (element instanceof HTMLTemplateElement) read(element.content);
            }
          };
          read(document.documentElement);
          take('meta description', document.querySelector('meta[name="description"]')?.content ?? '');
          return found;
        }
        """;

    [Fact]
    public async Task What_visitors_read_is_said_through_sentences()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        var own = await OwnWords.OfAsync(catalogue);
        var complaints = new List<string>();
        foreach (var (_, path) in PageList.Public) complaints.AddRange(await LookAsync(page, path, own));
        Assert.True(complaints.Count == 0, string.Join("\n", complaints));
    }

    [Fact]
    public async Task What_designers_and_the_host_read_is_said_through_sentences()
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var workshop = new Workshop(catalogue);
        await workshop.PrepareAsync();
        var page = await workshop.SignInAsync(reader);
        var own = await OwnWords.OfAsync(catalogue);
        var complaints = new List<string>();
        foreach (var (_, path) in PageList.Designers) complaints.AddRange(await LookAsync(page, path, own));
        Assert.True(complaints.Count == 0, string.Join("\n", complaints));
    }

    [Theory]
    [InlineData("/figures/signal-keeper")]
    [InlineData("/figures/lamplighter/parts/body?process=VPP-rigid&volume=64x114x152&margin=2")]
    public async Task What_the_viewer_says_goes_through_its_texts(string path)
    {
        await using var reader = await chromium.ReaderAsync(1280);
        var page = await reader.NewPageAsync();
        await page.GotoAsync(Bracketed(path));
        await page.Locator(".look-tools button").First.ClickAsync();
        await page.Locator("[data-looking]").First.WaitForAsync();
        var complaints = (await OutsideAsync(page, path, await OwnWords.OfAsync(catalogue))).ToList();
        Assert.True(complaints.Count == 0, string.Join("\n", complaints));
    }

    private async Task<IEnumerable<string>> LookAsync(IPage page, string path, OwnWords own)
    {
        await page.GotoAsync(Bracketed(path));
        Assert.Contains("⟦", await page.TitleAsync() + await page.InnerTextAsync("body"), StringComparison.Ordinal);
        var outside = (await OutsideAsync(page, path, own)).ToList();
        return outside.Count == 0 ? outside : await OutsideAsync(page, path, await OwnWords.OfAsync(catalogue)); // Tests beside this one publish figures.
    }

    private static async Task<IEnumerable<string>> OutsideAsync(IPage page, string path, OwnWords own)
    {
        var typed = QueryHelpers.ParseQuery(path.Contains('?', StringComparison.Ordinal) ? path[path.IndexOf('?', StringComparison.Ordinal)..] : "").GetValueOrDefault("q").ToString().Split(' ');
        return
            from found in await page.EvaluateAsync<string[][]>(Outside)
            let words = own.LeftOf(found[1], found[2].Length > 0)
            where words.Length > 0 && !words.Split(' ').All(typed.Contains)
            select $"{path}: {found[0]}: “{words}” in “{found[1].Trim()}”";
    }

    private string Bracketed(string path) => $"{catalogue.Address}{path}{(path.Contains('?', StringComparison.Ordinal) ? '&' : '?')}{ReaderLanguage.QueryName}={Model.Languages.Language.Bracketed.Code}";
}
