using System.Globalization;
using System.Text.RegularExpressions;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.Shipped;

namespace ShopFluids.Rules.Tests.Shipped;

/// <summary>DGUV Regel 109-003 (May 2009, updated March 2011), Annex 3: the limits shipped are those of the plan.</summary>
public sealed partial class DguvAnnex3Tests
{
    [Fact]
    public void PhDrop_AgainstThePlan_HasItsTwoLimits() =>
        Assert.Equal(LimitsOfThePlan("pH"), [DguvAnnex3.PhDrop.Limits.WarningHigh, DguvAnnex3.PhDrop.Limits.ActionHigh]);

    [Fact]
    public void Nitrite_AgainstThePlan_HasItsLimit() => Assert.Equal(LimitsOfThePlan("nitrite"), [DguvAnnex3.Nitrite.Limits.ActionHigh]);

    [Fact]
    public void MakeUpNitrate_AgainstThePlan_HasItsLimit() =>
        Assert.Equal(LimitsOfThePlan("nitrate/nitrite of make-up water (if not public supply)"), [DguvAnnex3.MakeUpNitrate.Limits.ActionHigh]);

    [Theory]
    [InlineData("19.9", Verdict.InRange)]
    [InlineData("20", Verdict.InRange)]
    [InlineData("20.1", Verdict.Action)]
    public void Nitrite_AtItsLimit_IsInside(string value, Verdict verdict) => Assert.Equal(verdict, Judge(value, DguvAnnex3.Nitrite.Limits));

    [Theory]
    [InlineData("49.9", Verdict.InRange)]
    [InlineData("50", Verdict.InRange)]
    [InlineData("50.1", Verdict.Action)]
    public void MakeUpNitrate_AtItsLimit_IsInside(string value, Verdict verdict) => Assert.Equal(verdict, Judge(value, DguvAnnex3.MakeUpNitrate.Limits));

    [Fact]
    public void All_EveryRow_NamesTheRule() => Assert.All(DguvAnnex3.All, l => Assert.StartsWith("DGUV Regel 109-003", l.Source, StringComparison.Ordinal));

    private static Verdict? Judge(string value, ParameterLimits limits) =>
        LimitRow.Judge(decimal.Parse(value, CultureInfo.InvariantCulture), limits)?.Verdict;

    private static List<decimal?> LimitsOfThePlan(string parameter) =>
    [
        .. Vector.Rows("dguv_109_003_check_plan.csv")
            .Where(r => r[1] == parameter)
            .Select(r => (decimal?)decimal.Parse(Over().Match(r[4]).Groups["limit"].Value, CultureInfo.InvariantCulture)),
    ];

    [GeneratedRegex(@"> (?<limit>[0-9.]+)", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Over();
}
