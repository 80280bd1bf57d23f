using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sumps;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>What the shop knows of one sump, in memory: what the handlers ask the database for with every act.</summary>
internal sealed class SumpMemory
{
    private readonly Dictionary<Guid, Flag> _flags = [];
    private readonly Dictionary<Guid, CareTask> _tasks = [];
    private readonly List<PastMeasurement[]> _readings = [];
    private readonly List<MovementFacts> _movements = [];
    private StandingFacts? _facts;
    private DateTime? _lastReadAtUtc;
    private decimal _movedSinceLevel;

    public Charge? Charge { get; private set; }

    /// <summary>How many charges there were.</summary>
    public int Number { get; private set; }

    /// <summary>Open tasks.</summary>
    public IReadOnlyCollection<CareTask> Tasks => _tasks.Values;

    /// <summary>Open flags.</summary>
    public IReadOnlyCollection<Flag> Flags => _flags.Values;

    /// <exception cref="InvalidOperationException">It is empty.</exception>
    public Charge OpenCharge => Charge ?? throw new InvalidOperationException("The sump is empty.");

    /// <summary>What the rules look at.</summary>
    /// <exception cref="InvalidOperationException">It is empty.</exception>
    public StandingFacts Facts => _facts ?? throw new InvalidOperationException("The sump is empty.");

    public bool IsOpen(Guid taskId) => _tasks.ContainsKey(taskId);

    public Flag Flag(Guid id) => _flags[id];

    public CareTask Task(Guid id) => _tasks[id];

    public void Fill(Charge charge)
    {
        (Charge, Number, _facts, _lastReadAtUtc, _movedSinceLevel) = (charge, charge.Number, StandingFold.Fresh(charge.FilledAtUtc, []), null, 0);
        _readings.Clear();
        _movements.Clear();
    }

    public void Drain() => (Charge, _facts) = (null, null);

    public void Move(Addition? addition, Removal? removal)
    {
        // In the order in which the history is read back where both are of one moment.
        if (addition is not null)
        {
            Move(new(addition.AddedAtUtc, (double)addition.WaterLitres, (double)addition.ConcentrateLitres, 0), addition.WaterLitres + addition.ConcentrateLitres);
        }

        if (removal is not null)
        {
            Move(new(removal.RemovedAtUtc, 0, 0, (double)removal.Litres), -removal.Litres);
        }
    }

    public void Read(Reading reading)
    {
        _readings.Add([.. reading.Measurements.Select(m => new PastMeasurement(reading.Id, reading.TakenAtUtc, m.Parameter, m.Method, m.Value, m.Uncertainty))]);
        _facts = StandingFold.Add(Facts, reading.TakenAtUtc, reading.Measurements);
        _lastReadAtUtc = reading.TakenAtUtc;
        _movedSinceLevel = reading.Measurements.Any(m => m.Parameter == ParameterCodes.Level) ? 0 : _movedSinceLevel;
    }

    /// <summary>Forgets what has ended, remembers what is new, and brings the facts up to date.</summary>
    public void Settle(IEnumerable<Flag> raised, IEnumerable<CareTask> made)
    {
        foreach (var flag in _flags.Values.Concat(raised).ToList())
        {
            _flags[flag.Id] = flag;
            if (flag.EndedAtUtc is not null)
            {
                _flags.Remove(flag.Id);
            }
        }

        foreach (var task in _tasks.Values.Concat(made).ToList())
        {
            _tasks[task.Id] = task;
            if (task.State != TaskState.Open)
            {
                _tasks.Remove(task.Id);
            }
        }

        _facts = _facts is null ? null : StandingFold.With(_facts, _flags.Values.Select(f => f.ToOpen()), _tasks.Values.Select(t => t.ToOpen()));
    }

    /// <summary>The charge so far, as the rules that look back see it.</summary>
    public ChargeHistory HistoryAt(DateTime takenAtUtc) => ChargeHistoryQuery.Assemble(
        [.. Enumerable.Reverse(_readings).SelectMany(r => r).TakeWhile((m, place) => ChargeHistoryQuery.IsLookedAt(m, place, takenAtUtc))],
        since => [.. _movements.Where(m => m.At > since && m.At <= takenAtUtc)]);

    public Standing StandingOf(Sump sump)
    {
        var standing = new Standing(sump.Id);
        var facts = Charge is null && _tasks.Count > 0 ? StandingFold.Fresh(DateTime.UnixEpoch, _tasks.Values.Select(t => t.ToOpen())) : _facts;
        standing.Set(Charge?.Id, facts, Charge is null ? null : _lastReadAtUtc, Charge is null ? null : StandingRebuild.VolumeNow(sump, Facts, _movedSinceLevel));
        return standing;
    }

    private void Move(MovementFacts movement, decimal litres)
    {
        _movements.Add(movement);
        _movedSinceLevel += litres;
        _facts = Facts with { LastMovedAt = movement.At };
    }
}
