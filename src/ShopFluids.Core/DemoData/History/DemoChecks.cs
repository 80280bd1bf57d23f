using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Instruments;
using ShopFluids.Rules.InstrumentCheck;

namespace ShopFluids.Core.DemoData.History;

/// <summary>The checks of refractometers and pH meters: one a week, up to the day of the last that the seed names.</summary>
internal sealed class DemoChecks(DemoScene scene)
{
    private const int DaysBetween = 7;
    private const int Weeks = 9;
    private const decimal StrongerBuffer = 10.01m;
    private const decimal NeutralBuffer = 7.00m;
    private const decimal SugarBrix = 10;

    private readonly DemoChance _chance = new(scene.Seed.Chance, "checks");

    public async Task NoteAsync(DateOnly day, CancellationToken cancellationToken)
    {
        var due = scene.Seed.Instruments.Where(i => i.Kind is InstrumentKind.Refractometer or InstrumentKind.PhMeter && IsCheckedOn(i, scene.FromToday(day))).ToList();
        if (due.Count == 0)
        {
            return;
        }

        var setup = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        foreach (var seed in due)
        {
            var id = setup.Instruments.Single(i => i.Tag == seed.Tag).Id;
            var check = new NoteInstrumentCheck(_chance.NewId(scene.Time.UtcNow), id, day)
            {
                First = Read(seed, seed.Kind == InstrumentKind.PhMeter ? NeutralBuffer : 0),
                Second = Read(seed, seed.Kind == InstrumentKind.PhMeter ? StrongerBuffer : SugarBrix),
            };
            (await scene.Commands.NoteInstrumentCheck.HandleAsync(check, scene.Supervisor, cancellationToken)).Done();
        }
    }

    private static bool IsCheckedOn(InstrumentSeed instrument, int fromToday)
    {
        var before = instrument.CheckedDay - fromToday;
        return before >= 0 && before < DaysBetween * Weeks && before % DaysBetween == 0;
    }

    // Within half of the stated accuracy, on the steps of the scale.
    private CheckPoint Read(InstrumentSeed seed, decimal standard)
    {
        var scatter = (decimal)_chance.Scatter((double)seed.Accuracy / 4);
        var bounded = Math.Clamp(scatter, -seed.Accuracy / 2, seed.Accuracy / 2);
        return new(standard, decimal.Round((standard + bounded) / seed.Resolution) * seed.Resolution);
    }
}
