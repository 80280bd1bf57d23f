using ShopFluids.Core.Limits;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;

namespace ShopFluids.Core.Sheets;

/// <summary>Words and numbers that the blocks of a sheet share.</summary>
internal static class SheetWords
{
    /// <summary>Concentration, % v/v.</summary>
    public static string Heading(this Sentences say, Parameter parameter) => Join(say.Parameter(parameter.Code), UnitOf(say.Format, parameter), ", ");

    /// <summary>Level mm: as short as a column is wide.</summary>
    public static string ColumnHeading(this Sentences say, Parameter parameter) => Join(say.Parameter(parameter.Code), say.Format.InUnit(0, parameter.Unit, 0).Unit, " ");

    /// <summary>25 Nov 14:26, with its year where that is not the year of printing.</summary>
    public static string Moment(this ShopFormat format, DateTime instantUtc, DateTime printedUtc) =>
        format.ToShopTime(instantUtc).Year == format.ToShopTime(printedUtc).Year
            ? $"{format.ShortDay(instantUtc)} {format.Time(instantUtc)}"
            : $"{format.LongDay(instantUtc)} {format.Time(instantUtc)}";

    /// <summary>The number of a measured value in its column, or its word; the unit stands in the heading.</summary>
    public static string Cell(this Sentences say, Parameter parameter, double value)
    {
        if (say.Words(parameter.Code).Count > 0)
        {
            return say.Value(parameter.Code, (decimal)value);
        }

        return say.Format.InUnit(value, parameter.Unit, parameter.Decimals).Number;
    }

    public static SheetVerdict Worded(Verdict verdict, Direction direction) => new(verdict, direction, Sentences.Verdict(verdict, direction));

    public static SheetVerdict Worded(this Sentences say, string parameter, Verdict verdict, Direction direction) =>
        new(verdict, direction, say.VerdictOn(parameter, verdict, direction));

    private static string UnitOf(ShopFormat format, Parameter parameter) =>
        parameter.Code == ParameterCodes.Concentration ? Texts.Sheet_PercentByVolume : format.InUnit(0, parameter.Unit, 0).Unit;

    private static string Join(string name, string unit, string between) => unit.Length == 0 ? name : $"{name}{between}{unit}";
}
