namespace ShopFluids.Core.Charges;

/// <summary>What was unusual about an addition that was noted all the same, as <see cref="AdditionDoubts"/> says it: kept, because the record says what happened.</summary>
[Flags]
public enum UnusualAddition : short
{
    None = 0,

    /// <summary>Concentrate without water.</summary>
    Neat = 1,

    /// <summary>Nothing was taken out where the recipe takes out first.</summary>
    NothingTakenOut = 2,

    /// <summary>The sump then stood above its full mark.</summary>
    OverTheMark = 4,

    /// <summary>The mixture then came to more than the action limit, by reckoning.</summary>
    TooStrong = 8,
}
