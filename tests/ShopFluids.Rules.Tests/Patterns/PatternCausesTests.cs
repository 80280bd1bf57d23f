using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ShopFluids.Rules.Patterns;

namespace ShopFluids.Rules.Tests.Patterns;

public sealed class PatternCausesTests
{
    private static readonly PatternTable Table = PatternTable.Shipped;

    [Fact]
    public void Of_NothingKnown_SaysNothing()
    {
        var found = PatternCauses.Of(PatternFacts.None, Table);

        Assert.Empty(found.Symptoms);
        Assert.Empty(found.Causes);
        Assert.Empty(found.Next);
    }

    // The example of docs/rules/patterns.md.
    [Fact]
    public void Of_LowPhAtASteadyStrengthThatSmells_PutsBacteriaFirst()
    {
        var found = PatternCauses.Of(Known(ph: Direction.Low, concentration: null, odour: 2), Table);

        Assert.Equal(["low-ph", "sour"], found.Symptoms);
        Assert.Equal("bacteria", found.Causes[0].Cause);
        Assert.Equal((2, 0, 1), Counts(found.Causes[0]));
        var dilution = Assert.Single(found.Causes, c => c.Cause == "dilution");
        Assert.Equal((0, 1, 2), Counts(dilution));
        Assert.True(dilution.IsUnlikely);
        Assert.DoesNotContain(dilution, found.Leading);
        Assert.Equal(ParameterCodes.Bacteria, found.Next[0].Subject);
        Assert.True(found.Next[0].TellsApart);
    }

    [Fact]
    public void Of_LowPhAtALowStrength_PutsDilutionFirst()
    {
        var found = PatternCauses.Of(Known(ph: Direction.Low, concentration: Direction.Low, odour: 0), Table);

        Assert.Equal("dilution", found.Causes.First(c => c.Symptoms.Contains("low-ph")).Cause);
        Assert.True(Assert.Single(found.Causes, c => c.Cause == "bacteria").IsUnlikely);
    }

    [Fact]
    public void Of_OneCauseBySeveralSymptoms_IsNamedOnceWithAllThatIsKnown()
    {
        var found = PatternCauses.Of(Known(ph: Direction.High, concentration: Direction.High, odour: 0) with { Seen = ["residue"] }, Table);

        var evaporation = Assert.Single(found.Causes, c => c.Cause == "evaporation");
        Assert.Equal(["high-ph", "high-concentration", "residue"], evaporation.Symptoms);
        Assert.Equal(evaporation.For.Distinct(), evaporation.For);
        Assert.Equal(3, evaporation.Rows.Count);
    }

    [Fact]
    public void Of_SeenOnly_NamesCausesWithoutSupportAndAsksForWhatTellsThemApart()
    {
        var found = PatternCauses.Of(PatternFacts.OnlySeen(["rust"]), Table);

        Assert.Equal(["too-lean", "salts"], found.Causes.Select(c => c.Cause));
        Assert.All(found.Causes, c => Assert.Empty(c.For));
        Assert.Equal(ParameterCodes.Concentration, found.Next[0].Subject);
        Assert.All(found.Next, n => Assert.True(n.TellsApart));
    }

    [Fact]
    public void Of_OneCauseLeft_OnlyMakesSurer()
    {
        var found = PatternCauses.Of(PatternFacts.OnlySeen(["breathing"]), Table);

        Assert.Equal([new NextCheck(ParameterCodes.Bacteria, TellsApart: false)], found.Next);
    }

    [Theory]
    [InlineData(0, 0, false)]
    [InlineData(0, 1, true)]
    [InlineData(1, 1, true)]
    [InlineData(2, 1, false)]
    [InlineData(1, 0, false)]
    public void IsUnlikely_AsMuchAgainstAsFor(int pro, int contra, bool expected)
    {
        var condition = PatternCondition.Parse("ph is low");

        Assert.Equal(expected, new RankedCause("any", [], [.. Enumerable.Repeat(condition, pro)], [.. Enumerable.Repeat(condition, contra)], [], []).IsUnlikely);
    }

    // Whatever is known: what something speaks against never stands before what nothing speaks against.
    [Property(MaxTest = 300)]
    public Property Of_AnyFacts_ContradictedComesAfter() => Prop.ForAll(AnyFacts(), facts =>
    {
        var found = PatternCauses.Of(facts, Table);
        var against = found.Causes.Select(c => c.Against.Count > 0).ToList();
        Assert.Equal(against.Order(), against);
        Assert.Equal(found.Symptoms.Count == 0, found.Causes.Count == 0);
        Assert.Distinct(found.Causes.Select(c => c.Cause));
        Assert.All(found.Causes, c => Assert.Equal(
            c.Rows.SelectMany(r => r.Evidence).Distinct().Count(e => e.Comparison != Comparison.IsOpen || facts.OpenRules.Contains(e.Subject)),
            c.For.Count + c.Against.Count + c.NotKnown.Count));
        Assert.True(found.Next.Count <= PatternCauses.MostChecks);
        Assert.All(found.Next, n => Assert.Contains(found.Leading, c => c.NotKnown.Any(k => k.Subject == n.Subject)));
    });

    private static Arbitrary<PatternFacts> AnyFacts()
    {
        PatternCondition[] conditions = [.. Table.Rows.SelectMany(r => r.Evidence).Concat(Table.Symptoms.SelectMany(s => s.ShownBy).SelectMany(all => all)).Distinct()];
        var facts = from holding in Gen.Elements(conditions).ListOf()
                    from doubts in Gen.Choose(0, 2).ListOf()
                    from shifts in Gen.Choose(-2, 2).ListOf()
                    from seen in Gen.Elements(Table.Symptoms.Select(s => s.Code).ToArray()).ListOf()
                    select Shifted(PatternTableTests.Holding([.. holding], null, []), [.. shifts], [.. doubts]) with { Seen = [.. seen.Distinct(StringComparer.Ordinal)] };
        return facts.ToArbitrary();
    }

    // Moved off the numbers at which the conditions hold, to either side and with more or less doubt.
    private static PatternFacts Shifted(PatternFacts facts, int[] shifts, int[] doubts) => facts with
    {
        Values = facts.Values.Select((v, i) => (v.Key, Number: new PatternNumber(v.Value.Value + At(shifts, i), At(doubts, i)))).ToDictionary(v => v.Key, v => v.Number, StringComparer.Ordinal),
    };

    private static int At(int[] numbers, int place) => numbers.Length == 0 ? 0 : numbers[place % numbers.Length];

    private static PatternFacts Known(Direction ph, Direction? concentration, decimal odour) => PatternFacts.None with
    {
        Values = new Dictionary<string, PatternNumber> { [ParameterCodes.Odour] = new(odour, 0) },
        Judged = new Dictionary<string, Direction?> { [ParameterCodes.Ph] = ph, [ParameterCodes.Concentration] = concentration },
    };

    private static (int For, int Against, int NotKnown) Counts(RankedCause cause) => (cause.For.Count, cause.Against.Count, cause.NotKnown.Count);
}
