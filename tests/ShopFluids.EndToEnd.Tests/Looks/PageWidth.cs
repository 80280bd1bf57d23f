using ShopFluids.EndToEnd.Tests.Browser;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Whether a page has to be pushed sideways, or stands so narrow in a place that nobody can read it.</summary>
internal static class PageWidth
{
    private static readonly int[] Widths = [360, 800, 1200, 1440];

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

    // A sentence with a letter or a word on each line; a box for several lines that takes a word.
    private const string Squeezed = """
        () => {
          const says = e => [...e.childNodes].filter(n => n.nodeType === Node.TEXT_NODE).map(n => n.textContent.trim()).join(' ').length;
          const seen = e => e.checkVisibility({ visibilityProperty: true }) && !e.matches('.vh');
          return [...document.body.querySelectorAll('p, li, td, label, span, div, textarea')]
            .filter(e => seen(e) && (e.matches('textarea') ? e.getBoundingClientRect().width < 160 : says(e) >= 40 && e.clientWidth > 0 && e.clientWidth < 48))
            .slice(0, 5).map(e => `squeezed to ${e.clientWidth} px: ${e.outerHTML.slice(0, 160)}`);
        }
        """;

    public static async Task<IReadOnlyList<string>> FaultsAsync(Visit visit)
    {
        var found = new List<string>();
        foreach (var width in Widths)
        {
            await visit.SizeAsync(width, 900);
            found.AddRange((await visit.Page.EvaluateAsync<string[]>(Overflow)).Select(o => $"{width}, sticks out: {o}"));
            found.AddRange((await visit.Page.EvaluateAsync<string[]>(Squeezed)).Select(o => $"{width}, {o}"));
        }

        return found;
    }
}
