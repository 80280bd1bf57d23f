using ShopFluids.Rules.Patterns;

namespace ShopFluids.Rules.Tests.Patterns;

/// <summary>Just at, just inside and just outside each comparison; against takes more than doubt.</summary>
public sealed class PatternEvidenceTests
{
    [Theory]
    [InlineData("bacteria >= 5", 5.0, 0.0, Support.For)]
    [InlineData("bacteria >= 5", 4.9, 0.0, Support.Against)]
    [InlineData("bacteria >= 5", 4.9, 0.1, Support.Unknown)]
    [InlineData("bacteria >= 5", 4.8, 0.1, Support.Against)]
    [InlineData("bacteria < 4", 3.9, 0.5, Support.For)]
    [InlineData("bacteria < 4", 4.0, 0.0, Support.Against)]
    [InlineData("bacteria < 4", 4.0, 0.1, Support.Unknown)]
    [InlineData("ph > 9.3", 9.3, 0.0, Support.Against)]
    [InlineData("ph > 9.3", 9.3, 0.1, Support.Unknown)]
    [InlineData("ph > 9.3", 9.4, 0.2, Support.For)]
    [InlineData("ph > 9.3", 9.2, 0.1, Support.Against)]
    [InlineData("bacteria < 4", 4.1, 0.1, Support.Against)]
    [InlineData("charge-age <= 7", 7.0, 0.0, Support.For)]
    [InlineData("charge-age <= 7", 7.1, 0.0, Support.Against)]
    [InlineData("charge-age <= 7", 8.0, 1.0, Support.Unknown)]
    [InlineData("charge-age <= 7", 8.1, 1.0, Support.Against)]
    [InlineData("method-gap <= -2", -2.0, 0.5, Support.For)]
    [InlineData("method-gap <= -2", -1.6, 0.5, Support.Unknown)]
    [InlineData("method-gap <= -2", -1.4, 0.5, Support.Against)]
    [InlineData("odour = 2", 2.0, 0.0, Support.For)]
    [InlineData("odour = 2", 3.0, 0.0, Support.Against)]
    [InlineData("odour = 2", 3.0, 1.0, Support.Unknown)]
    [InlineData("odour = 2", 1.0, 2.0, Support.Unknown)]
    [InlineData("odour = 2", 0.9, 1.0, Support.Against)]
    public void Judge_Value_IsHeldAgainstTheNumber(string condition, double value, double uncertainty, Support expected)
    {
        var parsed = PatternCondition.Parse(condition);
        var facts = PatternFacts.None with { Values = new Dictionary<string, PatternNumber> { [parsed.Subject] = new((decimal)value, (decimal)uncertainty) } };

        Assert.Equal(expected, PatternEvidence.Judge(parsed, facts));
    }

    [Theory]
    [InlineData("ph fell 0.5", -0.5, 0.2, Support.For)]
    [InlineData("ph fell 0.5", -0.4, 0.2, Support.Unknown)]
    [InlineData("ph fell 0.5", -0.2, 0.2, Support.Against)]
    [InlineData("ph fell 0.5", 0.6, 0.2, Support.Against)]
    [InlineData("ph fell 0.5", -0.5, 0.5, Support.Unknown)]
    [InlineData("ph rose 0.5", 0.5, 0.2, Support.For)]
    [InlineData("ph rose 0.5", 0.3, 0.2, Support.Unknown)]
    [InlineData("ph rose 0.5", 0.29, 0.2, Support.Against)]
    public void Judge_Change_MustPassTheNumberAndTheNoise(string condition, double change, double uncertainty, Support expected)
    {
        var parsed = PatternCondition.Parse(condition);
        var facts = PatternFacts.None with { Changes = new Dictionary<string, PatternNumber> { [parsed.Subject] = new((decimal)change, (decimal)uncertainty) } };

        Assert.Equal(expected, PatternEvidence.Judge(parsed, facts));
    }

    [Theory]
    [InlineData("ph is low", Direction.Low, Support.For)]
    [InlineData("ph is low", Direction.High, Support.Against)]
    [InlineData("ph is low", null, Support.Against)]
    [InlineData("ph is in", null, Support.For)]
    [InlineData("ph is in", Direction.Low, Support.Against)]
    [InlineData("ph is high", Direction.High, Support.For)]
    public void Judge_Limits_TellTheSide(string condition, Direction? side, Support expected) =>
        Assert.Equal(expected, PatternEvidence.Judge(PatternCondition.Parse(condition), PatternFacts.None with { Judged = new Dictionary<string, Direction?> { ["ph"] = side } }));

    [Fact]
    public void Judge_Flag_SpeaksOnlyWhenOpen()
    {
        var condition = PatternCondition.Parse("flag:balance open");

        Assert.Equal(Support.For, PatternEvidence.Judge(condition, PatternFacts.None with { OpenRules = ["balance"] }));
        Assert.Equal(Support.Unknown, PatternEvidence.Judge(condition, PatternFacts.None with { OpenRules = ["drift"] }));
    }

    [Fact]
    public void Judge_NothingKnown_SaysNothing() =>
        Assert.All(PatternTable.Shipped.Rows.SelectMany(r => r.Evidence), c => Assert.Equal(Support.Unknown, PatternEvidence.Judge(c, PatternFacts.None)));

    [Theory]
    [InlineData("ph")]
    [InlineData("ph is odd")]
    [InlineData("ph >= much")]
    [InlineData("balance open")]
    public void Parse_NoCondition_IsRefused(string text) => Assert.Throws<FormatException>(() => PatternCondition.Parse(text));
}
