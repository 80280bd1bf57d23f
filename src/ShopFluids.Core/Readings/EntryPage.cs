using ShopFluids.Core.Doses;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Rounds;

namespace ShopFluids.Core.Readings;

/// <summary>Everything that the page for one reading shows before anything is typed.</summary>
/// <param name="DayOfCharge">1 on the day of the fill.</param>
/// <param name="Due">What the tests that are due still ask for; the usual three when none is due.</param>
/// <param name="Others">What may be measured besides.</param>
/// <param name="DoneToday">Parameters of those tests that were measured in this shop day already; empty when nothing was.</param>
/// <param name="FilledToMm">The level after what was added since the last level; null when nothing was.</param>
public sealed record EntryPage(
    SumpPlace Place,
    string FluidName,
    decimal RefractometerFactor,
    decimal ZeroBrix,
    int DayOfCharge,
    DateTime NowUtc,
    IReadOnlyList<EntryField> Due,
    IReadOnlyList<EntryField> Others,
    IReadOnlyList<EntryInstrument> Instruments,
    IReadOnlyList<string> DoneToday,
    double? FilledToMm)
{
    /// <summary>A test of this sump falls due by the end of this shop day.</summary>
    public bool IsDue { get; init; }

    /// <summary>Until when people keep away after a dose; null when nobody has to.</summary>
    public KeepAway? KeepAway { get; init; }

    /// <summary>Read before what it tells of, and of the set-up that the page is made with: nothing on the page is older than it.</summary>
    public required EntryPageStamp Stamp { get; init; }

    /// <summary>Until then the page comes out the same again, unless its stamp is another.</summary>
    public required DateTime HoldsUntilUtc { get; init; }

    /// <summary>What tests ask for that are not due yet and go along with this visit; among the due fields.</summary>
    public IReadOnlyList<string> Along { get; init; } = [];

    public IEnumerable<EntryField> Fields => Due.Concat(Others);
}

/// <summary>What an <see cref="EntryPage"/> is made of: as long as this is the same and the page holds, the page is the same.</summary>
/// <param name="Setup">The version of the set-up.</param>
/// <param name="Standing">The version of the sump's standing, which every act about the sump raises; null before the first fill.</param>
public sealed record EntryPageStamp(long Setup, long? Standing);

/// <summary>One box or picker of the page.</summary>
/// <param name="Key">The parameter, with the method where a parameter has a box for each.</param>
/// <param name="Ways">How the value may be typed, the usual way first.</param>
/// <param name="WordCount">How many words there are to pick from; 0 where a number is typed.</param>
/// <param name="UsualLow">Under it a value is asked about, in the canonical unit.</param>
public sealed record EntryField(
    string Key,
    string Parameter,
    string Unit,
    int Decimals,
    IReadOnlyList<EntryWay> Ways,
    int WordCount,
    decimal? UsualLow,
    decimal? UsualHigh,
    LastValue? Last,
    GaugeLimits? Limits);

/// <summary>A method and the unit of its scale.</summary>
/// <param name="Low">The least accepted value in <paramref name="Unit"/>; null where it is known only after conversion.</param>
public sealed record EntryWay(string Method, string Unit, decimal? Low, decimal? High)
{
    public string Key => $"{Method}/{Unit}";
}

public sealed record LastValue(decimal Value, DateTime TakenAtUtc);

/// <param name="IsInUse">The last reading of this sump was taken with it.</param>
/// <param name="IsLapsed">Its last check does not hold today: what is read with it is marked.</param>
public sealed record EntryInstrument(string Tag, InstrumentKind Kind, bool CompensatesTemperature, DateOnly? CheckedOn, bool IsInUse, bool IsLapsed, bool ShowsHundredths);
