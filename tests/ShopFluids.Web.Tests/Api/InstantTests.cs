using ShopFluids.Web.Api.Json;
using Xunit;

namespace ShopFluids.Web.Tests.Api;

/// <summary>Moments as programs write them: ISO 8601 with an offset, never guessed at.</summary>
public sealed class InstantTests
{
    [Theory]
    [InlineData("2026-03-02T07:12:30+01:00", "2026-03-02T06:12:30.000")]
    [InlineData("2026-03-02T07:12:30Z", "2026-03-02T07:12:30.000")]
    [InlineData("2026-03-02t07:12:30z", "2026-03-02T07:12:30.000")]
    [InlineData("2026-03-02T07:12-05:30", "2026-03-02T12:42:00.000")]
    [InlineData("2026-03-02T07:12:30.123456789Z", "2026-03-02T07:12:30.123")]
    public void TryRead_Iso8601_IsThatMoment(string text, string utc)
    {
        Assert.True(InstantText.TryRead(text, out var instant));

        Assert.Equal(utc, instant.ToString("yyyy-MM-dd'T'HH:mm:ss.fff", System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(DateTimeKind.Utc, instant.Kind);
    }

    [Theory]
    [InlineData("02/03/2026 07:12+01:00")]
    [InlineData("2.3.2026 07:12+01:00")]
    [InlineData("2026/03/02T07:12:00Z")]
    [InlineData("2026-03-02T07:12:00")]
    [InlineData("2026-03-02")]
    [InlineData("2026-13-02T07:12:00Z")]
    [InlineData("07:12+01:00")]
    [InlineData("2026-03-02T07:12:00Z\n")]
    public void TryRead_AnythingElse_IsRefused(string text) => Assert.False(InstantText.TryRead(text, out _));
}
