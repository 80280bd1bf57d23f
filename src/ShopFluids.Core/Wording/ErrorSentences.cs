using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Shutdowns;
using ShopFluids.Core.Charges;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.Generated;
using ShopFluids.Core.Displays;
using ShopFluids.Core.Doses;
using ShopFluids.Core.Flags;
using ShopFluids.Core.Instruments;
using ShopFluids.Core.People.Stations;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets.LotTraces;
using ShopFluids.Core.Sheets.MonthlySummaries;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Slides;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules;

namespace ShopFluids.Core.Wording;

/// <summary>Says what was refused, at which field, and what would be accepted.</summary>
public static class ErrorSentences
{
    public static string Error(this Sentences say, Error error)
    {
        ArgumentNullException.ThrowIfNull(say);
        return error switch
        {
            FieldErrors fields => string.Join(' ', fields.Fields.Select(say.Field)),
            SumpNotFound e => say.Format.Say(Texts.Error_SumpNotFound, e.Tag),
            SumpRetired e => say.Format.Say(Texts.Error_SumpRetired, e.Tag),
            NoOpenCharge e => say.Format.Say(Texts.Error_NoOpenCharge, e.Tag),
            ChargeStillOpen e => say.Format.Say(Texts.Error_ChargeStillOpen, e.Tag),
            OtherContentForId => Texts.Error_OtherContent,
            ReadingNotFound => Texts.Error_ReadingNotFound,
            AlreadySuperseded => Texts.Error_AlreadySuperseded,
            DoseNotFound => Texts.Error_DoseNotFound,
            DoseStruckAlready => Texts.Error_DoseStruck,
            TaskNotFound => Texts.Error_TaskNotFound,
            TaskEndedAlready => Texts.Error_TaskEnded,
            SlideKeepsItsDay => Texts.Error_SlideKeepsItsDay,
            NothingToSkip e => say.Format.Say(Texts.Error_NothingToSkip, string.Join(", ", e.Tags)),
            NotTickedOff { Kind: TaskKind.Test } => Texts.Error_TestNotTickedOff,
            NotTickedOff { Kind: TaskKind.ReadSlide } => Texts.Error_SlideNotTickedOff,
            NotTickedOff { Kind: TaskKind.Dose } => Texts.Error_DoseNotTickedOff,
            NotTickedOff { Kind: TaskKind.DrainClean } => Texts.Error_DrainingNotTickedOff,
            NotTickedOff => Texts.Error_AdjustmentNotTickedOff,
            OnlyASupervisorSkips => Texts.Error_OnlyASupervisorSkips,
            FlagNotFound => Texts.Error_FlagNotFound,
            FlagEndedAlready => Texts.Error_FlagEnded,
            ShopFlagNotFound => Texts.Error_ShopFlagNotFound,
            ShopFlagEndedAlready => Texts.Error_ShopFlagEnded,
            StationNotFound => Texts.Station_NotFound,
            DisplayNotFound => Texts.Wall_Revoked,
            InstrumentNotFound => Texts.Error_InstrumentNotFound,
            NoSite => Texts.Error_NoSite,
            RuleNotFound e => say.Format.Say(Texts.Error_RuleNotFound, e.Code),
            FluidNotFound => Texts.Error_FluidNotFound,
            AreaNotFound => Texts.Error_AreaNotFound,
            WaterNotFound => Texts.Error_WaterNotFound,
            MachineGone => Texts.Error_MachineNotFound,
            NothingChanged => Texts.Error_NothingChanged,
            ChangedMeanwhile => Texts.Error_ChangedMeanwhile,
            RecipeOutOfDate => Texts.Error_RecipeOutOfDate,
            AdditionDoubted e => string.Join(' ', e.Doubts.Select(say.Doubt).Prepend(Texts.Saved_AskHeading)),
            RecipeFollowedAlready => Texts.Error_RecipeFollowed,
            LotNotFound => Texts.Error_LotNotFound,
            StepNotFound => Texts.Error_StepNotFound,
            ShutdownsOverlap e => say.Format.Say(Texts.Error_ShutdownsOverlap, say.Format.LongDay(e.FirstDay), say.Format.LongDay(e.LastDay)),
            LotNumberUnknown e => say.Format.Say(Texts.LotSheet_Unknown, e.Number),
            MonthNotBegun e => say.Format.Say(Texts.MonthSheet_NotBegun, say.Format.Month(e.Month)),
            AlreadySealed => Texts.Error_AlreadySealed,
            ShopNotEmpty => Texts.Verb_DemoNotEmpty,
            ShutdownNotFound => Texts.Error_ShutdownNotFound,
            ShutdownIsOver => Texts.Error_ShutdownIsOver,
            CleanOutNotFound => Texts.CleanOut_NotFound,
            CleanOutIsOver => Texts.CleanOut_Over,
            CleanOutStepMissing e => say.Format.Say(Texts.CleanOut_Missing, CleanOutSentences.Step(e.Kind)),
            CleanOutStepChanged => Texts.CleanOut_Changed,
            CleanOutStepNeeded => Texts.CleanOut_Needed,
            RefillNotPossible => Texts.CleanOut_RefillNot,
            SlideNotFound => Texts.Slide_NotFound,
            SlideEndedAlready => Texts.Slide_EndedAlready,
            SlideTooEarly e => say.Format.Say(Texts.Slide_TooEarly, Moment(say, e.ReadFromUtc)),
            SlideTooLate e => say.Format.Say(Texts.Slide_TooLate, say.Format.DayAndTime(e.LastReadableUtc)),
            _ => Texts.Error_Other,
        };
    }

