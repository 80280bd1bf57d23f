using ShopFluids.Rules.Patterns;

namespace ShopFluids.Rules.Tests.Patterns;

/// <summary>In what order causes and checks come, on a table of its own. What is at 5 is known to be there, what is at 0 known not to be.</summary>
public sealed class PatternRankingTests
{
    private const string Heading = "row,symptom,cause,evidence,checks,actions,cautions,source";

    private static readonly PatternFacts Known = PatternFacts.OnlySeen(["foam"]) with
    {
        Values = new[] { ("a", 5m), ("b", 5m), ("c", 5m), ("d", 5m), ("x", 0m), ("y", 0m), ("z", 0m) }.ToDictionary(v => v.Item1, v => new PatternNumber(v.Item2, 0)),
    };

    // First what nothing speaks against; then by what is left of the support, by all support, by what is still open; then as the table has it.
    [Fact]
    public void Of_CausesWithDifferentSupport_BestSupportedFirst()
    {
        var found = Seek(
            "1,foam,two for one against,a >= 5;b >= 5;x >= 5,,act,,memory",
            "2,foam,one for two open,a >= 5;u >= 5;v >= 5,,act,,memory",
            "3,foam,nothing known,u >= 5,,act,,memory",
            "4,foam,four for three against,a >= 5;b >= 5;c >= 5;d >= 5;x >= 5;y >= 5;z >= 5,,act,,memory",
            "5,foam,three for one against,a >= 5;b >= 5;c >= 5;x >= 5,,act,,memory",
            "6,foam,one for one open,a >= 5;u >= 5,,act,,memory",
            "7,foam,two for,a >= 5;b >= 5,,act,,memory",
            "8,foam,nothing known either,v >= 5,,act,,memory");

        Assert.Equal(
            ["two for", "one for one open", "one for two open", "nothing known", "nothing known either", "three for one against", "four for three against", "two for one against"],
            found.Causes.Select(c => c.Cause));
        Assert.Equal(["two for", "one for one open", "one for two open"], found.Leading.Select(c => c.Cause));
    }

    // What as much speaks against as for is unlikely; where nothing is known, nothing speaks against it.
    [Theory]
    [InlineData(0, 0, false)]
    [InlineData(1, 0, false)]
    [InlineData(0, 1, true)]
    [InlineData(1, 1, true)]
    [InlineData(2, 1, false)]
    public void IsUnlikely_Cause_AsMuchAgainstAsFor(int speakFor, int against, bool isUnlikely)
    {
        static PatternCondition[] Conditions(int count) => [.. Enumerable.Range(0, count).Select(i => new PatternCondition("a", Comparison.AtLeast, i))];

        Assert.Equal(isUnlikely, new RankedCause("air", [], Conditions(speakFor), Conditions(against), [], []).IsUnlikely);
    }

    // s is asked by two leaders in two ways, p and r by one: they tell apart. q is asked by all in one way. Nobody can find out how old the charge is.
    [Fact]
    public void Of_ChecksOfTheLeaders_TheMostTellingThreeComeFirst()
    {
        var found = Seek(
            "1,foam,first,a >= 5;charge-age >= 9;q >= 5;p >= 5;s >= 5;r >= 5,,act,,memory",
            "2,foam,second,a >= 5;q >= 5;s < 5,,act,,memory",
            "3,foam,third,a >= 5;q >= 5,,act,,memory",
            "4,foam,fourth,t >= 5,,act,,memory");

        Assert.Equal([new("s", TellsApart: true), new("p", TellsApart: true), new NextCheck("r", TellsApart: true)], found.Next);
    }

    [Fact]
    public void Of_CheckThatAllLeadersAskInOneWay_ComesAfterWhatTellsApart()
    {
        var found = Seek("1,foam,first,a >= 5;q >= 5,,act,,memory", "2,foam,second,a >= 5;q >= 5;p >= 5,,act,,memory");

        Assert.Equal([new("p", TellsApart: true), new NextCheck("q", TellsApart: false)], found.Next);
    }

    // One cause by two symptoms: a condition that both rows have counts once.
    [Fact]
    public void Of_OneConditionInTwoRows_CountsOnce()
    {
        var table = PatternTable.Read(["symptom,shown-by", "foam,", "rust,"], [Heading, "1,foam,oil,a >= 5;u >= 5,,act,,memory", "2,rust,oil,a >= 5;b >= 5,,act,,memory"]);

        var cause = Assert.Single(PatternCauses.Of(Known with { Seen = ["foam", "rust"] }, table).Causes);

        Assert.Equal((2, 0, 1), (cause.For.Count, cause.Against.Count, cause.NotKnown.Count));
        Assert.Equal(["foam", "rust"], cause.Symptoms);
    }

    // Comments and empty lines are no rows; the heading is none either. Any of the conditions shows a symptom, of those joined all.
    [Fact]
    public void Read_Table_HasWhatItsLinesSay()
    {
        var table = PatternTable.Read(
            ["# what is seen", "symptom,shown-by", "", "foam,foam >= 2;a >= 5&x >= 5", "rust,"],
            ["", "# rows", Heading, "one,foam,air,ph < 9;flag:balance open,look;smell,skim,gloves,memory;hse", "two,rust,salts,,,drain,,memory"]);

        Assert.Equal(["foam", "rust"], table.Symptoms.Select(s => s.Code));
        Assert.Equal([1, 2], table.Symptoms[0].ShownBy.Select(all => all.Count));
        Assert.Empty(table.Symptoms[1].ShownBy);
        var row = table.Rows[0];
        Assert.Equal(("one", "foam", "air"), (row.Code, row.Symptom, row.Cause));
        Assert.Equal([new PatternCondition("ph", Comparison.Under, 9), new("balance", Comparison.IsOpen, 0)], row.Evidence);
        Assert.Equal("look smell|skim|gloves|memory hse", string.Join('|', new[] { row.Checks, row.Actions, row.Cautions, row.Sources }.Select(c => string.Join(' ', c))));
        Assert.Equal("two", table.Rows[1].Code);
        Assert.Null(table.FindSymptom("smoke"));
    }

    [Theory]
    [InlineData(2, 0, true)]
    [InlineData(1, 5, false)]
    [InlineData(0, 6, true)]
    [InlineData(0, 0, false)]
    public void IsThere_Symptom_ByAnyOfWhatShowsItAndAllOfWhatIsJoined(int foam, int other, bool isThere)
    {
        var symptom = PatternTable.Read(["symptom,shown-by", "foam,foam >= 2;a >= 5&x >= 5"], [Heading]).Symptoms[0];
        var facts = PatternFacts.None with { Values = new Dictionary<string, PatternNumber> { ["foam"] = new(foam, 0), ["a"] = new(5, 0), ["x"] = new(other - 1, 0) } };

        Assert.Equal(isThere, PatternEvidence.IsThere(symptom, facts));
        Assert.True(PatternEvidence.IsThere(symptom, facts with { Seen = ["foam"] }));
        Assert.False(PatternEvidence.IsThere(symptom, PatternFacts.OnlySeen(["rust"])));
    }

    private static PatternCauses Seek(params string[] rows) => PatternCauses.Of(Known, PatternTable.Read(["symptom,shown-by", "foam,"], [Heading, .. rows]));
}
