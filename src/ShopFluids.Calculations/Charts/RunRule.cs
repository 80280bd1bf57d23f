namespace ShopFluids.Calculations.Charts;

/// <summary>
/// Patterns that a process without special causes seldom makes. L. S. Nelson, "The Shewhart control chart: tests for special causes",
/// Journal of Quality Technology 16 (1984) 237, and the Western Electric handbook (1956); both from memory. "Beyond" is strictly beyond.
/// </summary>
public enum RunRule
{
    /// <summary>One reading beyond three sigma (Nelson 1, Western Electric 1).</summary>
    OneBeyondThreeSigma = 1,

    /// <summary>Nine in a row on one side of the centre (Nelson 2).</summary>
    NineOnOneSide = 2,

    /// <summary>Six in a row, each above the one before, or each below (Nelson 3).</summary>
    SixRisingOrFalling = 3,

    /// <summary>Fourteen in a row, up and down in turn (Nelson 4).</summary>
    FourteenUpAndDown = 4,

    /// <summary>The last and one or both of the two before beyond two sigma on its side (Nelson 5, Western Electric 2).</summary>
    TwoOfThreeBeyondTwoSigma = 5,

    /// <summary>The last and at least three of the four before beyond one sigma on its side (Nelson 6, Western Electric 3).</summary>
    FourOfFiveBeyondOneSigma = 6,

    /// <summary>Fifteen in a row nearer than one sigma: the limits are too wide (Nelson 7).</summary>
    FifteenWithinOneSigma = 7,

    /// <summary>Eight in a row beyond one sigma, on either side: two processes mixed (Nelson 8).</summary>
    EightBeyondOneSigma = 8,

    /// <summary>Eight in a row on one side of the centre (Western Electric 4).</summary>
    EightOnOneSide = 9,
}
