using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Core.Wording.Patterns;
using ShopFluids.Rules.Patterns;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Patterns;

/// <summary>Every code of the pattern table has its words, and no words stand for two.</summary>
public sealed class PatternWordsTests
{
    private static readonly IReadOnlyList<PatternRow> Rows = PatternTable.Shipped.Rows;

    [Theory]
    [InlineData("symptoms")]
    [InlineData("causes")]
    [InlineData("checks")]
    [InlineData("actions")]
    [InlineData("cautions")]
    [InlineData("sources")]
    public void EveryCode_HasItsWords(string kind)
    {
        (string[] Codes, Func<string, string> Words) of = kind switch
        {
            "symptoms" => ([.. PatternTable.Shipped.Symptoms.Select(s => s.Code)], PatternSymptomWords.Of),
            "causes" => (Codes(r => [r.Cause]), PatternCauseWords.Of),
            "checks" => (Codes(r => r.Checks), PatternCheckWords.Of),
            "actions" => (Codes(r => r.Actions), PatternActionWords.Of),
            "cautions" => (Codes(r => r.Cautions), PatternCautionWords.Of),
            _ => (Codes(r => r.Sources), PatternSourceWords.Of),
        };

        Assert.NotEmpty(of.Codes);
        Assert.All(of.Codes, c => Assert.False(string.IsNullOrWhiteSpace(of.Words(c)), c));
        Assert.Distinct(of.Codes.Select(of.Words));
        Assert.Throws<ArgumentOutOfRangeException>(() => of.Words("not-a-code"));
    }

    [Theory, EachDatabase]
    public async Task EveryCondition_HasASentenceWithoutEmptyPlaces(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);
        var conditions = Rows.SelectMany(r => r.Evidence).Concat(PatternTable.Shipped.Symptoms.SelectMany(s => s.ShownBy).SelectMany(all => all)).Distinct().ToList();

        var sentences = conditions.ConvertAll(say.Condition);

        Assert.All(sentences, s => Assert.Matches(@"^[^{}]{4,}$", s));
        Assert.Distinct(sentences);
        Assert.All(PatternSubjects.All.Where(PatternSubjects.CanBeFoundOut), s => Assert.Matches(@"^[^{}]+$", say.Next(s)));
    }

    [Theory, EachDatabase]
    public async Task Evidence_ValueKnown_SaysIt(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);
        string Said(string condition, decimal value, decimal change = 0)
        {
            var parsed = PatternCondition.Parse(condition);
            return say.Evidence(parsed, PatternFacts.None with
            {
                Values = new Dictionary<string, PatternNumber> { [parsed.Subject] = new(value, 0) },
                Changes = new Dictionary<string, PatternNumber> { [parsed.Subject] = new(change, 0) },
            });
        }

        Assert.Equal("pH fallen by 0.5 or more (0.7)", Said("ph fell 0.5", 8.4m, -0.7m));
        Assert.Equal("Concentration within its limits (7.9 %)", Said("concentration is in", 7.9m));
        Assert.Equal("At least 3.0 % of the sump gone beyond what was taken out (10.0 %)", Said("level fell 3", 270, -10));
        Assert.Equal("Titration reads at least 2.0 % more than the refractometer (2.4 %)", Said("method-gap <= -2", -2.4m));
        Assert.Equal("Strength of what was put in lately under 10 % of target (0 % of target)", Said("added-share < 10", 0));
        Assert.Equal("Odour: Sour or worse (Rotten egg)", Said("odour >= 2", 3));
        Assert.Equal("Hardness of the make-up water under 50 mg/L", say.Evidence(PatternCondition.Parse("water-hardness < 50"), PatternFacts.None));
    }

    private static string[] Codes(Func<PatternRow, IEnumerable<string>> of) => [.. Rows.SelectMany(of).Distinct(StringComparer.Ordinal)];

    private static async Task<Sentences> SayAsync(ShopFixture shop)
    {
        var setup = await shop.SetupAsync();
        return new(new ShopFormat(CultureInfo.GetCultureInfo("en-GB"), UnitSystem.Metric, setup.Calendar), setup);
    }
}
