using ShopFluids.Calculations.Upkeep;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Sumps;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>Shutdowns, the latest first.</summary>
/// <param name="Choices">The whole shop, then each sump.</param>
/// <param name="Work">What is planned for those that are planned or stand.</param>
public sealed record ShutdownsView(DeskWords Words, IReadOnlyList<ShutdownRow> Rows, IReadOnlyList<Choice> Choices, ShutdownLimits Thresholds, ILookup<Guid, SumpShutdownWork> Work)
{
    /// <summary>Those whose work is shown, the next first.</summary>
    public IEnumerable<ShutdownRow> Coming => Rows.Where(r => r.State is ShutdownState.Planned or ShutdownState.Standing).Reverse();

    public static ShutdownsView Of(DeskWords words, DateOnly today, ILookup<Guid, SumpShutdownWork> work)
    {
        ArgumentNullException.ThrowIfNull(words);
        ArgumentNullException.ThrowIfNull(work);
        return new(
            words,
            [.. words.Setup.Shutdowns.OrderByDescending(s => s.FirstDay).ThenBy(s => s.Id).Select(s => ShutdownRow.Of(s, words, today))],
            [new Choice("", Texts.Setup_ShutdownShop), .. SumpChoices.Sumps(words.Setup)],
            new ShutdownLimits(),
            work);
    }
}

/// <param name="Name">The tag of the sump, or the whole shop.</param>
public sealed record ShutdownRow(Guid Id, string Name, DateOnly FirstDay, DateOnly LastDay, int Days, string Reason, ShutdownState State)
{
    public static ShutdownRow Of(Shutdown shutdown, DeskWords words, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(shutdown);
        ArgumentNullException.ThrowIfNull(words);
        return new(
            shutdown.Id,
            shutdown.SumpId is { } id ? words.Setup.FindSump(id)?.Tag ?? "" : Texts.Setup_ShutdownShop,
            shutdown.FirstDay,
            shutdown.LastDay,
            shutdown.ToFacts().Days,
            shutdown.Reason,
            shutdown.StateOn(today));
    }

    public string About(ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return format.Say(Texts.Setup_ShutdownAbout, Name, format.LongDay(FirstDay));
    }
}

/// <summary>A shutdown as it is being typed.</summary>
public sealed class ShutdownDraft(Guid id)
{
    public Guid Id { get; } = id;

    /// <summary>Empty for the whole shop.</summary>
    public string SumpTag { get; set; } = "";

    public string FirstDay { get; set; } = "";

    public string LastDay { get; set; } = "";

    public string Reason { get; set; } = "";
}
