using System.Globalization;
using ShopFluids.Calculations.Additives;
using ShopFluids.Core.Care;
using ShopFluids.Core.Charges;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Photos.Pictures;
using ShopFluids.Core.Record.Trail;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Pages.Machines;
using ShopFluids.Web.Pages.Setup.Care;
using ShopFluids.Web.Pages.Setup.Fluids;

namespace ShopFluids.Web.Pages.Record;

/// <summary>The values of the record in words, numbers and shop times.</summary>
internal sealed class RecordValues(TrailPage page, ShopFormat format)
{
    // Enough to tell rows apart that have no name, such as readings.
    private const int IdLetters = 8;

    public string Of(TrailColumn column, string? text)
    {
        if (string.IsNullOrEmpty(text))
        {
            return Texts.Record_Nothing;
        }

        return column.Kind switch
        {
            ColumnKind.Instant when DateTime.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var at) => format.DayAndTime(at),
            ColumnKind.Day when DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) => format.LongDay(day),
            ColumnKind.YesNo => text == "true" ? Texts.Setup_Yes : Texts.Setup_No,
            ColumnKind.Number when decimal.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) => number.ToString("0.############", format.Culture),
            ColumnKind.Word when column.Enumeration is { } type && long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value) => Word(Enum.ToObject(type, value)),
            ColumnKind.Reference when Guid.TryParseExact(text, "D", out var id) => page.Names.GetValueOrDefault(id, text[..IdLetters]),
            _ => text,
        };
    }

    /// <summary>A word of an enumeration; one that pages have no word for stands as its number, which only a change by hand can bring about.</summary>
    internal static string Word(object value) => value switch
    {
        Verdict verdict when Enum.IsDefined(verdict) => Sentences.Verdict(verdict),
        TaskKind kind when Enum.IsDefined(kind) => Sentences.Task(kind),
        CleanOutStepKind step when Enum.IsDefined(step) => CleanOutSentences.Step(step),
        SkipReason reason when Enum.IsDefined(reason) => SkipSentences.Reason(reason),
        InstrumentKind kind when Enum.IsDefined(kind) => InstrumentSentences.Kind(kind),
        FluidKind kind when Enum.IsDefined(kind) => FluidDraft.KindWord(kind),
        IntervalBasis basis when Enum.IsDefined(basis) => CareDraft.BasisWord(basis),
        ClosedDayPolicy policy when Enum.IsDefined(policy) => CareDraft.PolicyWord(policy),
        Direction direction => direction switch { Direction.Low => Texts.Record_Low, Direction.High => Texts.Record_High, _ => Texts.Record_NoSide },
        TaskState state => state switch { TaskState.Open => Texts.Record_Open, TaskState.Done => Texts.Record_Done, TaskState.Skipped => Texts.Record_Skipped, _ => Texts.Record_Withdrawn },
        Core.Flags.FlagEnd end => End(end),
        AdjustmentKind kind => kind == AdjustmentKind.Counted ? Texts.Record_Counted : Texts.Record_ThrownAway,
        SlideEnd end => end == SlideEnd.Read ? Texts.Record_Read : Texts.Record_ThrownAway,
        DoseKind kind when Enum.IsDefined(kind) => DoseSentences.Kind(kind),
        DoseUnit unit when Enum.IsDefined(unit) => DoseUnits.Of(unit),
        DoseMeasure measure when Enum.IsDefined(measure) => DoseUnits.Of(measure),
        SlideIncubation incubation => Incubation(incubation),
        PictureKind picture when Enum.IsDefined(picture) => picture.ToString(),
        UnusualAddition unusual => unusual == UnusualAddition.None ? Texts.Record_Nothing : AdditionDoubtSentences.Unusual(unusual),
        Delivery delivery => DeliveryWords.Of(delivery),
        UnitSystem units => units == UnitSystem.Metric ? Texts.Account_UnitsMetric : Texts.Account_UnitsUs,
        ParameterScale scale => scale switch { ParameterScale.Number => Texts.Record_ScaleNumber, ParameterScale.Words => Texts.Record_ScaleWords, _ => Texts.Record_ScaleMagnitude },
        _ => Convert.ToInt64(value, CultureInfo.InvariantCulture).ToString(CultureInfo.InvariantCulture),
    };

    private static string End(Core.Flags.FlagEnd end) => end switch
    {
        Core.Flags.FlagEnd.Cleared => Texts.Record_Cleared,
        Core.Flags.FlagEnd.Closed => Texts.Record_Closed,
        Core.Flags.FlagEnd.ChargeEnded => Texts.Record_ChargeEnded,
        Core.Flags.FlagEnd.Superseded => Texts.Record_Superseded,
        _ => Texts.Record_Rejudged,
    };

    private static string Incubation(SlideIncubation incubation) => incubation == SlideIncubation.Incubator ? Texts.Slide_Incubator : Texts.Slide_Room;
}
