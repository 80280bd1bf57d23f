using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Charges;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;

namespace ShopFluids.Core.DemoData.History;

/// <summary>Visits to a sump: read it, and do what the advice says, mostly.</summary>
internal sealed class DemoVisits(DemoScene scene, DemoStores stores)
{
    private static readonly TimeSpan ToAdd = TimeSpan.FromMinutes(4);
    private static readonly TimeSpan ToNext = TimeSpan.FromMinutes(3);
    private readonly DemoReader _reader = new(scene);
    private readonly List<StoryEvent> _waiting = [];
    private readonly Dictionary<string, int> _tests = new(StringComparer.Ordinal);

    /// <summary>Keeps a note or a slip of the finger for the next reading of its sump.</summary>
    public void Expect(StoryEvent story) => _waiting.Add(story);

    /// <summary>A test with its parameters; afterwards the sump is topped up as the recipe says.</summary>
    public async Task TestAsync(SumpModel sump, IReadOnlyList<string> parameters, bool isTopUpLater, CancellationToken cancellationToken)
    {
        var by = scene.OperatorOf(sump);
        var measurements = parameters.Select(p => _reader.Read(sump, p)).ToList();
        _tests[sump.Seed.Tag] = _tests.GetValueOrDefault(sump.Seed.Tag) + 1;
        if (_tests[sump.Seed.Tag] % 4 == 0 && DemoReader.Titrate(sump) is { } titration)
        {
            measurements.Add(titration);
        }

        var outcome = await ReadAsync(sump, measurements, by, cancellationToken);
        if (outcome.Recipe is { } recipe && !isTopUpLater)
        {
            scene.Time.Advance(ToAdd);
            await TopUpAsync(sump, recipe, outcome, by, cancellationToken);
        }

        scene.Time.Advance(ToNext);
    }

    /// <summary>One parameter again, by another person.</summary>
    public async Task RepeatAsync(SumpModel sump, string parameter, CancellationToken cancellationToken)
    {
        await ReadAsync(sump, [_reader.Read(sump, parameter)], scene.Supervisor, cancellationToken);
        scene.Time.Advance(ToNext);
    }

    private async Task<ReadingOutcome> ReadAsync(SumpModel sump, List<TypedMeasurement> measurements, Actor by, CancellationToken cancellationToken)
    {
        var note = Take(sump, EventKind.Note)?.Text ?? "";
        if (Take(sump, EventKind.Mistype) is not { } slip)
        {
            return await StoreAsync(new(NewId(sump), sump.Seed.Tag, scene.Time.UtcNow, note, measurements), by, cancellationToken);
        }

        var taken = scene.Time.UtcNow;
        var wrong = measurements.ConvertAll(m => m.Method == MeasuringMethod.Refractometer ? m with { Value = decimal.Round((decimal)sump.Percent, 1), IsConfirmed = true } : m);
        var mistaken = await StoreAsync(new(NewId(sump), sump.Seed.Tag, taken, note, wrong), by, cancellationToken);
        scene.Time.Advance(ToAdd);
        return await StoreAsync(new(NewId(sump), sump.Seed.Tag, taken, note, measurements, mistaken.ReadingId, slip.Text), scene.Supervisor, cancellationToken);
    }

    private async Task<ReadingOutcome> StoreAsync(RecordReading command, Actor by, CancellationToken cancellationToken) =>
        (await scene.Commands.Read.HandleAsync(command, by, cancellationToken)).Done().Outcome;

    private async Task TopUpAsync(SumpModel sump, TopUpRecipe recipe, ReadingOutcome outcome, Actor by, CancellationToken cancellationToken)
    {
        var day = scene.Calendar.ShopDayOf(scene.Time.UtcNow);
        var pour = DemoPour.Of(sump, recipe, outcome.Verdict, scene.Condition(sump.Seed.Tag, ConditionKind.TopUp, day, DemoPour.Followed), scene.Condition(sump.Seed.Tag, ConditionKind.PlainWater, day, 0) > 0);
        if (pour is null)
        {
            return;
        }

        var (water, concentrate, removed) = pour;
        var lot = stores.Draw(sump.Fluid.Data.Name, concentrate, day);
        (await scene.Commands.Add.HandleAsync(
            new RecordAddition(NewId(sump), sump.Seed.Tag, scene.Time.UtcNow, water, concentrate, removed, lot, outcome.ReadingId), by, isSupervisor: false, cancellationToken)).Done();
        sump.Add((double)removed, (double)water, (double)concentrate);
    }

    private StoryEvent? Take(SumpModel sump, EventKind kind)
    {
        var story = _waiting.Find(e => e.Sump == sump.Seed.Tag && e.Kind == kind);
        if (story is not null)
        {
            _waiting.Remove(story);
        }

        return story;
    }

    private Guid NewId(SumpModel sump) => sump.Chance.NewId(scene.Time.UtcNow);
}
