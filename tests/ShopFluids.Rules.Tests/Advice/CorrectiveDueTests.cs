using System.Globalization;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Rules.Tests.Advice;

/// <summary>Berlin in March 2026, winter time: the shop day begins at 05:00 UTC; the 7th and 8th are a weekend, closed.</summary>
public sealed class CorrectiveDueTests
{
    [Theory]
    [InlineData(Verdict.Action, "2026-03-04T07:00:00Z", "2026-03-04T11:00:00Z")]
    [InlineData(Verdict.Action, "2026-03-07T00:59:59Z", "2026-03-07T04:59:59Z")]
    [InlineData(Verdict.Action, "2026-03-07T01:00:00Z", "2026-03-09T09:00:00Z")]
    [InlineData(Verdict.Action, "2026-03-07T12:00:00Z", "2026-03-09T09:00:00Z")]
    [InlineData(Verdict.Warning, "2026-03-04T07:00:00Z", "2026-03-05T05:00:00Z")]
    [InlineData(Verdict.Warning, "2026-03-06T23:00:00Z", "2026-03-07T05:00:00Z")]
    [InlineData(Verdict.Warning, "2026-03-07T12:00:00Z", "2026-03-10T05:00:00Z")]
    public void For_SeverityAndMoment_FallsIntoAnOpenShopDay(Verdict severity, string now, string due) =>
        Assert.Equal(Instant(due), CorrectiveDue.For(severity, Instant(now), Some.Calendar()));

    private static DateTime Instant(string text) => DateTime.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AdjustToUniversal);
}
