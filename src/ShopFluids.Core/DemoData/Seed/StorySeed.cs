using ShopFluids.Core.Doses;

namespace ShopFluids.Core.DemoData.Seed;

/// <summary>What happens beyond the daily run.</summary>
internal sealed record StorySeed(IReadOnlyList<Condition> Conditions, IReadOnlyList<StoryEvent> Events, IReadOnlyList<DoseSeed> Doses);

internal enum ConditionKind
{
    /// <summary>Factor on the evaporation.</summary>
    Evaporation,

    /// <summary>Factor on the carry-off.</summary>
    CarryOff,

    /// <summary>Factor on the growth of the tramp oil.</summary>
    Oil,

    /// <summary>Factor on the fall of pH.</summary>
    PhFall,

    /// <summary>How likely a recipe is followed, 0 to 1.</summary>
    TopUp,

    /// <summary>1: whoever tops up pours plain water.</summary>
    PlainWater,

    /// <summary>1: the machine stands, and nobody walks past.</summary>
    Standing,

    /// <summary>1: no test is taken.</summary>
    Untested,

    /// <summary>1: no work is done but tests.</summary>
    LeftAlone,

    /// <summary>The odour found, 0 to 3.</summary>
    Odour,

    /// <summary>What a dip slide shows, log10 of CFU/mL, whatever pH says.</summary>
    Bacteria,
}

/// <summary>Something that holds at a sump from one day to another, both included, counted from today.</summary>
internal sealed record Condition(string Sump, ConditionKind Kind, int From, int To, double Value);

internal enum EventKind
{
    /// <summary>The next reading from this day on carries the text as its note.</summary>
    Note,

    /// <summary>At the next reading the concentration is typed where the scale reading belongs; it is corrected with the text as reason.</summary>
    Mistype,

    /// <summary>So many litres of water run in that nobody records.</summary>
    Flood,

    /// <summary>Drained, cleaned and refilled.</summary>
    Refill,

    /// <summary>A reading at the start of the day.</summary>
    Read,

    /// <summary>A dip slide besides those of the plan.</summary>
    Slide,

    /// <summary>A supervisor closes the open flags with the text as reason.</summary>
    CloseFlags,

    /// <summary>The open corrective work goes to the person of the text.</summary>
    Assign,

    /// <summary>The lot named as sump goes into quarantine with the text as reason.</summary>
    Quarantine,
}

/// <summary>Something that happens once. On a closed day it happens on the open day before; on day 0 at its very start.</summary>
internal sealed record StoryEvent(string Sump, EventKind Kind, int Day, double Value = 0, string Text = "");

/// <summary>An additive that a supervisor puts into a sump. On a closed day it happens on the open day before.</summary>
/// <param name="PerLitre">mL or g of product for each litre of fluid.</param>
/// <param name="LabelMost">As on the label, in mL or g for each litre of fluid.</param>
internal sealed record DoseSeed(
    string Sump, int Day, string Product, DoseKind Kind, decimal PerLitre, string Reason, DoseUnit Unit = DoseUnit.Millilitre, decimal? LabelMost = null, decimal? LabelHours = null, decimal? ReentryHours = null);
