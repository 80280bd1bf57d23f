using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Rules;

namespace ShopFluids.Core.Record.Replay;

/// <summary>
/// Looks again at lots, stocks and instruments at every act that looked at them, and at the flags that nobody had answered at every act that
/// marked some, each time with what the record knew by then. What a look found when it changed nothing is not in the record and cannot be told.
/// </summary>
internal sealed class ShopReplay(ShopFluidsDbContext db, List<ReplayDifference> differences)
{
    /// <summary>Acts within which the stores and instruments are looked at; each sees its own changes.</summary>
    private static readonly HashSet<string> Looks = [ActCodes.ShopNoticed, ActCodes.LotReceived, ActCodes.LotQuarantined, ActCodes.LotReleased, ActCodes.LotCounted, ActCodes.LotDiscarded, ActCodes.InstrumentChecked];

    private readonly PastShop _past = new(db);
    private readonly HashSet<Guid> _raised = [];
    private readonly HashSet<Guid> _marked = [];
    private Dictionary<Guid, ShopFlag> _shopFlags = [];
    private Dictionary<Guid, Flag> _flags = [];

    /// <returns>How many flags of the shop were raised, and how many flags were marked.</returns>
    public async Task<(int Raised, int Marked)> RunAsync(CancellationToken cancellationToken)
    {
        _shopFlags = await db.ShopFlags.AsNoTracking().ToDictionaryAsync(f => f.Id, cancellationToken);
        _flags = await db.Flags.AsNoTracking().Where(f => f.EscalatedAtUtc != null).ToDictionaryAsync(f => f.Id, cancellationToken);
        await foreach (var entry in db.RecordEntries.AsNoTracking().OrderBy(e => e.Sequence).Select(e => new { e.AtUtc, e.Code, e.Changes }).AsAsyncEnumerable().WithCancellation(cancellationToken))
        {
            using var document = JsonDocument.Parse(entry.Changes);
            var changes = RowsOf(document.RootElement);
            if (entry.Code == ActCodes.FlagEscalated)
            {
                MarkAgain(entry.AtUtc, changes);
            }

            Take(changes.Where(c => c.Entity != nameof(ShopFlag)));
            if (Looks.Contains(entry.Code))
            {
                LookAgain(entry.AtUtc, changes);
            }

            Take(changes.Where(c => c.Entity == nameof(ShopFlag)));
        }

        SayWhatTheRecordDoesNotKnow();
        return (_raised.Count, _marked.Count);
    }

    private void LookAgain(DateTime actAtUtc, List<Row> changes)
    {
        var flags = changes.Where(c => c.Entity == nameof(ShopFlag)).ToList();
        var made = flags.Where(c => c.IsNew).ToList();
        var gone = flags.Where(c => c.Instant(nameof(ShopFlag.GoneAtUtc)) is not null).ToList();

        // The look took its time before the act was written down; they may be a moment apart.
        var nowUtc = made.Select(m => m.Instant(nameof(ShopFlag.RaisedAtUtc))).Concat(gone.Select(g => g.Instant(nameof(ShopFlag.GoneAtUtc)))).FirstOrDefault(at => at is not null) ?? actAtUtc;
        _raised.UnionWith(made.Select(m => m.Id));
        var found = _past.StoresAt(nowUtc).Changes(nowUtc);
        Compare(
            nowUtc,
            ReplayAspect.ShopFlagRaised,
            made.Select(m => _shopFlags.GetValueOrDefault(m.Id)).OfType<ShopFlag>().Select(f => (Key(f.Rule, f.Aspect, f.SubjectId), _past.NameOf(f.SubjectId), Text(f.Rule, f.Aspect, f.Severity, f.Numbers, f.DueAtUtc))),
            found.New.Select(f => (Key(f.Rule, f.Aspect, f.SubjectId), _past.NameOf(f.SubjectId), Text(f.Rule, f.Aspect, f.Severity, f.Numbers, f.DueAt))));
        Compare(
            nowUtc,
            ReplayAspect.ShopFlagGone,
            gone.Select(g => _shopFlags.GetValueOrDefault(g.Id)).OfType<ShopFlag>().Where(f => f.GoneAtUtc is not null).Select(f => (Key(f.Id), _past.NameOf(f.SubjectId), $"{f.Rule}:{f.Aspect}")),
            found.Gone.Select(id => _shopFlags.GetValueOrDefault(id)).OfType<ShopFlag>().Select(f => (Key(f.Id), _past.NameOf(f.SubjectId), $"{f.Rule}:{f.Aspect}")));
    }

