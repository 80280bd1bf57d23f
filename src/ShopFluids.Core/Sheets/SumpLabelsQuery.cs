using System.Globalization;
using ShopFluids.Calculations.Concentrations;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets;

/// <summary>Fills the labels in the shop's own culture and units.</summary>
public sealed class SumpLabelsQuery(SetupCache setups, ShopClock clock)
{
    /// <param name="tags">The sumps; none of them stands for all that are in use.</param>
    /// <param name="addressOf">The whole address of a sump's entry page.</param>
    /// <returns>An error that names the first tag that there is not.</returns>
    public async Task<Result<SumpLabels>> RunAsync(IReadOnlyList<string> tags, Func<string, string> addressOf, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(tags);
        ArgumentNullException.ThrowIfNull(addressOf);
        var setup = await setups.CurrentAsync(cancellationToken);
        var sumps = tags.Count == 0 ? [.. setup.Sumps.Where(s => !s.IsRetired)] : new List<Sump>();
        foreach (var tag in tags)
        {
            if (setup.FindSump(tag) is not { } sump)
            {
                return new SumpNotFound(tag);
            }

            sumps.Add(sump);
        }

        var (say, now) = (new Sentences(setup.FormatFor(), setup), clock.UtcNow);
        return new SumpLabels(
            setup.Site?.Name ?? "",
            now,
            CultureInfo.CurrentUICulture.TwoLetterISOLanguageName,
            [.. sumps.Select(s => Label(setup, say, s, addressOf(s.Tag), now))]);
    }

    private static SumpLabel Label(ShopSetup setup, Sentences say, Sump sump, string code, DateTime nowUtc)
    {
        var format = say.Format;
        var place = SumpPlace.Of(setup, sump, null);
        var fluid = setup.OpenCharge(sump.Id) is { } charge ? setup.Fluid(charge.FluidId) : null;
        var limits = fluid is null ? null : GaugeLimits.For(ParameterCodes.Concentration, setup.LimitsAt(sump.Id, fluid.Id, nowUtc).Limits, firstFillPh: null);
        decimal? Scale(decimal? percent) => percent is { } value && fluid is not null
            ? decimal.Round((decimal)Refractometry.ReadingAt((double)value, (double)(setup.Water(sump)?.ZeroBrix ?? 0), (double)fluid.RefractometerFactor), 1, MidpointRounding.AwayFromZero)
            : null;
        var gauge = limits is null ? null : Gauge(format, Scale(limits.ActionLow), Scale(limits.WarningLow), Scale(limits.TargetLow), Scale(limits.TargetHigh), Scale(limits.WarningHigh), Scale(limits.ActionHigh));
        return new(
            sump.Tag,
            code,
            place.MachineCount > 1 ? format.Say(Texts.Round_Central, format.Count(place.MachineCount)) : $"{place.MachineTag} {place.MachineName}".Trim(),
            place.AreaName,
            fluid?.Name,
            limits is { TargetLow: { } low, TargetHigh: { } high } ? $"{format.Say(Texts.Time_FromTo, format.Number(low, 1), format.Number(high, 1))} %" : null,
            gauge is { TargetLow: { } from, TargetHigh: { } to } ? format.Say(Texts.Time_FromTo, format.Number(from, 1), format.Number(to, 1)) : null,
            format.Say(Texts.Label_FullMark, format.Length((double)sump.FullMarkMm), format.Volume(sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm))),
            format.Length((double)sump.PumpIntakeMm),
            gauge);
    }

    private static LabelGauge Gauge(ShopFormat format, decimal? actionLow, decimal? warningLow, decimal? targetLow, decimal? targetHigh, decimal? warningHigh, decimal? actionHigh) =>
        new(actionLow, warningLow, targetLow, targetHigh, warningHigh, actionHigh, [.. new[] { warningLow, targetLow, targetHigh }.OfType<decimal>().Select(v => new LabelGaugeMark(v, format.Number(v, 1)))]);
}
