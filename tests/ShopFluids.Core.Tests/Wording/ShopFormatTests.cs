using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Scheduling;
using Xunit;

namespace ShopFluids.Core.Tests.Wording;

/// <summary>Quantities, numbers, days and times as people read them.</summary>
public sealed class ShopFormatTests
{
    private static readonly ShopCalendar Berlin = new(TimeZoneInfo.FindSystemTimeZoneById("Europe/Berlin"), 6, new HashSet<DayOfWeek> { DayOfWeek.Saturday, DayOfWeek.Sunday }, new HashSet<DateOnly>());
    private static readonly DateTime Now = new(2026, 3, 2, 7, 0, 0, DateTimeKind.Utc);

    [Theory]
    [InlineData("en-GB", UnitSystem.Metric, 160.24, "160.2 L")]
    [InlineData("de-DE", UnitSystem.Metric, 160.25, "160,3 L")]
    [InlineData("de-DE", UnitSystem.Metric, 1234.5, "1.235 L")]
    [InlineData("en-GB", UnitSystem.Metric, 999.94, "999.9 L")]
    [InlineData("en-US", UnitSystem.UsCustomary, 160.0, "42.3 gal")]
    [InlineData("en-US", UnitSystem.UsCustomary, 3.785411784, "1.00 gal")]
    [InlineData("en-US", UnitSystem.UsCustomary, 5000.0, "1,321 gal")]
    [InlineData("en-GB", UnitSystem.Metric, 0.0, "0.0 L")]
    public void Volume_InPreferredUnits_HasUsefulDecimals(string culture, UnitSystem units, double litres, string expected) =>
        Assert.Equal(expected, Format(culture, units).Volume(litres));

    [Theory]
    [InlineData("en-GB", UnitSystem.Metric, "310 mm", "24 °C", "178 mg/L", "12.6 %")]
    [InlineData("de-DE", UnitSystem.Metric, "310 mm", "24 °C", "178 mg/L", "12,6 %")]
    [InlineData("en-US", UnitSystem.UsCustomary, "12.20 in", "75 °F", "10.4 gpg", "12.6 %")]
    public void Quantities_InPreferredUnits_CarryTheirUnit(string culture, UnitSystem units, string length, string temperature, string hardness, string percent)
    {
        var format = Format(culture, units);

        Assert.Equal((length, temperature, hardness, percent), (format.Length(310), format.Temperature(24), format.Hardness(178), format.Percent(12.55)));
    }

    [Theory]
    [InlineData("en-GB", "\u22121,234.5")]
    [InlineData("de-DE", "\u22121.234,5")]
    [InlineData("en-US", "\u22121,234.5")]
    public void Number_Negative_HasTheSignOfTheType(string culture, string expected) => Assert.Equal(expected, Format(culture).Number(-1234.45m, 1));

    [Theory]
    [InlineData("en-GB", "6,50 EUR")]
    [InlineData("de-DE", "6,50 EUR")]
    public void Money_HasTwoDecimals(string culture, string german) =>
        Assert.Equal(culture == "de-DE" ? german : "6.50 EUR", Format(culture).Money(6.5m, "EUR"));

    [Theory]
    [InlineData("2026-03-02T06:59:00Z", "today 07:59")]
    [InlineData("2026-03-01T23:00:00Z", "today 00:00")]
    [InlineData("2026-03-01T22:59:00Z", "yesterday 23:59")]
    [InlineData("2026-02-19T13:26:00Z", "19 Feb")]
    [InlineData("2025-02-19T13:26:00Z", "19 Feb 2025")]
    public void When_ByDistance_SaysLess(string instant, string expected) => Assert.Equal(expected, Format("en-GB").When(Utc(instant), Now));

    [Theory]
    [InlineData("2026-03-02T00:00:00Z", "today")]
    [InlineData("2026-03-01T22:59:00Z", "yesterday")]
    [InlineData("2026-02-24T12:00:00Z", "6 days ago")]
    [InlineData("2026-03-02T09:00:00Z", "today")]
    public void Ago_ByDays_CountsMidnights(string instant, string expected) => Assert.Equal(expected, Format("en-GB").Ago(Utc(instant), Now));

    [Theory]
    [InlineData("2026-03-02T07:00:00.001Z", null)]
    [InlineData("2026-03-02T07:00:00Z", "1 min late")]
    [InlineData("2026-03-02T06:01:00Z", "59 min late")]
    [InlineData("2026-03-02T06:00:00Z", "1 h late")]
    [InlineData("2026-03-01T07:01:00Z", "23 h late")]
    [InlineData("2026-03-01T07:00:00Z", "1 day late")]
    [InlineData("2026-02-28T07:01:00Z", "1 day late")]
    [InlineData("2026-02-28T07:00:00Z", "2 days late")]
    public void Late_AtEachStep_NamesTheLargestUnit(string due, string? expected) => Assert.Equal(expected, Format("en-GB").Late(Utc(due), Now));

    // The end of Monday's shop day is Tuesday 06:00 in Berlin; what is due then is due on Monday.
    [Theory]
    [InlineData("2026-03-03T05:00:00Z", "today")]
    [InlineData("2026-03-04T05:00:00Z", "tomorrow")]
    [InlineData("2026-03-07T05:00:00Z", "Fri 6 Mar")]
    [InlineData("2026-03-02T04:00:00Z", "3 h late")]
    public void Due_EndOfAShopDay_BelongsToThatDay(string due, string expected) => Assert.Equal(expected, Format("en-GB").Due(Utc(due), Now));

    // 02:30 comes twice on 25 October: both are told as the wall clock shows them.
    [Fact]
    public void Time_AroundTheClockChange_IsTheWallClock()
    {
        var format = Format("de-DE");

        Assert.Equal(("02:30", "02:30", "03:00"), (format.Time(Utc("2026-10-25T00:30:00Z")), format.Time(Utc("2026-10-25T01:30:00Z")), format.Time(Utc("2026-03-29T01:00:00Z"))));
    }

    [Theory]
    [InlineData("en-GB", "2 Mar 2026, 08:00")]
    [InlineData("de-DE", "2 März 2026, 08:00")]
    [InlineData("en-US", "2 Mar 2026, 08:00")]
    public void DayAndTime_InItsCulture_IsUnmistakable(string culture, string expected) => Assert.Equal(expected, Format(culture).DayAndTime(Now));

    private static ShopFormat Format(string culture, UnitSystem units = UnitSystem.Metric) => new(CultureInfo.GetCultureInfo(culture), units, Berlin);

    private static DateTime Utc(string text) => DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal);
}