    public static string Field(this Sentences say, FieldError error)
    {
        ArgumentNullException.ThrowIfNull(say);
        ArgumentNullException.ThrowIfNull(error);
        var name = say.FieldName(error.Field);
        var pattern = Pattern(error.Problem);
        return error.Problem switch
        {
            FieldProblem.OutOfRange or FieldProblem.OverTheBrim => say.Format.Say(pattern, name, Amount(say, error.Value, error.Unit), Amount(say, error.Low, error.Unit), Amount(say, error.High, error.Unit)),
            FieldProblem.NotWhole => say.Format.Say(pattern, name, Amount(say, error.Value, error.Unit), Amount(say, error.Low, null), Amount(say, error.High, error.Unit)),
            FieldProblem.WrongCount => say.Format.Say(pattern, name, Amount(say, error.Value, null), Amount(say, error.Low, null), Amount(say, error.High, null)),
            FieldProblem.NotANumber or FieldProblem.MaybeThousands when error is { Low: not null, High: not null } =>
                $"{say.Format.Say(pattern, name, error.Detail)} {say.Format.Say(Texts.Entry_AcceptedRange, Amount(say, error.Low, error.Unit), Amount(say, error.High, error.Unit))}",
            FieldProblem.NotThreeMeasures => say.Format.Say(pattern, name, Amount(say, error.Low, error.Unit), Amount(say, error.High, error.Unit)),
            FieldProblem.FileTooLarge or FieldProblem.PictureTooLarge => say.Format.Say(pattern, name, Amount(say, error.Value, null), Amount(say, error.High, null)),
            FieldProblem.TooNear => say.Format.Say(pattern, name, Amount(say, error.Low, error.Unit)),
            FieldProblem.TooLong => say.Format.Say(pattern, name, Amount(say, error.Value, null), Amount(say, error.High, null)),
            FieldProblem.TemperatureNeeded => say.Format.Say(pattern, name, Amount(say, error.Low, error.Unit), Amount(say, error.High, error.Unit)),
            FieldProblem.BeforeTheFill or FieldProblem.BeforeTheDrain or FieldProblem.BeforeTheLastEntry or FieldProblem.BeforeTheLastReading or FieldProblem.SlideTooOld => say.Format.Say(pattern, name, Moment(say, error.EarliestUtc)),
            FieldProblem.TooSoon => say.Format.Say(pattern, name, error.Detail, Moment(say, error.EarliestUtc)),
            FieldProblem.CirculatedTooShort => say.Format.Say(pattern, CleanOutSentences.HoursAndMinutes(say.Format, error.Low ?? 0), CleanOutSentences.HoursAndMinutes(say.Format, error.Value ?? 0)),
            FieldProblem.DayOutOfRange => say.Format.Say(pattern, name, Day(say, error.FirstDay), Day(say, error.LastDay)),
            FieldProblem.LotNotReceived => say.Format.Say(pattern, error.Detail, Day(say, error.FirstDay)),
            FieldProblem.TooLittleToMeasure or FieldProblem.UnderALevelRead => say.Format.Say(pattern, name, Amount(say, error.Value, error.Unit), Amount(say, error.Low, error.Unit)),
            FieldProblem.LotTooSmall => say.Format.Say(pattern, error.Detail, Amount(say, error.High, error.Unit)),
            FieldProblem.LotExpired or FieldProblem.LotQuarantined or FieldProblem.LotOfAnotherFluid => say.Format.Say(pattern, error.Detail),
            FieldProblem.UnknownInstrument when string.IsNullOrEmpty(error.Detail) => say.Format.Say(Texts.Field_NoInstrument, name),
            _ => say.Format.Say(pattern, name, error.Detail),
        };
    }

