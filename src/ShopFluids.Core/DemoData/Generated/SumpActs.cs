using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>
/// What is done to one sump, with what the shop's rules make of it: the same as the shop's commands store, worked out in memory. Tests hold it
/// against the proof of the record and against a replay of the rules.
/// </summary>
internal sealed class SumpActs(ShopSetup setup, Sump sump, SumpModel model)
{
    public SumpModel Model => model;

    public Sump Sump => sump;

    public SumpMemory Memory { get; } = new();

    public GeneratedTroubles Troubles { get; } = new(model.Chance);

    private ShopCalendar Calendar => setup.CalendarFor(sump.Id);

    /// <summary>The open tasks that are due on a day or before.</summary>
    public List<OpenTask> DueOn(DateOnly day) => [.. Memory.Tasks.Select(t => t.ToOpen()).Where(t => CareSchedule.DueDayOf(t.DueAt, Calendar) <= day)];

    /// <param name="lot">Already drawn from.</param>
    public SumpAct Fill(DateTime now, Actor by, decimal waterLitres, decimal concentrateLitres, FluidLot? lot)
    {
        var fluid = setup.Fluids.Single(f => f.Name == model.Fluid.Data.Name).Id;
        var charge = new Charge(NewId(now), sump.Id, fluid, Memory.Number + 1, now, waterLitres + concentrateLitres);
        var addition = new Addition(NewId(now), charge.Id, now, waterLitres, concentrateLitres, lot?.Id, null, PersonOf(by), null);
        var planned = Memory.Tasks.Select(t => t.Cause).ToHashSet(StringComparer.Ordinal);
        var tasks = setup.StepsOf(sump.Id).Where(s => !planned.Contains(CareSchedule.CauseOf(s.Id)))
            .Select(s => Planned(now, CareSchedule.First(setup.FactsOf(s, sump.Id), null, now, Calendar))).ToList();
        Memory.Fill(charge);
        Memory.Move(addition, null);
        Memory.Settle([], tasks);
        return new(ActCodes.ChargeFilled, [charge, addition, .. tasks], Only(lot));
    }

    public (SumpAct Act, ReadingOutcome Outcome) Read(DateTime now, Actor by, IReadOnlyList<TypedMeasurement> measurements)
    {
        var command = new RecordReading(NewId(now), sump.Tag, now, "", measurements);
        var (worked, errors) = ReadingChecks.Check(command, setup, sump, Memory.OpenCharge, now, superseded: []);
        if (errors.Count > 0)
        {
            throw new InvalidOperationException($"The generated reading does not fit: {string.Join("; ", errors)}");
        }

        var judge = ReadingJudge.For(setup, sump, Memory.OpenCharge, now);
        var evaluation = judge.Judge(ReadingJudge.FactsOf(command, worked), Memory.Facts, Memory.HistoryAt(now), now);
        var outcome = ReadingJudge.Outcome(command.Id, worked, evaluation, Memory.Facts, () => NewId(now));
        var reading = ReadingConsequences.MakeReading(command, by, judge, now, worked, evaluation, outcome);
        var ended = outcome.Done.Concat(outcome.Withdrawn).Select(t => Memory.Task(t.Id)).ToList();
        var touched = new TouchedRows(
            [.. outcome.Cleared.Select(f => Memory.Flag(f.Id))],
            ended,
            evaluation.Recipe is null ? [] : [.. Memory.Tasks.Where(t => t.Kind == TaskKind.Adjust && !ended.Contains(t))]);
        var consequences = ReadingConsequences.Of(reading, outcome, evaluation, Memory.Facts, judge, touched, by, now);
        Memory.Read(reading);
        Memory.Settle(consequences.Raised, consequences.Made);
        return (new(
            ActCodes.ReadingStored,
            [reading, .. reading.Measurements, .. consequences.Raised, .. consequences.Made],
            [.. touched.Cleared, .. touched.Ended, .. touched.Adjustments]), outcome);
    }

    /// <param name="lot">Already drawn from.</param>
    public SumpAct Add(DateTime now, Actor by, DemoPour pour, FluidLot? lot, Guid readingId)
    {
        var (id, person) = (NewId(now), PersonOf(by));
        var removal = pour.RemovedLitres > 0 ? new Removal(id, Memory.OpenCharge.Id, now, pour.RemovedLitres, RemovalReasons.Swap, person) : null;
        var addition = new Addition(id, Memory.OpenCharge.Id, now, pour.WaterLitres, pour.ConcentrateLitres, lot?.Id, readingId, person, null);
        var adjusted = Memory.Tasks.Where(t => t.Kind == TaskKind.Adjust).ToList();
        adjusted.ForEach(t => t.End(TaskState.Done, now, by.PersonId));
        Memory.Move(addition, removal);
        Memory.Settle([], []);
        var retests = Retests(TaskKind.Adjust, now);
        Memory.Settle([], retests);
        return new(ActCodes.AdditionStored, [.. Only(removal), addition, .. retests], [.. Only(lot), .. adjusted]);
    }

