using System.Globalization;
using System.Text.RegularExpressions;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Database;
using ShopFluids.Core.Rounds;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Testing;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Wording;

/// <summary>Every code has its words, in every enum that people see.</summary>
public sealed partial class SentencesTests
{
    // Accounts, sheets and the start of the demo have their words beside their pages and verbs, where they are tested.
    private static readonly string?[] SayTheirOwn = ["ShopFluids.Core.People", "ShopFluids.Core.People.Numbers", "ShopFluids.Core.People.Pins", "ShopFluids.Core.People.Stations", "ShopFluids.Core.Sheets", "ShopFluids.Core.DemoData"];

    [Theory, EachDatabase]
    public async Task EveryFieldProblem_HasASentenceWithoutEmptyPlaces(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);

        var sentences = Enum.GetValues<FieldProblem>().Select(p => say.Field(new FieldError("measurements.ph", p, 15, 0, 14, "", "detail"))).ToList();

        Assert.All(sentences, s => Assert.Matches(@"^[^{}]+\.$", s));
        Assert.Equal(sentences.Count, sentences.Distinct(StringComparer.Ordinal).Count());
    }

    [Theory, EachDatabase]
    public async Task EveryError_HasASentenceOfItsOwn(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);

        var unsaid = typeof(Error).Assembly.GetTypes()
            .Where(t => t.IsSubclassOf(typeof(Error)) && t != typeof(FieldErrors) && t != typeof(NothingToSkip) && t != typeof(AdditionDoubted) && !SayTheirOwn.Contains(t.Namespace))
            .Where(t => say.Error((Error)System.Runtime.CompilerServices.RuntimeHelpers.GetUninitializedObject(t)) == Texts.Error_Other)
            .Select(t => t.Name);

        Assert.Empty(unsaid);

        // They list what they are about, and an object made without its constructor has none.
        Assert.NotEqual(Texts.Error_Other, say.Error(new NothingToSkip([Some.SumpTag])));
        Assert.NotEqual(Texts.Error_Other, say.Error(new AdditionDoubted([new NeatConcentrate(2), new NothingTakenOut(3), new OverTheMark(180, 10), new TooStrong(20.3, 11)])));
    }

    // Two tests of one sump must not look the same.
    [Theory, EachDatabase]
    public async Task Task_Test_NamesWhatItMeasures(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var weekly = await shop.StepAsync(Some.Step(TaskKind.Test));
        var slide = await shop.StepAsync(Some.Step(TaskKind.Test, parameters: [ParameterCodes.Bacteria]));
        (await shop.Get<StopCareStepHandler>().HandleAsync(new StopCareStep(slide.Id), Some.Supervisor, TestContext.Current.CancellationToken)).Done();
        var say = await SayAsync(shop);

        Assert.Equal("Test: Concentration, pH", say.Task(TaskKind.Test, $"step:{weekly.Id}", null));
        Assert.Equal("Test: Bacteria", say.Task(TaskKind.Test, $"step:{slide.Id}", null));
        Assert.Equal("Test again: Concentration", say.Task(TaskKind.Test, "limit:concentration", null));
        Assert.Equal("Test again: pH, by another person or method", say.Task(TaskKind.Test, "limit:ph", null));
        Assert.Equal("Test", say.Task(TaskKind.Test, $"step:{Some.Id()}", null));
    }

    // Field names are literals beside the checks; each that the handlers use must have a name beside its box.
    [Theory, EachDatabase]
    public async Task EveryFieldOfAHandler_HasAName(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);
        var core = Path.Combine(Repository.Root, "src", "ShopFluids.Core");
        var fields = Directory.EnumerateFiles(core, "*.cs", SearchOption.AllDirectories)
            .Where(f => !f.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(f => !f.StartsWith(Path.Combine(core, "People"), StringComparison.Ordinal))
            .SelectMany(f => AFieldName().Matches(File.ReadAllText(f)).Select(m => m.Groups["name"].Value))
            .Distinct(StringComparer.Ordinal)
            .ToList();

        Assert.Contains("waterLitres", fields);
        Assert.DoesNotContain(fields, f => say.FieldName(f) == f);
    }

    [Fact]
    public void EveryVerdictTaskAndCaution_HasItsWords()
    {
        var verdicts = from v in Enum.GetValues<Verdict>() from d in Enum.GetValues<Direction>() select Sentences.Verdict(v, d);
        var tasks = Enum.GetValues<TaskKind>().Select(Sentences.Task).ToList();
        var cautions = Enum.GetValues<Caution>().Select(c => Sentences.Caution(c)).ToList();

        Assert.DoesNotContain(verdicts, string.IsNullOrWhiteSpace);
        Assert.Equal(tasks.Count, tasks.Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(cautions.Count, cautions.Distinct(StringComparer.Ordinal).Count());
        Assert.All(Enum.GetValues<TaskKind>().Select(Sentences.TaskLetter), l => Assert.NotEmpty(l));
        Assert.All(cautions, c => Assert.DoesNotContain("!", c, StringComparison.Ordinal));
        Assert.Contains("Binder", Sentences.Caution(Caution.GlovesAndGoggles, "Binder"), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task EveryShippedParameterAndMethod_HasAName(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);

        Assert.All(ShippedParameters.All(), p => Assert.NotEqual(p.Code, say.Parameter(p.Code)));
        Assert.Equal((Texts.Method_Refractometer, Texts.Method_Titration, Texts.Method_Direct), (Sentences.Method("refractometer"), Sentences.Method("titration"), Sentences.Method("direct")));
        Assert.All(ShippedParameters.All().Where(p => p.Scale == Core.Limits.ParameterScale.Words), p => Assert.Equal((int)p.PlausibleHigh + 1, say.Words(p.Code).Count));
    }

    [Theory]
    [EachDatabase("en-GB", UnitSystem.Metric, "8.0 %", "300 mm", "24 °C")]
    [EachDatabase("de-DE", UnitSystem.Metric, "8,0 %", "300 mm", "24 °C")]
    [EachDatabase("en-US", UnitSystem.UsCustomary, "8.0 %", "11.81 in", "75 °F")]
    public async Task Value_InPersonsUnits_HasItsUnit(TestDatabase database, string culture, UnitSystem units, string concentration, string level, string temperature)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop, culture, units);

        Assert.Equal((concentration, level, temperature), (say.Value(ParameterCodes.Concentration, 8), say.Value(ParameterCodes.Level, 300), say.Value(ParameterCodes.Temperature, 24)));
        Assert.Equal(Texts.Word_Odour3, say.Value(ParameterCodes.Odour, 3));
    }

    // A finer meter's second decimal is shown where it was read.
    [Theory, EachDatabase]
    public async Task Value_SecondDecimalOfPh_IsShownWhereItIs(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);

        Assert.Equal(("8.94", "8.9"), (say.Value(ParameterCodes.Ph, 8.94m), say.Value(ParameterCodes.Ph, 8.9m)));
    }

    [Theory, EachDatabase]
    public async Task Flag_OfARealReading_SaysValueAndLimit(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop, "de-DE");
        var flag = Assert.Single((await shop.StoreAsync(Some.Reading(brix: 4.0m))).Raised);

        var sentence = say.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers);

        Assert.Contains("4,0 %", sentence, StringComparison.Ordinal);
        Assert.Contains("5,0 %", sentence, StringComparison.Ordinal);
        Assert.NotEmpty(say.FlagClears(flag.Rule, flag.Parameter, flag.Direction, flag.Numbers));
    }

    // HSE's bands and the words include their edge: at the limit itself the finding is still there. pH does not.
    [Theory]
    [EachDatabase(ParameterCodes.Bacteria, Direction.High, 4, 4, true, "Clears below 4.0")]
    [EachDatabase(ParameterCodes.Bacteria, Direction.High, 4, 3.5, true, "Clears at 3.5")]
    [EachDatabase(ParameterCodes.Ph, Direction.High, 9.5, 9.5, false, "Clears at 9.5 or below.")]
    [EachDatabase(ParameterCodes.Ph, Direction.Low, 8.5, 8.6, false, "Clears at 8.6 or above.")]
    [EachDatabase(ParameterCodes.Ph, Direction.Low, 8.5, 8.5, true, "Clears above 8.5.")]
    [EachDatabase(ParameterCodes.Odour, Direction.High, 3, 3, true, "Clears at Sour or better.")]
    [EachDatabase(ParameterCodes.Odour, Direction.High, 2, 2, false, "Clears at Sour or better.")]
    public async Task FlagClears_EdgeInsideOrBeyond_NamesAValueThatReallyClears(
        TestDatabase database, string parameter, Direction direction, double limit, double clearsAt, bool edgeIsBeyond, string expected)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var numbers = new Dictionary<string, decimal> { [NumberNames.Limit] = (decimal)limit, [NumberNames.ClearsAt] = (decimal)clearsAt };
        if (edgeIsBeyond)
        {
            numbers[NumberNames.EdgeIsBeyond] = 1;
        }

        Assert.StartsWith(expected, (await SayAsync(shop)).FlagClears(Rules.Limit.LimitRule.Code, parameter, direction, numbers), StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task VerdictOn_ParameterThatIsBadOnOneSideOnly_LeavesTheSideOut(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var say = await SayAsync(shop);

        Assert.All(
            [ParameterCodes.Odour, ParameterCodes.Foam, ParameterCodes.Fines, ParameterCodes.TrampOil, ParameterCodes.Bacteria],
            p => Assert.Equal("Action", say.VerdictOn(p, Verdict.Action, Direction.High)));
        Assert.Equal("Action, high", say.VerdictOn(ParameterCodes.Ph, Verdict.Action, Direction.High));
        Assert.Equal("Warning, low", say.VerdictOn(ParameterCodes.Level, Verdict.Warning, Direction.Low));
    }

    private static async Task<Sentences> SayAsync(ShopFixture shop, string culture = "en-GB", UnitSystem units = UnitSystem.Metric)
    {
        var setup = await shop.SetupAsync();
        return new Sentences(new ShopFormat(CultureInfo.GetCultureInfo(culture), units, setup.Calendar), setup);
    }

    [GeneratedRegex("""(?:new FieldError\(|errors\.Add\(new\(|FieldErrors\(\[new\(|SetupFields\.\w+\(errors, |TextChecks\.Check\(errors, |AmountChecks\.Check\(errors, )"(?<name>[A-Za-z]+)"[,)]""", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, 1000)]
    private static partial Regex AFieldName();
}
