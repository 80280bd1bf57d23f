using ShopFluids.EndToEnd.Tests.Browser;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Whether a page has to be pushed sideways.</summary>
internal static class PageWidth
{
    private static readonly int[] Widths = [360, 800, 1440];

    // Names the innermost parts that stick out; what scrolls within a box of its own does not.
    private const string Overflow = """
        () => {
          const width = document.documentElement.clientWidth;
          if (document.documentElement.scrollWidth <= width) { return []; }
          const scrolls = e => { for (let p = e.parentElement; p; p = p.parentElement) { if (/auto|scroll|hidden|clip/.test(getComputedStyle(p).overflowX)) { return true; } } return false; };
          const out = [...document.body.querySelectorAll('*')].filter(e => e.getBoundingClientRect().right > width + 1 && !scrolls(e));
          return [`${document.documentElement.scrollWidth} px`, ...out.filter(e => !out.some(o => o !== e && e.contains(o))).slice(0, 5).map(e => e.outerHTML.slice(0, 160))];
        }
        """;

    public static async Task<IReadOnlyList<string>> OverflowsAsync(Visit visit)
    {
        var found = new List<string>();
        foreach (var width in Widths)
        {
            await visit.SizeAsync(width, 900);
            found.AddRange((await visit.Page.EvaluateAsync<string[]>(Overflow)).Select(o => $"{width}: {o}"));
        }

        return found;
    }
}
