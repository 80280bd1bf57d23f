using System.Collections.Concurrent;
using Microsoft.AspNetCore.Components;
using ShopFluids.Rules;

namespace ShopFluids.Web.Components.Shared;

/// <summary>
/// The marks of the sprite. They say nothing to a screen reader: their word stands beside them. Hundreds stand on a board, hence markup that is written once
/// and not a component for each, which every open page would hold in memory.
/// </summary>
public static class Mark
{
    private static readonly ConcurrentDictionary<string, MarkupString> Written = new(StringComparer.Ordinal);

    /// <param name="id">The mark's id in the sprite.</param>
    public static MarkupString Of(string id) =>
        Written.GetOrAdd(id, static id => new($"""<svg class="m" viewBox="0 0 24 24" aria-hidden="true"><use href="#{id}"></use></svg>"""));

    /// <summary>One of the five of the verdicts.</summary>
    public static MarkupString Of(Verdict verdict, Direction direction = Direction.None, bool isLate = false) => Of(VerdictLook.Symbol(verdict, direction, isLate));
}
