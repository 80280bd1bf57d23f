namespace ShopFluids.Rules.Tests.SimulatedShop;

/// <summary>What is put in.</summary>
internal enum Trouble
{
    None,

    /// <summary>A hose left running, a cooler that leaks: water runs in and nobody writes it down.</summary>
    Dilution,

    /// <summary>Four times the usual evaporation: a hood left open, a hot job.</summary>
    Evaporation,

    /// <summary>Two weeks of standing, then bacteria: pH falls, the fluid smells, the slide grows.</summary>
    Bacteria,

    /// <summary>Way oil leaks in: the surface closes, and the refractometer reads it as coolant.</summary>
    OilLeak,

    /// <summary>The refractometer's scale walks off by a tenth of a percent a week.</summary>
    DriftingRefractometer,

    /// <summary>Nobody comes any more.</summary>
    MissedRounds,
}
