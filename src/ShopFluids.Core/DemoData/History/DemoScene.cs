using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Record;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.DemoData.History;

/// <summary>What all parts of the history share: the commands, their clock, the people, the days.</summary>
/// <param name="Today">The shop day on which the history ends.</param>
internal sealed record DemoScene(DemoSeed Seed, DemoCommands Commands, SteppedTime Time, ShopCalendar Calendar, DateOnly Today, IReadOnlyDictionary<string, Actor> People)
{
    public DateOnly FirstDay => Today.AddDays(-7 * Seed.Weeks);

    public Actor Supervisor => People[Seed.People.First(p => p.Roles.Contains(Core.People.Roles.Supervisor)).SignInName];

    public DateOnly Day(int fromToday) => Today.AddDays(fromToday);

    public int FromToday(DateOnly day) => day.DayNumber - Today.DayNumber;

    /// <summary>What holds at a sump on a day; the value given when nothing does.</summary>
    public double Condition(string sump, ConditionKind kind, DateOnly day, double otherwise) =>
        Seed.Story.Conditions.FirstOrDefault(c => c.Sump == sump && c.Kind == kind && c.From <= FromToday(day) && c.To >= FromToday(day))?.Value ?? otherwise;

    /// <summary>The events of a day; those of the closed days after it come with them.</summary>
    public IEnumerable<StoryEvent> EventsOn(DateOnly day) =>
        Seed.Story.Events.Where(e => e.Day < 0 && OpenDays.OnOrBefore(Day(e.Day), Calendar) == day);

    /// <summary>The doses of a day; those of the closed days after it come with them.</summary>
    public IEnumerable<DoseSeed> DosesOn(DateOnly day) => Seed.Story.Doses.Where(d => OpenDays.OnOrBefore(Day(d.Day), Calendar) == day);

    /// <summary>Who walks past a sump: the usual operator of its area, now and then another.</summary>
    public Actor OperatorOf(SumpModel sump)
    {
        var operators = Seed.Areas.First(a => a.Name == sump.Seed.Area).Operators;
        return People[operators[sump.Chance.Happens(0.85) ? 0 : operators.Count - 1]];
    }
}
