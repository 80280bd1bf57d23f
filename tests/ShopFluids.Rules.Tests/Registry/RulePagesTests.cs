using System.Globalization;
using System.Text.RegularExpressions;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.Registry;

/// <summary>What the pages of docs/rules say of each rule's version and numbers is what the rule has.</summary>
public sealed partial class RulePagesTests
{
    public static TheoryData<string> Codes => [.. RuleRegistry.All.Select(r => r.Code)];

    [Theory, MemberData(nameof(Codes))]
    public void Page_OfARule_TellsItsVersion(string code) =>
        Assert.Contains($"Version {Find(code).Version}.", File.ReadAllText(Page(code)), StringComparison.Ordinal);

    [Theory, MemberData(nameof(Codes))]
    public void Page_OfARule_TellsItsNumbersWithDefaultAndRange(string code)
    {
        var told = File.ReadLines(Page(code)).Select(l => Row().Match(l)).Where(m => m.Success)
            .Select(m => (m.Groups["name"].Value, Number(m, "default"), Number(m, "least"), Number(m, "most")));

        Assert.Equal(Find(code).Numbers.Select(n => (n.Name, n.Default, n.Least, n.Most)), told);
    }

    // Half a reading or half a comeback is nothing that can be set; half a litre is.
    [Theory]
    [InlineData("sudden-change", "leastChanges,settlesAfterDays")]
    [InlineData("drift", "leastReadings,usualReadings")]
    [InlineData("disagreement", "")]
    [InlineData("balance", "")]
    [InlineData("unusual-loss", "leastIntervals")]
    [InlineData("microbial", "")]
    [InlineData("run-dry", "")]
    [InlineData("end-of-life", "oldDays,comebacks,withinDays")]
    [InlineData("idle", "allowedShopDays,testLateShopDays")]
    [InlineData("unread-slide", "incubatorHours,roomHours,windowHours")]
    [InlineData("escalation", "warningShopDays,actionHours")]
    [InlineData("gathering", "windowShopDays")]
    public void Numbers_OfARule_AreWholeWhereTheyCount(string code, string whole) =>
        Assert.Equal(whole, string.Join(',', Find(code).Numbers.Where(n => n.IsWhole).Select(n => n.Name)));

    // What is due after a standing machine, a trend or a worn charge is a test of the fluid, and no second look by somebody else.
    [Theory]
    [InlineData("sudden-change", true)]
    [InlineData("drift", false)]
    [InlineData("end-of-life", false)]
    [InlineData("idle", false)]
    [InlineData("unread-slide", false)]
    [InlineData("escalation", false)]
    public void AsksForASecondLook_Rule_OnlyWhereItsTestIsOne(string code, bool expected) => Assert.Equal(expected, Find(code).AsksForASecondLook);

    [Fact]
    public void Find_CodeThatIsNoRuleOfTheRegistry_IsNone() => Assert.All(["limit", "overdue-test", "", "Drift"], code => Assert.Null(RuleRegistry.Find(code)));

    [Fact]
    public void Number_ThatTheRuleDoesNotHave_IsAWrongCall() =>
        Assert.Throws<InvalidOperationException>(() => TunedRule.Of(RuleRegistry.Idle, Some.NoTunings).Number("horizonDays"));

    // What is set for one number leaves the others at their defaults.
    [Fact]
    public void Number_SetAndNotSet_IsWhatIsSetOtherwiseTheDefault()
    {
        var tuned = TunedRule.Of(RuleRegistry.Escalation, Some.Tuned("escalation", ("actionHours", 3)));

        Assert.Equal((true, 3m, 2m), (tuned.IsOn, tuned.Number("actionHours"), tuned.Number("warningShopDays")));
    }

    private static IRule Find(string code) => RuleRegistry.Find(code) ?? throw new InvalidOperationException($"There is no rule {code}.");

    private static string Page(string code) => Repository.PathOf("docs", "rules", $"{code}.md");

    private static decimal Number(Match row, string group) => decimal.Parse(row.Groups[group].Value.Replace(" ", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\| (?<name>[a-z]\w*) \| (?<default>[0-9. ]+) \| (?<least>[0-9. ]+) to (?<most>[0-9. ]+) \|", RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Row();
}