    public SumpAct Drain(DateTime now, Actor by, decimal litres)
    {
        var charge = Memory.OpenCharge;
        charge.Drain(now);
        var removal = new Removal(NewId(now), charge.Id, now, litres, RemovalReasons.Drain, PersonOf(by));
        var flags = Memory.Flags.ToList();
        flags.ForEach(f => f.End(Flags.FlagEnd.ChargeEnded, now));
        var work = DrainedWork.Of(setup, sump.Id, [.. Memory.Tasks], now);
        work.End(now, by.PersonId);
        var next = work.Done.Concat(work.BeginAnew).Select(t => After(t, now)).OfType<CareTask>().ToList();
        Memory.Drain();
        Memory.Settle([], next);
        return new(ActCodes.ChargeDrained, [removal, .. next], [charge, .. flags, .. work.Done, .. work.Withdrawn]);
    }

    /// <summary>Work that is ticked off, with what is the same work.</summary>
    public SumpAct End(DateTime now, Actor by, OpenTask task)
    {
        var visits = SumpVisits.Of(setup, sump.Id, Memory.Tasks.Select(t => t.ToOpen()), now);
        var key = SameWork.KeyOf(task.Id, task.Kind, visits);
        var same = Memory.Tasks.Where(t => t.Id == task.Id || SameWork.KeyOf(t.Id, t.Kind, visits).Equals(key)).ToList();
        same.ForEach(t => t.End(TaskState.Done, now, by.PersonId));
        var next = same.Select(t => After(t, now)).OfType<CareTask>().ToList();
        Memory.Settle([], next);
        var retests = Retests(task.Kind, now);
        Memory.Settle([], retests);
        return new(ActCodes.TaskEnded, [.. next, .. retests], [.. same]);
    }

    /// <summary>What the passing of time alone raises; null when that is nothing.</summary>
    public SumpAct? Notice(DateTime now)
    {
        if (Memory.Charge is not { } charge || Memory.Tasks.All(t => t.DueAtUtc > now))
        {
            return null;
        }

        var tunings = setup.TuningsFor(sump.Id, charge.FluidId);
        var raised = RulesService.EvaluateClock(Memory.Facts, Calendar, tunings.ByRule, now);
        var flags = raised.Select(r => new Flags.Flag(NewId(now), sump.Id, charge.Id, r, null, now, null, tunings.NumbersOf(r.Rule))).ToList();
        var tasks = RulesService.WorkOfClock(raised, Memory.Facts.OpenTasks, Calendar, now).Select(t => Planned(now, t)).ToList();
        Memory.Settle(flags, tasks);
        return raised.Count == 0 ? null : new(ActCodes.OverdueNoticed, [.. flags, .. tasks], []);
    }

    private List<CareTask> Retests(TaskKind ended, DateTime now) =>
    [
        .. RetestAdvice.After(ended, Memory.Facts.OpenFlags, Memory.Facts.OpenTasks, Calendar, now)
            .Select(t => Planned(now, t, Memory.Flags.FirstOrDefault(f => CorrectiveWork.CauseOf(f.Rule, f.Parameter) == t.Cause)?.ReadingId)),
    ];

    private CareTask? After(CareTask ended, DateTime doneAtUtc) => setup.StepsOf(sump.Id).FirstOrDefault(s => s.Id == ended.StepId) is { } step
        ? Planned(doneAtUtc, CareSchedule.After(setup.FactsOf(step, sump.Id), ended.ToOpen(), doneAtUtc, Calendar))
        : null;

    private CareTask Planned(DateTime now, Rules.Findings.ProposedTask proposed, Guid? readingId = null) =>
        new(NewId(now), sump.Id, proposed.Kind, proposed.Cause, proposed.StepId, proposed.DueAt, now, readingId, null);

    private Guid NewId(DateTime now) => model.Chance.NewId(now);

    private static Guid PersonOf(Actor by) => by.PersonId ?? Guid.Empty;

    private static IReadOnlyList<object> Only(Entity? row) => row is null ? [] : [row];
}
