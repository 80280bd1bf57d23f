using ShopFluids.Rules.Patterns;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.Tests.Patterns;

public sealed class PatternTableTests
{
    public static TheoryData<string> Rows => [.. PatternTable.Shipped.Rows.Select(r => r.Code)];

    [Fact]
    public void Shipped_Table_HasTheRowsOfTheTrade()
    {
        Assert.Equal(29, PatternTable.Shipped.Symptoms.Count);
        Assert.True(PatternTable.Shipped.Rows.Count >= 48, $"{PatternTable.Shipped.Rows.Count} rows");
    }

    [Fact]
    public void Shipped_Codes_AreEachThereOnce()
    {
        Assert.Distinct(PatternTable.Shipped.Rows.Select(r => r.Code));
        Assert.Distinct(PatternTable.Shipped.Symptoms.Select(s => s.Code));
        Assert.All(PatternTable.Shipped.Symptoms, s => Assert.Contains(PatternTable.Shipped.Rows, r => r.Symptom == s.Code));
    }

    [Theory, MemberData(nameof(Rows))]
    public void Shipped_Row_SaysWhereItComesFromAndWhatToDo(string code)
    {
        var row = PatternTable.Shipped.Rows.Single(r => r.Code == code);
        Assert.NotEmpty(row.Sources);
        Assert.NotEmpty(row.Actions);
    }

    [Fact]
    public void Shipped_Subjects_AreKnown()
    {
        var conditions = PatternTable.Shipped.Rows.SelectMany(r => r.Evidence).Concat(PatternTable.Shipped.Symptoms.SelectMany(s => s.ShownBy).SelectMany(all => all)).ToList();
        HashSet<string> subjects = [.. PatternSubjects.All, .. typeof(ParameterCodes).GetFields().Select(f => (string?)f.GetRawConstantValue() ?? "")];
        Assert.All(conditions.Where(c => c.Comparison != Comparison.IsOpen), c => Assert.Contains(c.Subject, subjects));
        Assert.All(conditions.Where(c => c.Comparison == Comparison.IsOpen), c => Assert.NotNull(RuleRegistry.Find(c.Subject)));
    }

    // What shows a symptom, or a person who sees it, brings up each of its rows; with all its evidence, its cause leads where nothing else has more.
    [Theory, MemberData(nameof(Rows))]
    public void Shipped_Row_IsReached(string code)
    {
        var row = PatternTable.Shipped.Rows.Single(r => r.Code == code);
        var causes = PatternCauses.Of(Holding([], row.Symptom, row.Evidence), PatternTable.Shipped);
        var found = Assert.Single(causes.Causes, c => c.Cause == row.Cause);
        Assert.Contains(row, found.Rows);
        Assert.Empty(row.Evidence.Except(found.For));

        foreach (var shown in Assert.IsType<PatternSymptom>(PatternTable.Shipped.FindSymptom(row.Symptom)).ShownBy)
        {
            Assert.Contains(PatternCauses.Of(Holding(shown, null, []), PatternTable.Shipped).Causes, c => c.Rows.Contains(row));
        }
    }

    [Fact]
    public void Read_ALineThatIsShort_IsRefused() =>
        Assert.Throws<FormatException>(() => PatternTable.Read(["symptom,shown-by", "foam,foam >= 2"], ["row,symptom,cause,evidence,checks,actions,cautions,source", "a,foam,b"]));

    [Fact]
    public void Read_ASymptomThatIsNotThere_IsRefused() =>
        Assert.Throws<FormatException>(() => PatternTable.Read(["symptom,shown-by", "foam,foam >= 2"], ["row,symptom,cause,evidence,checks,actions,cautions,source", "a,rust,b,,,c,,memory"]));

    /// <summary>Facts in which conditions hold.</summary>
    internal static PatternFacts Holding(IReadOnlyList<PatternCondition> first, string? seen, IReadOnlyList<PatternCondition> more)
    {
        var (values, changes, judged, open) = (new Dictionary<string, PatternNumber>(), new Dictionary<string, PatternNumber>(), new Dictionary<string, Direction?>(), new List<string>());
        foreach (var condition in first.Concat(more))
        {
            switch (condition.Comparison)
            {
                case Comparison.IsOpen: open.Add(condition.Subject); break;
                case Comparison.IsLow: judged[condition.Subject] = Direction.Low; break;
                case Comparison.IsWithin: judged[condition.Subject] = null; break;
                case Comparison.IsHigh: judged[condition.Subject] = Direction.High; break;
                case Comparison.Fell: changes[condition.Subject] = new(-condition.Number, 0); break;
                case Comparison.Rose: changes[condition.Subject] = new(condition.Number, 0); break;
                case Comparison.Over: values[condition.Subject] = new(condition.Number + 0.1m, 0); break;
                case Comparison.Under: values[condition.Subject] = new(condition.Number - 0.1m, 0); break;
                default: values[condition.Subject] = new(condition.Number, 0); break;
            }
        }

        return new(values, changes, judged, open, seen is null ? [] : [seen]);
    }
}
