namespace ShopFluids.Rules.Scheduling;

/// <summary>What set the day of a test.</summary>
public enum TestDaySetBy : short
{
    /// <summary>The step's usual interval: too few readings to tell a risk by.</summary>
    Usual = 0,

    /// <summary>The shortest interval: the risk is that high already.</summary>
    Floor = 1,

    /// <summary>The risk reaches what is accepted.</summary>
    Risk = 2,

    /// <summary>The longest interval: the risk stays below what is accepted.</summary>
    Ceiling = 3,
}

/// <summary>Why a test whose interval follows the risk is due when it is. It is stored with the task. Immutable.</summary>
/// <param name="SetBy">What set the day.</param>
/// <param name="Days">The interval, whole days.</param>
/// <param name="CeilingDays">How long the policy alone would wait, days.</param>
/// <param name="AcceptedPercent">The risk that is accepted, %.</param>
/// <param name="Parameter">Whose limit may be crossed; empty where there is no trend to tell by.</param>
/// <param name="Side">On which side.</param>
/// <param name="Limit">That limit, in the parameter's unit.</param>
/// <param name="RiskPercent">The probability on that day that a reading is out of limits, %.</param>
public sealed record TestReason(
    TestDaySetBy SetBy, int Days, int CeilingDays, decimal AcceptedPercent, string Parameter = "", Direction Side = Direction.None, decimal? Limit = null, decimal? RiskPercent = null);
