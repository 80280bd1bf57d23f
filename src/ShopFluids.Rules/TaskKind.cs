namespace ShopFluids.Rules;

/// <summary>What kind of work a task asks for.</summary>
public enum TaskKind : short
{
    /// <summary>Take a reading.</summary>
    Test = 1,

    /// <summary>Top up, swap or dilute by a recipe.</summary>
    Adjust = 2,

    /// <summary>Take off the tramp oil.</summary>
    Skim = 3,

    /// <summary>Change the return filter, bag or paper.</summary>
    ChangeFilter = 4,

    /// <summary>Keep the fluid of a standing machine moving.</summary>
    Circulate = 5,

    /// <summary>Dose an additive per its label.</summary>
    Dose = 6,

    /// <summary>Drain, clean and refill.</summary>
    DrainClean = 7,

    /// <summary>Look for the cause.</summary>
    Inspect = 8,

    /// <summary>Check an instrument.</summary>
    Calibrate = 9,

    /// <summary>Read a dip slide on which something has grown.</summary>
    ReadSlide = 10,
}
