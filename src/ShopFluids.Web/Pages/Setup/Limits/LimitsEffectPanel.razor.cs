using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Limits.Effects;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Limits;

public sealed partial class LimitsEffectPanel
{
    private IReadOnlyList<ParameterLimits>? _shown;
    private LimitsPast? _shownPast;
    private LimitsEffect? _effect;
    private HistorySheetTrends? _trends;

    [Parameter, EditorRequired]
    public required DeskWords Words { get; set; }

    /// <summary>Null while there is none to try on.</summary>
    [Parameter, EditorRequired]
    public required LimitsPast? Past { get; set; }

    /// <summary>Null while a box of the draft cannot be read.</summary>
    [Parameter, EditorRequired]
    public required IReadOnlyList<ParameterLimits>? Drafted { get; set; }

    private IReadOnlyList<SumpEffect> Changed => [.. (_effect?.Sumps ?? []).Where(s => s.Changed > 0)];

    private string Lead => _effect switch
    {
        null => Texts.Setup_EffectUnknown,
        { Readings: 0 } => Words.Format.Say(Texts.Setup_EffectNoReadings, Words.Format.Count(LimitsPastQuery.Days)),
        { Changed: 0 } none => Words.Format.Say(Texts.Setup_EffectNone, Words.Format.Count(none.Readings)),
        var some => Words.Format.Say(
            Texts.Setup_EffectSome, Words.Format.Count(some.Changed), Words.Format.Count(some.Readings), Words.Format.Count(some.Sumps.Sum(s => s.Worse)), Words.Format.Count(some.Sumps.Sum(s => s.Better))),
    };

    // Judging a season of readings again is not done with every key, only with another draft.
    protected override void OnParametersSet()
    {
        if (ReferenceEquals(_shown, Drafted) && ReferenceEquals(_shownPast, Past))
        {
            return;
        }

        (_shown, _shownPast) = (Drafted, Past);
        _effect = Past is { } past && Drafted is { } drafted ? past.Under(drafted) : null;
        _trends = Past is { } all && Drafted is { } limits ? all.Trends(limits, Words.Sentences) : null;
    }

    private string Change(int now, int then) => now == then
        ? Words.Format.Count(now)
        : Words.Format.Say(Texts.Setup_EffectNowThen, Words.Format.Count(now), Words.Format.Count(then));
}
