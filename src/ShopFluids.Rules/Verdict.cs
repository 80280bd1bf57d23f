namespace ShopFluids.Rules;

/// <summary>How a measurement, a reading or a sump stands against its limits, ordered so that the larger value is the worse one.</summary>
public enum Verdict : short
{
    /// <summary>Nothing was measured, or no limit applies: nobody knows.</summary>
    NotMeasured = 0,

    /// <summary>Inside the warning limits.</summary>
    InRange = 1,

    /// <summary>Beyond a warning limit (ISO 7870: look closer).</summary>
    Warning = 2,

    /// <summary>Beyond an action limit (ISO 7870: act).</summary>
    Action = 3,
}

/// <summary>On which side of its limits a value lies.</summary>
public enum Direction : short
{
    /// <summary>No side: inside the limits, or a finding without a side.</summary>
    None = 0,

    /// <summary>Under a lower limit.</summary>
    Low = 1,

    /// <summary>Over an upper limit.</summary>
    High = 2,
}
