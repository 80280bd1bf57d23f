using System.Text.Json;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;

namespace ShopFluids.Core.Record.Replay;

/// <summary>Charges, what was poured into them and taken out, and when they were read, up to some entry of the record.</summary>
internal sealed class PastFluid
{
    private readonly Dictionary<Guid, Charge> _charges = [];
    private readonly Dictionary<Guid, Charge> _openBySump = [];
    private readonly Dictionary<Guid, DateTime> _openedLots = [];
    private readonly List<Poured> _poured = [];
    private readonly Dictionary<Guid, DateTime> _moved = [];
    private readonly Dictionary<Guid, Dictionary<Guid, DateTime>> _readings = [];

    /// <summary>Fluids that some sump holds.</summary>
    public IEnumerable<Guid> FluidsInUse => _openBySump.Values.Select(c => c.FluidId).Distinct();

    public Charge? OpenCharge(Guid sumpId) => _openBySump.GetValueOrDefault(sumpId);

    /// <summary>When a lot was first drawn from, by the time that was said; null while it is closed.</summary>
    public DateTime? OpenedAt(Guid lotId) => _openedLots.TryGetValue(lotId, out var at) ? at : null;

    /// <summary>When somebody last read the open charge of a sump, or moved fluid of it.</summary>
    public DateTime? LastSeenAt(Guid sumpId) => OpenCharge(sumpId) is not { } charge ? null : new[]
    {
        _readings.TryGetValue(charge.Id, out var readings) && readings.Count > 0 ? readings.Values.Max() : (DateTime?)null,
        _moved.TryGetValue(charge.Id, out var moved) ? moved : null,
    }.Max();

    /// <summary>Concentrate topped up since a moment, by fluid; a fill is no topping up.</summary>
    public Dictionary<Guid, decimal> UsedSince(DateTime sinceUtc)
    {
        var used = new Dictionary<Guid, decimal>();
        for (var i = _poured.Count - 1; i >= 0 && _poured[i].AtUtc > sinceUtc; i--)
        {
            var (atUtc, chargeId, litres) = _poured[i];
            if (_charges.TryGetValue(chargeId, out var charge) && !(charge.DrainedAtUtc <= sinceUtc) && atUtc > charge.FilledAtUtc)
            {
                used[charge.FluidId] = used.GetValueOrDefault(charge.FluidId) + litres;
            }
        }

        return used;
    }

    public void Take(ShopFluidsDbContext db, string entity, JsonElement after)
    {
        switch (entity)
        {
            case nameof(Charge):
                TakeCharge(RecordedRow.Read<Charge>(db, after));
                break;
            case nameof(Addition):
                TakeAddition(RecordedRow.Read<Addition>(db, after));
                break;
            case nameof(Removal):
                var removal = RecordedRow.Read<Removal>(db, after);
                Move(removal.ChargeId, removal.RemovedAtUtc);
                break;
            case nameof(Reading):
                TakeReading(after);
                break;
        }
    }

    private void TakeCharge(Charge charge)
    {
        _charges[charge.Id] = charge;
        if (charge.DrainedAtUtc is null)
        {
            _openBySump[charge.SumpId] = charge;
        }
        else if (_openBySump.TryGetValue(charge.SumpId, out var open) && open.Id == charge.Id)
        {
            _openBySump.Remove(charge.SumpId);
        }
    }

    private void TakeAddition(Addition addition)
    {
        Move(addition.ChargeId, addition.AddedAtUtc);
        if (addition.LotId is { } lot && (!_openedLots.TryGetValue(lot, out var opened) || addition.AddedAtUtc < opened))
        {
            _openedLots[lot] = addition.AddedAtUtc;
        }

        if (addition.ConcentrateLitres <= 0)
        {
            return;
        }

        // Kept by time; what was noted late goes to its place.
        var place = _poured.Count;
        while (place > 0 && _poured[place - 1].AtUtc > addition.AddedAtUtc)
        {
            place--;
        }

        _poured.Insert(place, new(addition.AddedAtUtc, addition.ChargeId, addition.ConcentrateLitres));
    }

    private void Move(Guid chargeId, DateTime atUtc)
    {
        if (!_moved.TryGetValue(chargeId, out var last) || atUtc > last)
        {
            _moved[chargeId] = atUtc;
        }
    }

    // Not the whole row: a reading carries its stored outcome, which is long. A reading that is superseded does not count.
    private void TakeReading(JsonElement after)
    {
        var chargeId = Guid.Parse(TextOf(after, nameof(Reading.ChargeId)));
        var readings = _readings.TryGetValue(chargeId, out var known) ? known : _readings[chargeId] = [];
        if (after.GetProperty(nameof(Reading.SupersedesId)).GetString() is { } superseded)
        {
            readings.Remove(Guid.Parse(superseded));
        }

        readings[Guid.Parse(TextOf(after, nameof(Reading.Id)))] = after.GetProperty(nameof(Reading.TakenAtUtc)).GetDateTime().ToUniversalTime();
    }

    private static string TextOf(JsonElement row, string column) => row.GetProperty(column).GetString() ?? "";

    private readonly record struct Poured(DateTime AtUtc, Guid ChargeId, decimal Litres);
}