    private void MarkAgain(DateTime actAtUtc, List<Row> changes)
    {
        var marked = changes.Where(c => c.Entity is nameof(Flag) or nameof(ShopFlag)).ToList();
        var nowUtc = marked.Select(m => m.Instant(nameof(Flag.EscalatedAtUtc))).FirstOrDefault(at => at is not null) ?? actAtUtc;
        _marked.UnionWith(marked.Select(m => m.Id));
        Compare(
            nowUtc,
            ReplayAspect.Escalation,
            marked.Select(m => m.Id).Select(Marked).OfType<(string, string, string)>(),
            _past.DueFlags(nowUtc).Select(f => (Key(f.Id), _past.TagOf(f.SumpId), $"{f.Rule}:{f.Parameter} {f.Severity}"))
                .Concat(_past.DueShopFlags(nowUtc).Select(f => (Key(f.Id), _past.NameOf(f.SubjectId), $"{f.Rule}:{f.Aspect} {f.Severity}"))));
    }

    private (string Key, string Subject, string Text)? Marked(Guid id) =>
        _flags.TryGetValue(id, out var flag) ? (Key(id), _past.TagOf(flag.SumpId), $"{flag.Rule}:{flag.Parameter} {flag.Severity}")
        : _shopFlags.TryGetValue(id, out var shopFlag) && shopFlag.EscalatedAtUtc is not null ? (Key(id), _past.NameOf(shopFlag.SubjectId), $"{shopFlag.Rule}:{shopFlag.Aspect} {shopFlag.Severity}")
        : null;

    private void SayWhatTheRecordDoesNotKnow()
    {
        differences.AddRange(_shopFlags.Values.Where(f => !_raised.Contains(f.Id)).OrderBy(f => f.RaisedAtUtc).ThenBy(f => f.Id)
            .Select(f => new ReplayDifference(_past.NameOf(f.SubjectId), f.RaisedAtUtc, null, ReplayAspect.NotInRecord, "", "", IsSetupChanged: false)));
        differences.AddRange(_flags.Values.Where(f => !_marked.Contains(f.Id)).Select(f => (Name: _past.TagOf(f.SumpId), At: f.EscalatedAtUtc, f.Id))
            .Concat(_shopFlags.Values.Where(f => f.EscalatedAtUtc is not null && !_marked.Contains(f.Id)).Select(f => (Name: _past.NameOf(f.SubjectId), At: f.EscalatedAtUtc, f.Id)))
            .OrderBy(f => f.At).ThenBy(f => f.Id)
            .Select(f => new ReplayDifference(f.Name, f.At ?? default, null, ReplayAspect.NotInRecord, "", "", IsSetupChanged: false)));
    }

    // Of each subject, what was stored against what is found today; no set-up is newer than its entry, so none explains a difference.
    private void Compare(DateTime atUtc, ReplayAspect aspect, IEnumerable<(string Key, string Subject, string Text)> stored, IEnumerable<(string Key, string Subject, string Text)> replayed)
    {
        var (was, now) = (stored.ToDictionary(s => s.Key), replayed.ToDictionary(r => r.Key));
        foreach (var key in was.Keys.Union(now.Keys, StringComparer.Ordinal).Order(StringComparer.Ordinal))
        {
            var (before, today) = (was.GetValueOrDefault(key), now.GetValueOrDefault(key));
            if (before.Text != today.Text)
            {
                differences.Add(new(before.Subject ?? today.Subject ?? "", atUtc, null, aspect, before.Text ?? "", today.Text ?? "", IsSetupChanged: false));
            }
        }
    }

    private void Take(IEnumerable<Row> rows)
    {
        foreach (var row in rows)
        {
            _past.Take(row.Entity, row.After);
        }
    }

    private static List<Row> RowsOf(JsonElement changes) =>
    [
        .. changes.EnumerateArray()
            .Select(c => (Entity: c.GetProperty("entity").GetString() ?? "", Change: c))
            .Where(c => PastShop.IsMeant(c.Entity) && c.Change.TryGetProperty("after", out _))
            .Select(c => new Row(c.Entity, c.Change.GetProperty("key").GetGuid(), !c.Change.TryGetProperty("before", out _), c.Change.GetProperty("after"))),
    ];

    private static string Key(string rule, string aspect, Guid subjectId) => $"{rule}:{aspect}:{subjectId:D}";

    private static string Key(Guid id) => id.ToString("D");

    private static string Text(string rule, string aspect, Verdict severity, IReadOnlyDictionary<string, decimal> numbers, DateTime dueAtUtc) =>
        $"{rule}:{aspect} {severity} {JsonColumn.Write(numbers.OrderBy(n => n.Key, StringComparer.Ordinal).ToDictionary())} {JsonColumn.Write(new { DueAtUtc = dueAtUtc })}";

    /// <summary>A row that an entry made or changed, as it was afterwards.</summary>
    private sealed record Row(string Entity, Guid Id, bool IsNew, JsonElement After)
    {
        public DateTime? Instant(string column) => After.TryGetProperty(column, out var value) && value.ValueKind == JsonValueKind.String ? value.GetDateTime().ToUniversalTime() : null;
    }
}
