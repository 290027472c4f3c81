using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Catalogue.Browser.Tests;

/// <summary>What axe-core finds against WCAG 2.0 to 2.2, levels A and AA, and against its own good practice.</summary>
internal static class Accessibility
{
    private static readonly AxeRunOptions Rules = new()
    {
        RunOnly = new() { Type = "tag", Values = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
    };

    /// <summary>One sentence per violation, with the elements.</summary>
    public static async Task<IEnumerable<string>> ViolationsAsync(IPage page, string where)
    {
        var result = await page.RunAxe(Rules);
        return result.Violations.Select(v => $"{where}: {v.Id}: {v.Help}: {string.Join(" | ", v.Nodes.Select(n => n.Html))}");
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
