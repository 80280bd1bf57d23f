using ShopFluids.Calculations.Mixing;
using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Judging;
using ShopFluids.Rules.Microbial;
using ShopFluids.Rules.RunDry;

namespace ShopFluids.Rules.Advice;

/// <summary>The cautions that belong beside the advice. They never replace the safety data sheet, local codes or licensed practice.</summary>
public static class CautionAdvice
{
    /// <summary>The word of the odour from which on there may be hydrogen sulphide: sour, then rotten egg.</summary>
    public const decimal GasFromOdour = 2;

    // What can kill comes first.
    private static readonly Caution[] MostImportantFirst =
    [
        Caution.HydrogenSulphide,
        Caution.LockOut,
        Caution.PumpRunsDry,
        Caution.ResidualCurrent,
        Caution.Nitrosamines,
        Caution.BiocideByLabel,
        Caution.GlovesAndGoggles,
        Caution.ConcentrateIntoWater,
        Caution.RegulatedWaste,
        Caution.OccupationalHealth,
    ];

    /// <summary>The cautions, most important first.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="flags">Flags on what this reading measured that are open after it.</param>
    /// <param name="work">Kinds of corrective work that these flags ask for.</param>
    /// <param name="recipe">The recipe, if there is one.</param>
    public static IReadOnlyList<Caution> For(
        ReadingFacts reading,
        IReadOnlyList<FlagState> flags,
        IReadOnlySet<TaskKind> work,
        TopUpRecipe? recipe)
    {
        var found = new HashSet<Caution>();
        AddFor(recipe, found);
        foreach (var kind in work)
        {
            AddFor(kind, found);
        }

        foreach (var flag in flags)
        {
            AddFor(flag.Parameter, flag.Severity, flag.Direction, found);
            AddFor(flag.Rule, flag.Severity, found);
        }

        if (reading.Measurements.Any(m => m.Parameter == ParameterCodes.Odour && WarnsOfGas(m.Value)))
        {
            found.Add(Caution.HydrogenSulphide);
        }

        return [.. MostImportantFirst.Where(found.Contains)];
    }

    /// <summary>Whether a smell warns of hydrogen sulphide.</summary>
    /// <param name="odour">The word's number, 0 to 3.</param>
    public static bool WarnsOfGas(decimal odour) => odour >= GasFromOdour;

    /// <summary>Whether a sump smelled of hydrogen sulphide when somebody last smelled at it.</summary>
    /// <param name="facts">Where it stands; null where nothing is known.</param>
    public static bool WarnsOfGas(StandingFacts? facts) => facts?.Latest.TryGetValue(ParameterCodes.Odour, out var odour) == true && WarnsOfGas(odour.Value);

    /// <summary>Whether a flag was raised by a smell that warns of hydrogen sulphide.</summary>
    /// <param name="parameter">The flag's parameter.</param>
    /// <param name="numbers">What it was raised with.</param>
    public static bool WarnsOfGas(string parameter, IReadOnlyDictionary<string, decimal> numbers)
    {
        ArgumentNullException.ThrowIfNull(numbers);
        return numbers.TryGetValue(parameter == ParameterCodes.Odour ? NumberNames.Value : NumberNames.Odour, out var odour) && WarnsOfGas(odour);
    }

    /// <summary>The cautions that belong to a kind of work by itself, most important first.</summary>
    /// <param name="kind">The kind of work.</param>
    public static IReadOnlyList<Caution> ForWork(TaskKind kind)
    {
        var found = new HashSet<Caution>();
        AddFor(kind, found);
        return [.. MostImportantFirst.Where(found.Contains)];
    }

    private static void AddFor(TopUpRecipe? recipe, HashSet<Caution> found)
    {
        if (recipe is { ConcentrateLitres: > 0 })
        {
            found.UnionWith([Caution.GlovesAndGoggles, Caution.ConcentrateIntoWater]);
        }

        if (recipe is { RemoveLitres: > 0 })
        {
            found.UnionWith([Caution.RegulatedWaste, Caution.LockOut]);
        }
    }

    private static void AddFor(TaskKind kind, HashSet<Caution> found) => found.UnionWith(kind switch
    {
        TaskKind.Skim or TaskKind.Circulate => [Caution.ResidualCurrent],
        TaskKind.DrainClean => [Caution.LockOut, Caution.RegulatedWaste, Caution.GlovesAndGoggles],
        TaskKind.ChangeFilter => [Caution.LockOut],
        TaskKind.Dose => [Caution.GlovesAndGoggles, Caution.BiocideByLabel],
        TaskKind.Test or TaskKind.Adjust or TaskKind.Inspect or TaskKind.Calibrate or TaskKind.ReadSlide => Array.Empty<Caution>(),
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind of work."),
    });

    private static void AddFor(string rule, Verdict severity, HashSet<Caution> found)
    {
        // A warning says that the sump will not do for long, not that the pump draws air.
        if (rule == RunDryRule.RuleCode && severity == Verdict.Action)
        {
            found.Add(Caution.PumpRunsDry);
        }

        // A heavy load that is killed at once lets its endotoxin go: nobody doses on this finding alone.
        if (rule == MicrobialRule.RuleCode)
        {
            found.Add(Caution.BiocideByLabel);
        }
    }

    private static void AddFor(string parameter, Verdict severity, Direction direction, HashSet<Caution> found)
    {
        if ((parameter == ParameterCodes.Ph && direction == Direction.Low) || parameter is ParameterCodes.Bacteria or ParameterCodes.Odour)
        {
            found.Add(Caution.BiocideByLabel);
        }

        if (parameter == ParameterCodes.Nitrite)
        {
            found.Add(Caution.Nitrosamines);
        }

        // Over-strong and strongly alkaline fluid irritates the skin; bacteria in the mist irritate the lungs.
        if (severity == Verdict.Action && ((parameter is ParameterCodes.Concentration or ParameterCodes.Ph && direction == Direction.High) || parameter == ParameterCodes.Bacteria))
        {
            found.Add(Caution.OccupationalHealth);
        }
    }
}
