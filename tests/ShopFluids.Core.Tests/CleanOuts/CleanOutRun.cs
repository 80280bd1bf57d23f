using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record;
using ShopFluids.Testing.Shop;

namespace ShopFluids.Core.Tests.CleanOuts;

/// <summary>Walks a clean-out of S-07 through its steps, ten minutes for each.</summary>
internal sealed class CleanOutRun(ShopFixture shop)
{
    public Guid Id { get; } = Some.Id();

    public static CleanOutChoice Choice { get; } = new(150, 10, 2, 12, 2, 30);

    /// <summary>What a person notes at a step who does everything as it should be.</summary>
    public CleanOutNote Note(CleanOutStepKind kind) => kind switch
    {
        CleanOutStepKind.Plan => new(Choice: Choice),
        CleanOutStepKind.Cleaner => new(CleanerLitres: 3, Hours: 12, ShortReason: "In since yesterday evening"),
        CleanOutStepKind.Carrier => new(Confirmed: CleanOutConfirmations.Of(kind), Text: "Hall carrier, container 4"),
        CleanOutStepKind.Drain => new(Waste: [new("12 01 09*", 141), new("13 05 06*", 2)], SludgeMm: 35),
        CleanOutStepKind.Wipe => new(Waste: [new("12 01 14*", 9), new("15 02 02*", 4)]),
        CleanOutStepKind.Rinse => new(Waste: [new("12 01 09*", 60)]),
        CleanOutStepKind.Inspect => new(Text: "Intake screen cracked, replaced"),
        CleanOutStepKind.Refill => new(WaterLitres: 147.2m, Draws: [new(shop.LotId, 12.8m)]),
        _ => new(Confirmed: CleanOutConfirmations.Of(kind)),
    };

    public Task<Result<NotedCleanOutStep>> NoteAsync(CleanOutStepKind kind, CleanOutNote? note = null, int seen = 0, Actor? actor = null, bool isSupervisor = false, ShopFixture? at = null) =>
        (at ?? shop).Get<NoteCleanOutStepHandler>().HandleAsync(new(Id, Some.SumpTag, kind, seen, note ?? Note(kind)), actor ?? Some.Operator, isSupervisor, default);

    /// <summary>Every step up to and with one.</summary>
    public async Task UpToAsync(CleanOutStepKind last)
    {
        foreach (var kind in Enum.GetValues<CleanOutStepKind>().Where(k => k <= last))
        {
            (await NoteAsync(kind)).Done();
            shop.Clock.Advance(TimeSpan.FromMinutes(10));
        }
    }

    public RecordReading Reading(Guid? id = null) => Some.Reading(id: id, takenAt: shop.Now, levelMm: 330);

    public Task<Result<FinishedCleanOut>> EndAsync(RecordReading? reading = null, Actor? actor = null, ShopFixture? at = null) =>
        (at ?? shop).Get<FinishCleanOutHandler>().HandleAsync(new(Id, reading ?? Reading()), actor ?? Some.Operator, default);

    public async Task<ReadingOutcome> FinishAsync()
    {
        await UpToAsync(CleanOutStepKind.Refill);
        return (await EndAsync()).Done().Outcome;
    }
}
