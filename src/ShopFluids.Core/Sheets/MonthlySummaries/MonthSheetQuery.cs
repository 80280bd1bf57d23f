using ShopFluids.Core.Database;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;

namespace ShopFluids.Core.Sheets.MonthlySummaries;

/// <summary>The month has not begun yet.</summary>
public sealed record MonthNotBegun(DateOnly Month) : Error;

/// <summary>Fills the monthly summary, in the shop's own culture and units.</summary>
public sealed class MonthSheetQuery(ShopDatabase database, SetupCache setups, ShopClock clock)
{
    /// <param name="month">Any of its days; null for the month that goes on.</param>
    /// <param name="printedBy">The person's name.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    public async Task<Result<MonthSheet>> RunAsync(DateOnly? month, string printedBy, CancellationToken cancellationToken)
    {
        await using var db = await database.ReadAsync(cancellationToken);
        var setup = await setups.CurrentAsync(db, cancellationToken);
        var now = clock.UtcNow;
        var calendar = setup.Calendar;
        var first = month is { } named ? new DateOnly(named.Year, named.Month, 1) : calendar.MonthOf(now);
        if (first > calendar.ShopDayOf(now))
        {
            return new MonthNotBegun(first);
        }

        var period = new SheetPeriod(first, first.AddMonths(1).AddDays(-1));
        var (fromUtc, toUtc) = (period.FromUtc(calendar), period.ToUtc(calendar));
        var say = new Sentences(setup.FormatFor(), setup);
        return await RecordStand.ReadAsync(
            db,
            async head =>
            {
                var facts = await new MonthReader(db, setup, fromUtc, toUtc, now).ReadAsync(cancellationToken);
                var known = now < toUtc ? new SheetPeriod(first, calendar.ShopDayOf(now)) : period;
                var frame = SheetFrame.Of(setup, say.Format.Month(first), Texts.MonthSheet_Title, known.Words(say.Format), now, printedBy, head);
                return new MonthSheetMaker(setup, say).Make(frame, facts);
            },
            cancellationToken);
    }
}

internal sealed class MonthSheetMaker(ShopSetup setup, Sentences say)
{
    private ShopFormat Format => say.Format;

    public MonthSheet Make(SheetFrame frame, MonthFacts facts) => new(
        frame,
        Facts(facts),
        [.. facts.Use.Select(u => new MonthSheetUse(setup.Fluid(u.FluidId).Name, Litres(u.FillLitres), Litres(u.AddedLitres), Litres(u.WaterLitres), Litres(u.RemovedLitres), Cost([u])))],
        [.. facts.Tasks.Select(t => new MonthSheetWork(WorkSentences.Planned(t.Kind), Format.Count(t.Done), Format.Count(t.Late), Format.Count(t.Skipped), Format.Count(t.StillLate)))],
        [.. facts.Flags.Select(f => new MonthSheetFlags(RuleSentences.Name(f.Rule), Format.Count(f.Raised), Format.Count(f.Ended), Format.Count(f.Closed), Format.Count(f.Open)))],
        [.. facts.Charges.Select(c => new MonthSheetCharge(
            setup.FindSump(c.SumpId)?.Tag ?? "",
            Format.Count(c.Number),
            setup.Fluid(c.FluidId).Name,
            Format.LongDay(c.FilledAtUtc),
            Format.LongDay(c.DrainedAtUtc),
            Days(LifeOf(c)),
            Litres(c.Litres),
            c.IsStepByStep ? Texts.MonthSheet_StepByStep : Texts.Sheet_MovedDrain))]);

    private MonthSheetFacts Facts(MonthFacts facts)
    {
        var inUse = setup.Sumps.Count(s => !s.IsRetired);
        return new(
            Format.Volume((double)facts.Use.Sum(u => u.ConcentrateLitres)),
            Cost(facts.Use),
            Format.Count(facts.Readings),
            Format.Say(Texts.Sheet_PageOf, Format.Count(facts.SumpsRead), Format.Count(Math.Max(inUse, facts.SumpsRead))),
            Format.Say(Texts.Sheet_PageOf, Format.Count(facts.Charges.Count(c => c.IsStepByStep)), Format.Count(facts.Charges.Count)),
            facts.Charges.Count == 0 ? null : Days((int)Math.Round(facts.Charges.Average(LifeOf), MidpointRounding.AwayFromZero)));
    }

    private string Cost(IReadOnlyCollection<MonthUse> use) => Format.CostOf(use, setup.Site?.Currency ?? "");

    private int LifeOf(EndedCharge charge) => setup.Calendar.ShopDayOf(charge.DrainedAtUtc).DayNumber - setup.Calendar.ShopDayOf(charge.FilledAtUtc).DayNumber;

    private string Days(int days) => days == 1 ? Texts.Sheet_OneDay : Format.Say(Texts.Sheet_Days, Format.Count(days));

    private string Litres(decimal litres) => litres == 0 ? "" : Format.VolumeNumber((double)litres);
}
