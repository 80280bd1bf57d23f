using ShopFluids.EndToEnd.Tests.Browser;

namespace ShopFluids.EndToEnd.Tests.Looks;

/// <summary>Gloves: whatever is pressed on the shop floor is at least 48 by 48 pixels.</summary>
internal static class SmallTargets
{
    // A control inside a label is pressed on the label. Left out: what only screen readers see, and links inside a sentence.
    private const string Small = """
        () => {
          const least = 48 - 0.01;
          const hidden = e => !e.checkVisibility({ visibilityProperty: true }) || e.closest('[aria-hidden=true]') || e.matches('.vh');
          const inSentence = e => e.matches('a') && getComputedStyle(e).display === 'inline'
            && [...e.parentNode.childNodes].some(n => n.nodeType === Node.TEXT_NODE && n.textContent.trim());
          return [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
            .filter(e => !hidden(e) && !inSentence(e))
            .map(e => ({ e, box: (e.closest('label') ?? e).getBoundingClientRect() }))
            .filter(t => t.box.width < least || t.box.height < least)
            .map(t => `${t.box.width.toFixed(1)} x ${t.box.height.toFixed(1)}: ${t.e.outerHTML.slice(0, 160)}`);
        }
        """;

    public static async Task<IReadOnlyList<string>> FindAsync(Visit visit) => await visit.Page.EvaluateAsync<string[]>(Small);
}
