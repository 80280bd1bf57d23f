using ShopFluids.Core.Limits;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Sheets;

/// <summary>Puts what was read into the words of the sheet.</summary>
internal sealed class HistorySheetMaker(ShopSetup setup, Sump sump, Sentences say, DateTime nowUtc)
{
    // Room at the right end of the charts for the word at now.
    private const double AxisAir = 0.03;

    private ShopFormat Format => say.Format;

    public HistorySheet Make(HistorySheetFacts facts, string printedBy, RecordHead head)
    {
        var stretches = LimitStretch.Over(setup, sump.Id, facts.Charges, facts.FromUtc, facts.ToUtc);
        var tables = new HistorySheetTables(setup, sump, say, nowUtc);
        var now = new HistorySheetNow(setup, sump, say, nowUtc);
        return new(
            Title(facts),
            now.Head(facts),
            now.Standing(facts.Standing),
            now.Charge(facts),
            LimitSets(stretches, facts.Charges.Count == 0 ? nowUtc : facts.Charges[0].FilledAtUtc),
            Trends(facts, stretches),
            tables.Flags(facts.History.Flags),
            tables.Readings(facts.History.Readings),
            tables.Movements(facts.History.Movements, facts.History.Doses),
            tables.Lots(facts.History.Movements),
            [.. nowUtc < facts.ToUtc ? tables.OpenTasks(facts.Standing?.Facts?.OpenTasks ?? []) : [], .. tables.Tasks(facts.History.Tasks)],
            SheetOrigin.Of(setup, nowUtc, printedBy, head))
        {
            CleanOuts = tables.CleanOuts(facts.History.CleanOuts),
        };
    }

    private HistorySheetTitle Title(HistorySheetFacts facts) => new(
        sump.Tag,
        Format.Say(Texts.Sheet_Title, sump.Tag),
        string.Join(", ", setup.MachinesOf(sump).Select(m => $"{m.Tag} {m.Name}")),
        setup.Area(sump.AreaId).Name,
        new SheetPeriod(facts.From, facts.To).Words(Format),
        setup.Site?.Name ?? "");

    private HistorySheetTrends Trends(HistorySheetFacts facts, IReadOnlyList<LimitStretch> stretches)
    {
        var isRunning = nowUtc < facts.ToUtc;
        var end = isRunning ? nowUtc + ((nowUtc - facts.FromUtc) * AxisAir) : facts.ToUtc;
        end = end > facts.ToUtc ? facts.ToUtc : end;
        return new TrendBuilder(setup, sump, say).Build(facts.History, stretches, facts.FromUtc, end, isRunning ? nowUtc : null);
    }

    /// <summary>The versions that judged, the latest first; the same version with another fluid between is one.</summary>
    /// <param name="firstFillUtc">Limits may be older than the sump; on its sheet they begin with its first fill.</param>
    private List<HistorySheetLimitSet> LimitSets(IReadOnlyList<LimitStretch> stretches, DateTime firstFillUtc)
    {
        var isRunning = stretches.Count > 0 && stretches[^1].ToUtc > nowUtc;
        return [.. stretches.Reverse().Where(s => s.Limits.Limits.Count > 0).DistinctBy(s => (s.Limits.OfSump?.Id, s.Limits.OfFluid?.Id)).Select((s, n) => new HistorySheetLimitSet(
            Version(s.Limits),
            Format.LongDay(ValidFrom(s.Limits) is var from && from > firstFillUtc ? from : firstFillUtc),
            n == 0 && isRunning ? null : Format.LongDay(s.ToUtc),
            [.. s.Limits.Limits
                .Select(l => (Limits: l, Parameter: setup.FindParameter(l.Parameter)))
                .OrderBy(l => l.Parameter?.Order).ThenBy(l => l.Limits.Basis)
                .SelectMany(l => l.Parameter is { } parameter ? new[] { Row(parameter, l.Limits) } : [])]))];
    }

    private string Version(LimitsInForce limits) => (limits.OfSump, limits.OfFluid) switch
    {
        ({ } own, { } fluid) => Format.Say(Texts.Sheet_VersionOwnAndFluid, Format.Count(own.Number), Format.Count(fluid.Number)),
        ({ } own, null) => Format.Count(own.Number),
        (null, var fluid) => Format.Count(fluid?.Number ?? 0),
    };

    private static DateTime ValidFrom(LimitsInForce limits) =>
        new[] { limits.OfSump?.ValidFromUtc, limits.OfFluid?.ValidFromUtc }.OfType<DateTime>().Max();

    private HistorySheetLimitRow Row(Parameter parameter, ParameterLimits limits)
    {
        string? Limit(decimal? value) => value is { } number ? say.Cell(parameter, (double)number) : null;
        var isDrop = limits.Basis == LimitBasis.DropFromFirstFill;
        return new(
            isDrop ? Format.Say(Texts.Sheet_DropFromFirstFill, say.Heading(parameter)) : say.Heading(parameter),
            Method(parameter, isDrop),
            Limit(limits.ActionLow),
            Limit(limits.WarningLow),
            Format.Range(Limit(limits.TargetLow), Limit(limits.TargetHigh)),
            Limit(limits.WarningHigh),
            Limit(limits.ActionHigh));
    }

    // Where a value is read as it stands, there is no method to name.
    private static string Method(Parameter parameter, bool isDrop) =>
        !isDrop && Readings.MeasuringMethod.For(parameter)[0].Code is var code && code != Readings.MeasuringMethod.Direct ? Sentences.Method(code) : "";
}
