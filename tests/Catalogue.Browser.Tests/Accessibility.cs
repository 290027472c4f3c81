using Microsoft.Playwright;

namespace Catalogue.Browser.Tests;

/// <summary>What axe-core (npm) finds against WCAG 2.0 to 2.2, levels A and AA, and against its own good practice. No page has frames, so it runs in the page itself.</summary>
internal static class Accessibility
{
    private static readonly Lazy<Task<string>> Axe = new(() => PageCheckers.ReadAsync("axe-core", "axe.min.js"));

    /// <summary>One sentence per violation, with the elements.</summary>
    /// <param name="contrast">Not where the colours are the reader's own.</param>
    public static async Task<IEnumerable<string>> ViolationsAsync(IPage page, string where, bool contrast = true)
    {
        await page.EvaluateAsync(await Axe.Value + "; undefined");
        return await page.EvaluateAsync<string[]>("""
            async ({ where, contrast }) => {
              const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
              const { violations, passes } = await axe.run({ runOnly: tags, rules: { 'color-contrast': { enabled: contrast } } });
              if (passes.length === 0) return [where + ': nothing was looked at'];
              return violations.map(broken => `${where}: ${broken.id}: ${broken.help}: ${broken.nodes.map(node => node.html).join(' | ')}`);
            }
            """, new { where, contrast });
    }

    /// <summary>What a change of colours alone can break, on a page that <see cref="ViolationsAsync"/> has looked at: axe is still there, and only its rules on contrast run.</summary>
    public static async Task<IEnumerable<string>> ContrastViolationsAsync(IPage page, string where) => await page.EvaluateAsync<string[]>("""
        async where => {
          const { violations, passes } = await axe.run({ runOnly: ['color-contrast'] });
          if (violations.length + passes.length === 0) return [where + ': no contrast was measured'];
          return violations.flatMap(broken => broken.nodes.map(node => where + ': ' + broken.help + ': ' + node.html));
        }
        """, where);
}
