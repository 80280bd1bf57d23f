using System.Globalization;
using ShopFluids.Rules.Disagreement;
using ShopFluids.Rules.FirstFillDrop;
using ShopFluids.Rules.Limit;
using ShopFluids.Rules.MassBalance;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.OverdueTest;
using ShopFluids.Rules.RunDry;
using ShopFluids.Rules.SuddenChange;
using ShopFluids.Rules.UnusualLoss;

namespace ShopFluids.Rules.Tests.SimulatedShop;

/// <summary>What the rules made of one kind of fault.</summary>
/// <param name="Found">How many were found by a flag that names the right thing.</param>
/// <param name="MedianDays">From onset to the first right flag.</param>
/// <param name="MedianReadings">Readings from the first at which the fault could be told from noise, that one counted.</param>
internal sealed record FaultResult(Trouble Trouble, int Put, int Found, double MedianDays, double MedianReadings);

/// <summary>Thirty sumps of a shop for two years, and as many again of each fault; always the same numbers.</summary>
internal sealed class MeasuredShop
{
    private const int Healthy = 30;
    private const int OfEachFault = 30;
    private const int EarliestOnset = 20;
    private const int LatestOnset = 80;

    private MeasuredShop(IReadOnlyList<FaultResult> faults, IReadOnlyList<(string Rule, int Count)> falseFlags) => (Faults, FalseFlags) = (faults, falseFlags);

    public IReadOnlyList<FaultResult> Faults { get; }

    /// <summary>On healthy sumps, by rule.</summary>
    public IReadOnlyList<(string Rule, int Count)> FalseFlags { get; }

    public static double SumpMonths => Healthy * SimulatedSump.Weeks * 7 / 30.4375;

    public double FalseFlagsPerSumpMonth => FalseFlags.Sum(f => f.Count) / SumpMonths;

    public static MeasuredShop Run()
    {
        var healthy = Enumerable.Range(0, Healthy).SelectMany(seed => new SimulatedSump(seed, Trouble.None, 0).Run().Raised).ToList();
        return new(
            [.. Enum.GetValues<Trouble>().Where(t => t != Trouble.None).Select(Measure)],
            [.. healthy.GroupBy(f => f.Rule, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => (g.Key, g.Count()))]);
    }

    /// <summary>The page that the command writes.</summary>
    public string ToMarkdown()
    {
        var culture = CultureInfo.InvariantCulture;
        var lines = new List<string>
        {
            "# How good the rules are",
            "",
            "Written by `bash deploy/dev/measure-rules.sh`; a test fails when the rules give other numbers than stand here. The simulated shop is",
            "`tests/ShopFluids.Rules.Tests/SimulatedShop`: sumps of 300 L, read once a week for two years, topped up by the recipe that the rules give, with the noise of",
            "hand instruments and pouring. Its numbers are assumptions from memory, not measurements of a real shop.",
            "",
            "A fault counts as found when a rule flags what the fault shows in. Readings are counted from the first at which the fault could be told from noise",
            "(two standard deviations of a difference of two readings), that one counted; for the refractometer those beside which there is a titration, once in four weeks.",
            "",
            "| fault put in | sumps | found | median days from onset | median readings |",
            "| --- | --- | --- | --- | --- |",
        };
        lines.AddRange(Faults.Select(f => string.Create(culture, $"| {Name(f.Trouble)} | {f.Put} | {100.0 * f.Found / f.Put:0} % | {f.MedianDays:0} | {f.MedianReadings:0.#} |")));
        lines.AddRange(
        [
            "",
            string.Create(culture, $"False flags on {Healthy} healthy sumps: {FalseFlagsPerSumpMonth:0.000} a sump and month. A limit that is truly crossed, if only for a day, is none."),
            "",
            "| rule | false flags in two years of 30 sumps | a sump and month |",
            "| --- | --- | --- |",
        ]);
        lines.AddRange(FalseFlags.Select(f => string.Create(culture, $"| {f.Rule} | {f.Count} | {f.Count / SumpMonths:0.000} |")));
        return string.Join('\n', lines) + "\n";
    }

    private static FaultResult Measure(Trouble trouble)
    {
        var (days, readings) = (new List<double>(), new List<double>());
        for (var n = 0; n < OfEachFault; n++)
        {
            var onset = EarliestOnset + (n * (LatestOnset - EarliestOnset) / OfEachFault);
            var sump = new SimulatedSump((1000 * (int)trouble) + n, trouble, onset).Run();
            var first = sump.Raised.Where(f => f.Week > onset - (trouble == Trouble.MissedRounds ? 1 : 0) && IsRight(trouble, f.Rule, f.Parameter)).Select(f => (int?)f.Week).FirstOrDefault();
            if (first is { } week)
            {
                days.Add(7.0 * (week - onset));
                readings.Add(Math.Max(1, Enumerable.Range(sump.Distinguishable ?? week, Math.Max(0, week - (sump.Distinguishable ?? week) + 1)).Count(sump.Tells)));
            }
        }

        return new(trouble, OfEachFault, days.Count, Median(days), Median(readings));
    }

    // Fair to the machinist: the flag leads to what is wrong.
    private static bool IsRight(Trouble trouble, string rule, string parameter) => (trouble, rule, parameter) switch
    {
        (Trouble.Dilution, LimitRule.Code, ParameterCodes.Concentration or ParameterCodes.Level) => true,
        (Trouble.Dilution, SuddenChangeRule.RuleCode, ParameterCodes.Concentration) => true,
        (Trouble.Dilution, BalanceRule.RuleCode, _) => true,
        (Trouble.Evaporation, LimitRule.Code, ParameterCodes.Concentration or ParameterCodes.Level) => true,
        (Trouble.Evaporation, SuddenChangeRule.RuleCode, ParameterCodes.Concentration) => true,
        (Trouble.Evaporation, RunDryRule.RuleCode or UnusualLossRule.RuleCode, _) => true,
        (Trouble.Bacteria, MicrobialRule.RuleCode or FirstFillDropRule.Code, _) => true,
        (Trouble.Bacteria, LimitRule.Code, ParameterCodes.Bacteria or ParameterCodes.Odour or ParameterCodes.Ph) => true,
        (Trouble.Bacteria, SuddenChangeRule.RuleCode, ParameterCodes.Ph) => true,
        (Trouble.OilLeak, LimitRule.Code, ParameterCodes.TrampOil) => true,
        (Trouble.OilLeak, DisagreementRule.RuleCode, _) => true,
        (Trouble.DriftingRefractometer, DisagreementRule.RuleCode, _) => true,
        (Trouble.DriftingRefractometer, BalanceRule.RuleCode, _) => true,
        (Trouble.MissedRounds, OverdueTestRule.Code, _) => true,
        _ => false,
    };

    private static string Name(Trouble trouble) => trouble switch
    {
        Trouble.Dilution => "water runs in unrecorded, 5 L a day",
        Trouble.Evaporation => "four times the evaporation",
        Trouble.Bacteria => "bacteria after two weeks of standing",
        Trouble.OilLeak => "way oil leaks in",
        Trouble.DriftingRefractometer => "refractometer walks off by 0.1 % a week",
        Trouble.MissedRounds => "nobody comes any more",
        _ => throw new ArgumentOutOfRangeException(nameof(trouble), trouble, "No fault."),
    };

    private static double Median(List<double> values)
    {
        values.Sort();
        return values.Count == 0 ? double.NaN : values.Count % 2 == 1 ? values[values.Count / 2] : (values[(values.Count / 2) - 1] + values[values.Count / 2]) / 2;
    }
}
