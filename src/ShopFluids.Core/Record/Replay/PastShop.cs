using System.Text.Json;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;
using ShopFluids.Rules.Lot;
using ShopFluids.Rules.Registry;
using ShopFluids.Rules.Scheduling;

namespace ShopFluids.Core.Record.Replay;

/// <summary>
/// The shop as the record told it up to some entry: set-up, lots, instruments, flags and what answers them. Entries are taken in their
/// order; none of these rows is ever deleted.
/// </summary>
internal sealed class PastShop(ShopFluidsDbContext db)
{
    private readonly Dictionary<Guid, Shutdown> _shutdowns = [];
    private readonly Dictionary<Guid, RuleSetting> _settings = [];
    private readonly Dictionary<Guid, Fluid> _fluids = [];
    private readonly Dictionary<Guid, FluidLot> _lots = [];
    private readonly Dictionary<Guid, Instrument> _instruments = [];
    private readonly Dictionary<Guid, Sump> _sumps = [];
    private readonly Dictionary<Guid, Flag> _openFlags = [];
    private readonly Dictionary<Guid, ShopFlag> _shopFlags = [];
    private readonly Dictionary<Guid, CareTask> _openTasks = [];
    private readonly PastFluid _poured = new();
    private readonly Dictionary<Guid, DateTime> _workEnded = [];
    private Site? _site;

    public static bool IsMeant(string entity) => entity is nameof(Site) or nameof(Shutdown) or nameof(RuleSetting) or nameof(Fluid) or nameof(FluidLot) or nameof(Instrument) or nameof(Sump)
        or nameof(Charge) or nameof(Addition) or nameof(Removal) or nameof(Reading) or nameof(CareTask) or nameof(Flag) or nameof(ShopFlag);

    public void Take(string entity, JsonElement after)
    {
        switch (entity)
        {
            case nameof(Site):
                _site = RecordedRow.Read<Site>(db, after);
                break;
            case nameof(Shutdown):
                Keep(_shutdowns, after);
                break;
            case nameof(RuleSetting):
                Keep(_settings, after);
                break;
            case nameof(Fluid):
                Keep(_fluids, after);
                break;
            case nameof(FluidLot):
                Keep(_lots, after);
                break;
            case nameof(Instrument):
                Keep(_instruments, after);
                break;
            case nameof(Sump):
                Keep(_sumps, after);
                break;
            case nameof(Flag):
                KeepWhile(_openFlags, after, f => f.EndedAtUtc is null);
                break;
            case nameof(ShopFlag):
                KeepWhile(_shopFlags, after, f => f.GoneAtUtc is null);
                break;
            case nameof(CareTask):
                TakeTask(RecordedRow.Read<CareTask>(db, after));
                break;
            default:
                _poured.Take(db, entity, after);
                break;
        }
    }

    /// <summary>What the rules about lots, stocks and instruments saw.</summary>
    public StoresFacts StoresAt(DateTime nowUtc)
    {
        var calendar = ShopSetup.CalendarOf(_site, _shutdowns.Values.Where(s => s.SumpId is null));
        var (since, until) = (nowUtc.AddDays(-LotRule.UseDays), nowUtc.AddDays(LotRule.HorizonDays));
        var planned = _openTasks.Values.Where(t => t.Kind == TaskKind.DrainClean && t.DueAtUtc <= until).Select(t => t.SumpId).Distinct()
            .Select(_poured.OpenCharge).OfType<Charge>()
            .ToLookup(c => c.FluidId, c => StoresFacts.RefillLitres(_sumps[c.SumpId], _fluids[c.FluidId]));
        var used = _poured.UsedSince(since);
        return new(
            calendar,
            [.. _shopFlags.Values.Select(f => f.ToKnown())],
            [.. _lots.Values.Where(l => l.RemainingLitres > 0).Select(l => StoresFacts.Of(l, _fluids[l.FluidId].OpenedLifeDays is null ? null : _poured.OpenedAt(l.Id), _fluids[l.FluidId].OpenedLifeDays, calendar))],
            [.. _poured.FluidsInUse.Select(id => new WantedFluid(id, planned[id].Sum(), used.GetValueOrDefault(id)))],
            [.. _instruments.Values.Where(i => i.NeedsChecks).Select(StoresFacts.Of)]);
    }