    private static string Pattern(FieldProblem problem) => problem switch
    {
        FieldProblem.Missing => Texts.Field_Missing,
        FieldProblem.NotANumber => Texts.Field_NotANumber,
        FieldProblem.MaybeThousands => Texts.Field_MaybeThousands,
        FieldProblem.OutOfRange => Texts.Field_OutOfRange,
        FieldProblem.OverTheBrim => Texts.Field_OverTheBrim,
        FieldProblem.NotWhole => Texts.Field_NotWhole,
        FieldProblem.UnknownUnit => Texts.Field_UnknownUnit,
        FieldProblem.UnknownParameter => Texts.Field_UnknownParameter,
        FieldProblem.UnknownMethod => Texts.Field_UnknownMethod,
        FieldProblem.UnknownChoice => Texts.Field_UnknownChoice,
        FieldProblem.NotAskedHere => Texts.Field_NotAskedHere,
        FieldProblem.NothingToFind => Texts.Field_NothingToFind,
        FieldProblem.NothingToForecast => Texts.Field_NothingToForecast,
        FieldProblem.NotClockTimes => Texts.Field_NotClockTimes,
        FieldProblem.NoRunningHours => Texts.Field_NoRunningHours,
        FieldProblem.UnknownInstrument => Texts.Field_UnknownInstrument,
        FieldProblem.InTheFuture => Texts.Field_InTheFuture,
        FieldProblem.BeforeTheFill => Texts.Field_BeforeTheFill,
        FieldProblem.BeforeTheDrain => Texts.Field_BeforeTheDrain,
        FieldProblem.BeforeTheLastEntry => Texts.Field_BeforeTheLastEntry,
        FieldProblem.BeforeTheLastReading => Texts.Field_BeforeTheLastReading,
        FieldProblem.SlideTooOld => Texts.Field_SlideTooOld,
        FieldProblem.DayOutOfRange => Texts.Field_DayOutOfRange,
        FieldProblem.TooLong => Texts.Field_TooLong,
        FieldProblem.TwiceInOneReading => Texts.Field_TwiceInOneReading,
        FieldProblem.TemperatureNeeded => Texts.Field_TemperatureNeeded,
        FieldProblem.NothingMeasured => Texts.Field_NothingMeasured,
        FieldProblem.NotConfirmed => Texts.Field_NotConfirmed,
        FieldProblem.LotExpired => Texts.Field_LotExpired,
        FieldProblem.LotNotReceived => Texts.Field_LotNotReceived,
        FieldProblem.LotQuarantined => Texts.Field_LotQuarantined,
        FieldProblem.LotTooSmall => Texts.Field_LotTooSmall,
        FieldProblem.LotOfAnotherFluid => Texts.Field_LotOfAnotherFluid,
        FieldProblem.NotUnique => Texts.Field_NotUnique,
        FieldProblem.NotAscending => Texts.Field_NotAscending,
        FieldProblem.NotATime => Texts.Field_NotATime,
        FieldProblem.NotATag => Texts.Field_NotATag,
        FieldProblem.WrongCount => Texts.Field_WrongCount,
        FieldProblem.TooLittleToMeasure => Texts.Field_TooLittleToMeasure,
        FieldProblem.NotThreeMeasures => Texts.Field_NotThreeMeasures,
        FieldProblem.UnderALevelRead => Texts.Field_UnderALevelRead,
        FieldProblem.DoesNotFit => Texts.Field_DoesNotFit,
        FieldProblem.NotText => Texts.Field_NotText,
        FieldProblem.NotAPicture => Texts.Field_NotAPicture,
        FieldProblem.BrokenPicture => Texts.Field_BrokenPicture,
        FieldProblem.FileTooLarge => Texts.Field_FileTooLarge,
        FieldProblem.PictureTooLarge => Texts.Field_PictureTooLarge,
        FieldProblem.TooNear => Texts.Field_TooNear,
        FieldProblem.NoStandards => Texts.Field_NoStandards,
        FieldProblem.TooSoon => Texts.Field_TooSoon,
        FieldProblem.CirculatedTooShort => Texts.Field_CirculatedTooShort,
        _ => throw new ArgumentOutOfRangeException(nameof(problem), problem, "There is no text for this problem."),
    };

    // To the minute, as it is typed; rounded up, so that the minute that is named is accepted.
    private static string Moment(Sentences say, DateTime? earliestUtc) =>
        earliestUtc is { } earliest ? say.Format.DayAndTime(new DateTime((earliest.Ticks + TimeSpan.TicksPerMinute - 1) / TimeSpan.TicksPerMinute * TimeSpan.TicksPerMinute, DateTimeKind.Utc)) : "";

    private static string Day(Sentences say, DateOnly? day) => day is { } shown ? say.Format.LongDay(shown) : "";

    // Amounts stay in the unit in which they were typed; only the canonical ones are shown in the person's units.
    private static string Amount(Sentences say, decimal? value, string? unit)
    {
        if (value is not { } number)
        {
            return "";
        }

        // PostgreSQL gives back 14.000000 for a stored 14: zeros at the end say nothing.
        var decimals = Math.Min(3, (int)(number / 1.0000000000000000000000000000m).Scale);
        return string.IsNullOrEmpty(unit)
            ? say.Format.Number(number, decimals)
            : QuantityInput.OfUnit(unit) != QuantityKind.Number && say.Format.Units == UnitSystem.UsCustomary
                ? say.Format.Quantity((double)number, unit, decimals == 0 ? 0 : 4)
                : $"{say.Format.Number(number, decimals)} {unit}";
    }
}
