namespace ShopFluids.Calculations.Balances;

/// <summary>What is wrong with a balance.</summary>
public enum BalanceFault
{
    /// <summary>Nothing: neither loss is below 0 by more than its uncertainty.</summary>
    None = 0,

    /// <summary>Evaporation comes out below 0: there is more water than the records explain, or concentrate went missing without its water.</summary>
    EvaporationNegative = 1,

    /// <summary>Carry-off comes out below 0: there is more concentrate than the records explain.</summary>
    CarryOffNegative = 2,

    /// <summary>Both come out below 0: the sump gained mix.</summary>
    BothNegative = 3,
}

/// <summary>What commonly makes a balance fail to close.</summary>
public enum BalanceCause
{
    /// <summary>Water was added and not recorded.</summary>
    UnrecordedWater = 0,

    /// <summary>Concentrate or premix was added and not recorded.</summary>
    UnrecordedConcentrate = 1,

    /// <summary>Foreign water runs in: a cooler, a roof, a washing machine, cleaning of the floor.</summary>
    ForeignWater = 2,

    /// <summary>The emulsion splits: oil leaves it and floats.</summary>
    SplittingEmulsion = 3,

    /// <summary>The skimmer takes coolant or its oil along with the tramp oil.</summary>
    OilSkimmedWithFluid = 4,

    /// <summary>Tramp oil or dissolved dirt is read as coolant.</summary>
    ContaminationReadAsCoolant = 5,
}

/// <summary>Whether a balance closes and, if not, what to look for, the likeliest first (an order by common practice, no source).</summary>
/// <param name="Fault">What is wrong.</param>
/// <param name="LikelyCauses">What to look for; empty where nothing is wrong.</param>
public sealed record BalanceFinding(BalanceFault Fault, IReadOnlyList<BalanceCause> LikelyCauses)
{
    internal static BalanceFinding Of(bool evaporationNegative, bool carryOffNegative) => (evaporationNegative, carryOffNegative) switch
    {
        (true, true) => new(BalanceFault.BothNegative, [BalanceCause.UnrecordedConcentrate, BalanceCause.UnrecordedWater]),
        (true, false) => new(
            BalanceFault.EvaporationNegative,
            [BalanceCause.UnrecordedWater, BalanceCause.ForeignWater, BalanceCause.SplittingEmulsion, BalanceCause.OilSkimmedWithFluid]),
        (false, true) => new(BalanceFault.CarryOffNegative, [BalanceCause.UnrecordedConcentrate, BalanceCause.ContaminationReadAsCoolant]),
        (false, false) => new(BalanceFault.None, []),
    };
}
