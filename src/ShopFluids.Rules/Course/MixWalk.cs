using ShopFluids.Calculations.Volumes;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Course;

/// <summary>
/// Walks along the readings and movements of a charge and works out, from reading to reading, what is known to have happened to the mix.
/// Mass balance with additive volumes, as in <see cref="Calculations.Mixing.Dilution"/>. A movement at the very moment of a reading was made after it.
/// </summary>
internal sealed class MixWalk(SumpFacts sump, IReadOnlyList<MovementFacts> movements)
{
    /// <summary>How long a level says something of the volume while the sump is being run; losses make it wrong. Common practice, no source.</summary>
    private static readonly TimeSpan LevelMaximumAge = TimeSpan.FromDays(14);

    private readonly SumpGeometry _geometry = sump.Geometry;
    private int _next;
    private DateTime _levelAt;
    private double _volume = double.NaN;

    // The stretch since the last reading that counts: product = offset + factor × concentration at its start, in litres × percent.
    private double _mixLitres = double.NaN;
    private double _offset;
    private double _factor;
    private double _putIn;
    private double _takenOut;
    private bool _isStartMeasured;
    private bool _isUnknown;

    private bool IsMoved => _putIn > 0 || _takenOut > 0;

    /// <summary>Goes to a reading, past all movements before it.</summary>
    /// <param name="reading">A reading that is no earlier than the one before.</param>
    /// <param name="litres">What the sump held there, L; not a number where that was not measured.</param>
    public void GoTo(ReadingFacts reading, double litres)
    {
        while (_next < movements.Count && movements[_next].At < reading.TakenAt)
        {
            Apply(movements[_next]);
            _next++;
        }

        if (!double.IsNaN(litres))
        {
            (_volume, _levelAt) = (litres, reading.TakenAt);

            // A level that comes after the start, but before anything was moved, tells as much as one at the start.
            if (double.IsNaN(_mixLitres) && !IsMoved)
            {
                Start(litres, isMeasured: true);
            }
        }
    }

    /// <summary>What happened since the last reading that counts; <paramref name="reading"/> is where the walk stands, and becomes the next start.</summary>
    public MixLink Count(ReadingFacts reading)
    {
        var link = Link(reading);
        (_putIn, _takenOut) = (0, 0);
        _isUnknown = false;
        Start(reading.TakenAt - _levelAt <= LevelMaximumAge ? _volume : double.NaN, isMeasured: _levelAt == reading.TakenAt);
        return link;
    }

    private void Start(double litres, bool isMeasured) => (_mixLitres, _offset, _factor, _isStartMeasured) = (litres, 0, litres, isMeasured);

    private MixLink Link(ReadingFacts reading)
    {
        // One swapped for as many others has been exchanged once.
        var exchanged = Math.Max(_putIn, _takenOut) / (double.IsNaN(_mixLitres) ? _geometry.VolumeLitresAt(Math.Clamp(sump.FullMarkMm, 0, _geometry.BrimMm)) : _mixLitres);
        if (double.IsNaN(_mixLitres) || _mixLitres <= 0)
        {
            return new(!IsMoved, 0, 1, 1, exchanged);
        }

        var measured = _isStartMeasured && _levelAt == reading.TakenAt ? _volume : _mixLitres;
        return new(!_isUnknown, _offset / _mixLitres, _factor / _mixLitres, measured > 0 ? Math.Max(1, _mixLitres / measured) : 1, exchanged);
    }

    private void Apply(MovementFacts movement)
    {
        var added = movement.WaterLitres + movement.ConcentrateLitres;
        (_putIn, _takenOut) = (_putIn + added, _takenOut + movement.RemovedLitres);
        _volume = Math.Clamp(_volume + added - movement.RemovedLitres, 0, _geometry.BrimLitres);
        if (double.IsNaN(_mixLitres) || _mixLitres <= 0)
        {
            return;
        }

        var left = 1 - (movement.RemovedLitres / _mixLitres);
        if (left <= 0)
        {
            // More was taken out than was there: the record does not say what is in the sump now.
            _isUnknown = true;
            return;
        }

        (_offset, _factor) = ((_offset * left) + (100 * movement.ConcentrateLitres), _factor * left);
        _mixLitres = (_mixLitres * left) + added;
    }
}
