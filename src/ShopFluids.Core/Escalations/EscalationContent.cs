using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Escalations;

/// <summary>What a message says, as it was when the flags were marked: sent again, it says the same. Immutable.</summary>
public sealed record EscalationContent(string Shop, IReadOnlyList<EscalatedFlag> Flags)
{
    /// <summary>The flags that one act marked, the worst first; in the site's culture and units.</summary>
    internal static async Task<EscalationContent> OfAsync(ShopFluidsDbContext db, ShopSetup setup, IReadOnlyList<Flag> ofSumps, IReadOnlyList<ShopFlag> ofShop, CancellationToken cancellationToken)
    {
        var say = new Sentences(setup.FormatFor(), setup);
        var named = await ShopFlagsQuery.NamedAsync(db, setup, ofShop, cancellationToken);
        var flags = ofSumps.Select(f => Of(f, setup.FindSump(f.SumpId)?.Tag ?? "", say)).Concat(named.Select(f => Of(f, say)));
        return new(setup.Site?.Name ?? "", [.. flags.OrderByDescending(f => f.Severity).ThenBy(f => f.RaisedAtUtc).ThenBy(f => f.Id)]);
    }

    private static EscalatedFlag Of(Flag flag, string tag, Sentences say) => new(
        flag.Id, tag, tag, flag.Rule, flag.Parameter, flag.Severity, flag.RaisedAtUtc, say.Format.DayAndTime(flag.RaisedAtUtc), say.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers));

    private static EscalatedFlag Of(ListedShopFlag flag, Sentences say) => new(
        flag.Id, null, flag.Subject, flag.Rule, flag.Aspect, flag.Severity, flag.RaisedAtUtc, say.Format.DayAndTime(flag.RaisedAtUtc), say.ShopFlag(flag));
}

/// <param name="SumpTag">Null for a flag of the shop.</param>
/// <param name="Subject">The tag of the sump or instrument, the number of the lot, or the name of the fluid.</param>
/// <param name="About">The parameter of a flag of a sump, empty for the sump itself; the aspect of a flag of the shop.</param>
/// <param name="Since">When it was raised, as people read it.</param>
public sealed record EscalatedFlag(Guid Id, string? SumpTag, string Subject, string Rule, string About, Verdict Severity, DateTime RaisedAtUtc, string Since, string Text);
