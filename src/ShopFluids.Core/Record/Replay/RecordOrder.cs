using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Care;
using ShopFluids.Core.Database;

namespace ShopFluids.Core.Record.Replay;

/// <summary>
/// In which entry of the record each row was made, ended and last changed. Times do not tell what came first: many acts may share a
/// millisecond, and a clock may step back. The record's sequence does.
/// </summary>
internal sealed class RecordOrder
{
    private readonly Dictionary<(string Entity, Guid Id), Life> _lives = [];

    private readonly Dictionary<Guid, List<(long Sequence, DateTime DueAtUtc)>> _dues = [];

    private RecordOrder()
    {
    }

    public static async Task<RecordOrder> ReadAsync(ShopFluidsDbContext db, CancellationToken cancellationToken)
    {
        var order = new RecordOrder();
        await foreach (var entry in db.RecordEntries.AsNoTracking().OrderBy(e => e.Sequence).Select(e => new { e.Sequence, e.Changes }).AsAsyncEnumerable().WithCancellation(cancellationToken))
        {
            using var changes = JsonDocument.Parse(entry.Changes);
            foreach (var change in changes.RootElement.EnumerateArray())
            {
                order.Take(entry.Sequence, change);
            }
        }

        return order;
    }

    /// <summary>Whether a row was there before an entry; false also for a row that the record does not know.</summary>
    public bool IsMadeBefore<T>(Guid id, long sequence) => Find<T>(id) is { } life && life.Made < sequence;

    /// <summary>Whether a row was there before an entry and had not ended by then.</summary>
    public bool IsOpenBefore<T>(Guid id, long sequence) => Find<T>(id) is { } life && life.Made < sequence && !(life.Ended < sequence);

    /// <summary>The entry that made a row; null where the record does not know it.</summary>
    public long? MadeIn<T>(Guid id) => Find<T>(id)?.Made;

    /// <summary>The entry that ended a row.</summary>
    public long? EndedIn<T>(Guid id) => Find<T>(id)?.Ended;

    /// <summary>Whether a row was changed after an entry.</summary>
    public bool IsChangedAfter<T>(Guid id, long sequence) => Find<T>(id) is { } life && life.Last > sequence;

    /// <summary>When a task was due before an entry: it may have been moved since.</summary>
    public DateTime? DueBefore(Guid taskId, long sequence) =>
        _dues.TryGetValue(taskId, out var dues) ? dues.Where(d => d.Sequence < sequence).Select(d => (DateTime?)d.DueAtUtc).LastOrDefault() : null;

    private Life? Find<T>(Guid id) => _lives.TryGetValue((typeof(T).Name, id), out var life) ? life : null;

    // A row whose key is no single id belongs to another row, and lives as long.
    private void Take(long sequence, JsonElement change)
    {
        if (!Guid.TryParse(change.GetProperty("key").GetString(), out var id))
        {
            return;
        }

        var key = (change.GetProperty("entity").GetString() ?? "", id);
        var life = _lives.TryGetValue(key, out var known) ? known : new Life(sequence, null, sequence);
        if (key.Item1 == nameof(CareTask) && change.TryGetProperty("after", out var task) && task.TryGetProperty(nameof(CareTask.DueAtUtc), out var due))
        {
            var dues = _dues.TryGetValue(id, out var before) ? before : _dues[id] = [];
            dues.Add((sequence, due.GetDateTime()));
        }

        _lives[key] = life with { Ended = life.Ended ?? (IsEnded(change) ? sequence : null), Last = sequence };
    }

    // A flag and a task end with a time, a step of a care plan with a mark.
    private static bool IsEnded(JsonElement change) =>
        change.TryGetProperty("after", out var after)
        && ((after.TryGetProperty("EndedAtUtc", out var ended) && ended.ValueKind != JsonValueKind.Null)
            || (after.TryGetProperty("IsStopped", out var stopped) && stopped.GetString() == "true"));

    private sealed record Life(long Made, long? Ended, long Last);
}
