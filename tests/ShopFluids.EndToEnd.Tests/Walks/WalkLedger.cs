using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Testing.Databases;

namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>What was typed in one walk, held against where it is: each reading in one place, unchanged and under its person's name.</summary>
internal sealed class WalkLedger(string walk, TestDatabase database)
{
    private const string AsTyped = "0.####";

    private readonly List<WalkReading> _readings = [];

    public IReadOnlyList<WalkReading> Readings => _readings;

    /// <summary>A strength, a pH or a level in range.</summary>
    public static string ValueOf(string parameter, int choice) => parameter switch
    {
        "concentration" => (7.5m + (choice % 100 / 100m)).ToString(AsTyped, CultureInfo.InvariantCulture),
        "ph" => (8.9m + (choice % 20 / 100m)).ToString(AsTyped, CultureInfo.InvariantCulture),
        _ => (290 + (choice % 20)).ToString(CultureInfo.InvariantCulture),
    };

    public WalkReading Begin(Guid person)
    {
        var reading = new WalkReading($"{walk} reading {_readings.Count + 1}", person);
        _readings.Add(reading);
        return reading;
    }

    /// <summary>The one that a page shows.</summary>
    public WalkReading Of(string note) =>
        _readings.Find(r => r.Note == note) ?? throw new InvalidOperationException($"The page shows \"{note}\", which nobody typed in this walk.");

    /// <summary>From here on what waited on the tablet when it was last looked at may arrive without the tablet's hearing so.</summary>
    public void DisturbWaiting()
    {
        foreach (var reading in _readings.Where(r => r.IsWaiting))
        {
            reading.MayBeInFlight = true;
        }
    }

    /// <summary>Everything that is not as it must be; what was broken off counts as what it turned out to be.</summary>
    public async Task<List<string>> FaultsAsync(Func<Task<TabletShelf>> look, CancellationToken cancellationToken)
    {
        // First the tablet, then the database, as a reading goes: it cannot slip past.
        var shelf = await look();
        var notes = _readings.Select(r => r.Note).ToList();
        await using var db = database.Open();
        var stored = await db.Readings.AsNoTracking().Where(r => notes.Contains(r.Note)).Include(r => r.Measurements).ToListAsync(cancellationToken);

        var faults = new List<string>();
        foreach (var reading in _readings)
        {
            var (drafts, waiting) = (Of(shelf.Drafts, reading), Of(shelf.Outbox, reading));
            var rows = stored.Where(r => r.Note == reading.Note).Select(r => new KeptForm(r.PersonId,
                [.. r.Measurements.Select(m => (IReadOnlyList<string>)[$"value-{m.Parameter}", m.RawValue.ToString(AsTyped, CultureInfo.InvariantCulture)])])).ToList();
            if (reading.State == WalkReadingState.BrokenOff && waiting.Count + rows.Count > 0)
            {
                reading.State = WalkReadingState.Saved;
            }
            else if (reading.State == WalkReadingState.BrokenOff)
            {
                reading.State = WalkReadingState.Typed;
            }

            reading.IsWaiting = waiting.Count > 0;
            var place = $"{drafts.Count} x draft, {waiting.Count} x outbox, {rows.Count} x database";
            if (!MayBe(reading, drafts.Count, waiting.Count, rows.Count))
            {
                faults.Add($"{reading.Note} ({reading.State}) is {place}.");
            }

            faults.AddRange(drafts.Concat(waiting).Concat(rows).Where(f => f.Person != reading.Person).Select(_ => $"{reading.Note} stands under another name ({place})."));
            faults.AddRange(drafts.Concat(waiting).Concat(rows).SelectMany(f => reading.Values.Where(v => f.Of($"value-{v.Key}") != v.Value)
                .Select(v => $"{reading.Note}: {v.Key} was typed {v.Value} and is {f.Of($"value-{v.Key}")} ({place}).")));
        }

        faults.AddRange(shelf.Drafts.Concat(shelf.Outbox).Where(f => !notes.Contains(f.Note)).Select(f => $"The tablet holds \"{f.Note}\", which nobody typed in this walk."));
        return faults;
    }

    private static List<KeptForm> Of(IReadOnlyList<KeptForm> forms, WalkReading reading) => [.. forms.Where(f => f.Note == reading.Note)];

    // Twice at once only between commit and acknowledgement, and the draft only with what waits to be sent.
    private static bool MayBe(WalkReading reading, int drafts, int waiting, int rows) => (reading.State, drafts, waiting, rows) switch
    {
        (WalkReadingState.ThrownAway, 0, 0, 0) => true,
        (WalkReadingState.Typed, 1, 0, 0) => true,
        (WalkReadingState.Saved, 0, 1, 0) => true,
        (WalkReadingState.Saved, 0, 0, 1) => true,
        (WalkReadingState.Saved, 0 or 1, 1, 0 or 1) => reading.MayBeInFlight,
        _ => false,
    };
}
