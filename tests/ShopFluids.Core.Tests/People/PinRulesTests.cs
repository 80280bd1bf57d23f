using ShopFluids.Core.People.Pins;
using Xunit;

namespace ShopFluids.Core.Tests.People;

public sealed class PinRulesTests
{
    [Theory]
    [InlineData("000000")]
    [InlineData("123456")]
    [InlineData("654321")]
    [InlineData("890123")]
    [InlineData("109876")]
    [InlineData("121212")]
    [InlineData("111222")]
    [InlineData("100000")]
    [InlineData("123123")]
    [InlineData("407407")]
    [InlineData("112233")]
    [InlineData("123321")]
    [InlineData("024680")]
    public void Check_EasyPin_IsRefused(string pin) => Assert.IsType<PinTooEasy>(PinRules.Check(pin));

    [Theory]
    [InlineData("")]
    [InlineData("20481")]
    [InlineData("2048165")]
    [InlineData("20481a")]
    [InlineData("２０４８１６")]
    public void Check_NotSixDigits_IsRefused(string pin) => Assert.IsType<NotAPin>(PinRules.Check(pin));

    [Theory]
    [InlineData("204816")]
    [InlineData("123457")]
    [InlineData("975310")]
    [InlineData("300401")]
    public void Check_OtherPin_IsAccepted(string pin) => Assert.Null(PinRules.Check(pin));

    [Fact]
    public void Check_AllPins_LeavesMostOfThem()
    {
        var easy = Enumerable.Range(0, 1_000_000).Count(n => PinRules.Check($"{n:000000}") is not null);

        Assert.InRange(easy, 100, 10_000);
    }
}