    /// <summary>The flags of sumps that were due to go to the supervisor.</summary>
    public IEnumerable<Flag> DueFlags(DateTime nowUtc) => _openFlags.Values.Where(f => f.EscalatedAtUtc is null
        && RuleRegistry.Escalation.IsDue(f.Severity, f.RaisedAtUtc, AnsweredAt(f.SumpId), CalendarFor(f.SumpId), TuningsFor(f.SumpId, _poured.OpenCharge(f.SumpId)?.FluidId).ByRule, nowUtc));

    /// <summary>The flags of the shop that were due to go to the supervisor.</summary>
    public IEnumerable<ShopFlag> DueShopFlags(DateTime nowUtc)
    {
        var (calendar, tunings) = (ShopSetup.CalendarOf(_site, _shutdowns.Values.Where(s => s.SumpId is null)), TuningsFor(null, null).ByRule);
        return _shopFlags.Values.Where(f => f.IsOpen && f.EscalatedAtUtc is null && RuleRegistry.Escalation.IsDue(f.Severity, f.RaisedAtUtc, null, calendar, tunings, nowUtc));
    }

    public string TagOf(Guid sumpId) => _sumps.GetValueOrDefault(sumpId)?.Tag ?? "";

    /// <summary>The lot's number, the fluid's name or the instrument's tag.</summary>
    public string NameOf(Guid subjectId) =>
        _lots.GetValueOrDefault(subjectId)?.Number ?? _instruments.GetValueOrDefault(subjectId)?.Tag ?? _fluids.GetValueOrDefault(subjectId)?.Name ?? "";

    private ShopCalendar CalendarFor(Guid sumpId) => ShopSetup.CalendarOf(_site, _shutdowns.Values.Where(s => s.Concerns(sumpId)));

    private TuningsInForce TuningsFor(Guid? sumpId, Guid? fluidId) => _settings.Count == 0 ? TuningsInForce.None : ShopSetup.TuningsFor(sumpId, fluidId, _settings.Values);

    // As the handler sees it: work given to somebody is answered for as long as it is open.
    private DateTime? AnsweredAt(Guid sumpId) =>
        _openTasks.Values.Any(t => t.SumpId == sumpId && t.AssignedToId is not null) ? DateTime.MaxValue.ToUniversalTime()
        : new[] { _poured.LastSeenAt(sumpId), _workEnded.TryGetValue(sumpId, out var at) ? at : null }.Max();

    // Work that only went with what asked for it is no answer: the same rule as in FlagAnswers, which asks the database.
    private void TakeTask(CareTask task)
    {
        if (task.State == TaskState.Open)
        {
            _openTasks[task.Id] = task;
            return;
        }

        _openTasks.Remove(task.Id);
        if (task is { EndedByPersonId: not null, EndedAtUtc: { } ended } && (task.State != TaskState.Withdrawn || task.IsRedated) && (!_workEnded.TryGetValue(task.SumpId, out var last) || ended > last))
        {
            _workEnded[task.SumpId] = ended;
        }
    }

    private void Keep<T>(Dictionary<Guid, T> rows, JsonElement after)
        where T : Entity => KeepWhile(rows, after, static _ => true);

    private void KeepWhile<T>(Dictionary<Guid, T> rows, JsonElement after, Func<T, bool> isMeant)
        where T : Entity
    {
        var row = RecordedRow.Read<T>(db, after);
        if (isMeant(row))
        {
            rows[row.Id] = row;
        }
        else
        {
            rows.Remove(row.Id);
        }
    }
}
