using ShopFluids.Core.Charges;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Judging;

namespace ShopFluids.Core.Sumps;

/// <summary>What a sump holds by the record, L, and what that is to be thought of.</summary>
/// <param name="Litres">The level that was read last and what was moved since, L.</param>
/// <param name="FullLitres">What it holds at its full mark, L.</param>
/// <param name="LevelReadAtUtc">When the level was read from which it is reckoned; null before the first reading of one.</param>
/// <param name="IsReckoned">Something was moved since: nobody has seen this level.</param>
/// <param name="Verdict">Of the level as read; of a reckoned one, of the level at which it would stand.</param>
/// <param name="Direction">The side of <paramref name="Verdict"/>.</param>
public sealed record SumpVolume(double Litres, double FullLitres, DateTime? LevelReadAtUtc, bool IsReckoned, Verdict Verdict, Direction Direction)
{
    /// <summary>By how much it stands above the full mark, L; null where that is not worth a word.</summary>
    public double? OverTheMarkLitres => Litres - FullLitres is var over and > AdditionDoubts.SlightLitres ? over : null;

    /// <summary>The verdict in words. Of a level that nobody has seen it is what a reading would say: no flag stands for it.</summary>
    public string Words(ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        var verdict = Sentences.Verdict(Verdict, Direction);
        return IsReckoned && Verdict > Verdict.InRange ? format.Say(Texts.Sump_VolumeWouldBe, verdict) : verdict;
    }

    /// <summary>Null of an empty sump and of one of which no level was ever known.</summary>
    internal static SumpVolume? Of(ShopSetup setup, Sump sump, Charge charge, Standing? standing, DateTime atUtc)
    {
        if (standing is not { VolumeLitres: { } litres, Facts: { } facts })
        {
            return null;
        }

        var full = sump.Geometry.VolumeLitresAt((double)sump.FullMarkMm);
        if (facts.Latest.GetValueOrDefault(ParameterCodes.Level) is { } read && !(facts.LastMovedAt > read.TakenAt))
        {
            return new(litres, full, read.TakenAt, false, read.Verdict, read.Direction);
        }

        var standsAt = decimal.Round((decimal)sump.StandingLevelMm(litres), setup.FindParameter(ParameterCodes.Level)?.Decimals ?? 0, MidpointRounding.AwayFromZero);
        var level = new MeasurementFacts(ParameterCodes.Level, "", standsAt, 0);
        var judged = MeasurementJudge.Judge(level, setup.LimitsAt(sump.Id, charge.FluidId, atUtc).Limits, facts.FirstFillPh);
        var reckoned = new SumpVolume(litres, full, facts.Latest.GetValueOrDefault(ParameterCodes.Level)?.TakenAt, true, judged.Verdict, judged.Direction);

        // What drains back when the pump stops may spill, whether or not the limits know a highest level. Common practice, no source.
        return reckoned is { OverTheMarkLitres: not null, Verdict: <= Verdict.InRange } ? reckoned with { Verdict = Verdict.Warning, Direction = Direction.High } : reckoned;
    }
}
