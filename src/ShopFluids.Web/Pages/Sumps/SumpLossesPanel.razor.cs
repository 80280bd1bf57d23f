using Microsoft.AspNetCore.Components;
using ShopFluids.Calculations.Balances;
using ShopFluids.Core.Sumps.Losses;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Web.Pages.Board;

namespace ShopFluids.Web.Pages.Sumps;

/// <summary>The mass balance of the charge in words and figures; says plainly what it cannot say, and what is missing.</summary>
public sealed partial class SumpLossesPanel
{
    private ElementReference _title;

    [Parameter, EditorRequired]
    public required SumpView View { get; set; }

    [Inject]
    public required NavigationManager Address { get; init; }

    // Whoever comes by the link of a flag: the router looks for the place before the page has been read, and then there is none yet.
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (firstRender && View.Page.Losses is not null && Address.Uri.EndsWith($"#{SumpAddress.LossesPlace}", StringComparison.Ordinal))
        {
            await _title.FocusAsync();
        }
    }

    private ShopFormat Format => View.Format;

    private string? Span => View.Page.Losses?.Losses is { From: { } from, To: { } to, Balance: not null } losses
        ? Format.Say(Texts.Losses_Span, Format.ShortDay(from), Format.ShortDay(to), Format.Count(losses.Readings))
        : null;

    private string Gap(ChargeLosses losses) => losses.Gap switch
    {
        LossesGap.TooFewReadings => Format.Say(Texts.Losses_TooFew, Format.Count(losses.Readings)),
        LossesGap.TooShort => Format.Say(Texts.Losses_TooShort, Format.Number(ChargeLosses.LeastDays, 0)),
        _ => Texts.Losses_NoConcentrate,
    };

    private string Terms(SumpLosses found) => string.Join(' ', new[]
    {
        Format.Say(Texts.Losses_Terms, Format.Volume(found.Losses.PutInLitres), Format.Volume(found.Losses.TakenOutLitres)),
        found.WeeklyHours > 0 ? Format.Say(Texts.Losses_Hours, Format.Number(found.WeeklyHours, 0)) : Texts.Losses_NoHours,
    });

    private string Closes(ChargeBalance balance) =>
        balance.Finding.Fault != BalanceFault.None ? $"{BalanceWords.Fault(balance.Finding.Fault)} {Format.Say(Texts.Bench_BalanceCauses, BalanceWords.Causes(balance.Finding))}"
        : IsUncertain(balance) ? Texts.Losses_Uncertain
        : View.Page.Open.Flags.Any(f => f.Rule == BalanceRule.RuleCode) ? Texts.Losses_ClosesInAll
        : Texts.Bench_BalanceCloses;

    // Where neither loss stands out of its give-or-take, the figures are no more than a size.
    private static bool IsUncertain(ChargeBalance balance) =>
        Math.Abs(balance.EvaporationLitres.Value) < balance.EvaporationLitres.ExpandedUncertainty
        && Math.Abs(balance.CarryOffLitres.Value) < balance.CarryOffLitres.ExpandedUncertainty;

    private string Hardness(HardnessOutlook hardness) => hardness.Gap switch
    {
        HardnessGap.NoWater => Texts.Losses_NoWater,
        HardnessGap.NoLosses => Texts.Losses_NoLosses,
        HardnessGap.BadBalance => Texts.Losses_BadBalance,
        _ => string.Join(' ', HardnessSentences(hardness)),
    };

    private IEnumerable<string> HardnessSentences(HardnessOutlook hardness)
    {
        yield return hardness.Measured is { } measured
            ? Format.Say(Texts.Losses_HardnessMeasured, Format.Hardness((double)measured.Value), Format.ShortDay(measured.TakenAt), Format.Hardness(hardness.NowMgPerLitre), Format.Hardness(hardness.WaterMgPerLitre))
            : Format.Say(Texts.Losses_HardnessReckoned, Format.Hardness(hardness.NowMgPerLitre), Format.Hardness(hardness.WaterMgPerLitre));
        yield return hardness.EndMgPerLitre is { } end ? Format.Say(Texts.Bench_HardnessEnd, Format.Hardness(end)) : Texts.Bench_HardnessNoEnd;
        if (hardness.LimitMgPerLitre is { } limit)
        {
            yield return hardness.DaysToLimit switch
            {
                null => Format.Say(Texts.Losses_LimitNever, Format.Hardness(limit)),
                0 => Format.Say(Texts.Losses_LimitOver, Format.Hardness(limit)),
                var days => Format.Say(Texts.Losses_LimitIn, Format.Hardness(limit), Format.Number(Math.Min(days.Value, 999_999), 0)),
            };
        }
    }
}
