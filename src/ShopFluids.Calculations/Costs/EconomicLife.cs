namespace ShopFluids.Calculations.Costs;

/// <summary>What to do with a charge.</summary>
public enum ChargeDecision
{
    /// <summary>Another day costs less than the average of a whole life.</summary>
    Keep = 0,

    /// <summary>Another day costs at least the average of a new charge at its best.</summary>
    Drain = 1,

    /// <summary>Its condition says so, whatever it costs: health, safety and quality go first.</summary>
    DrainForCondition = 2,
}

/// <summary>
/// Economic life: the age T at which the average cost per day (F + Σ c_i up to T) / T is least, F the cost of draining, cleaning and refilling, c_i
/// that of care on day i. Textbook of replacement, from memory. Money never argues against a condition that says drain.
/// </summary>
/// <param name="BestDays">T, days; the first where several are equal.</param>
/// <param name="LeastAveragePerDay">Average cost per day at T.</param>
/// <param name="IsStillFalling">Whether the average was still falling on the last day given: the true best age lies beyond the forecast.</param>
public sealed record EconomicLife(int BestDays, decimal LeastAveragePerDay, bool IsStillFalling)
{
    private const int MostDays = 10_000;

    /// <summary>The best age.</summary>
    /// <param name="refillCost">F, 0 to 10⁹ of the currency.</param>
    /// <param name="careCostByDay">c_1, c_2 …: cost of care for each day of a charge's life, 1 to 10 000 days, each 0 to 10⁹.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static EconomicLife Of(decimal refillCost, IReadOnlyList<decimal> careCostByDay)
    {
        var averages = AverageByDay(refillCost, careCostByDay);
        var best = 1;
        for (var day = 2; day <= averages.Count; day++)
        {
            if (averages[day - 1] < averages[best - 1])
            {
                best = day;
            }
        }

        return new(best, averages[best - 1], best == averages.Count);
    }

    /// <summary>The average cost per day up to each age: (F + c_1) / 1, (F + c_1 + c_2) / 2 …</summary>
    /// <param name="refillCost">F, 0 to 10⁹ of the currency.</param>
    /// <param name="careCostByDay">c_1, c_2 …, 1 to 10 000 days, each 0 to 10⁹.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is out of its range.</exception>
    public static IReadOnlyList<decimal> AverageByDay(decimal refillCost, IReadOnlyList<decimal> careCostByDay)
    {
        ArgumentNullException.ThrowIfNull(careCostByDay);
        var spent = Money.Sum(refillCost);
        if (careCostByDay.Count is 0 or > MostDays)
        {
            throw new ArgumentOutOfRangeException(nameof(careCostByDay), careCostByDay.Count, "Accepted are 1 to 10 000 days.");
        }

        var averages = new decimal[careCostByDay.Count];
        for (var day = 1; day <= averages.Length; day++)
        {
            spent += Money.Sum(careCostByDay[day - 1], nameof(careCostByDay));
            averages[day - 1] = spent / day;
        }

        return averages;
    }

    /// <summary>Keep a charge as long as another day costs less than the least average of a new one; never against its condition.</summary>
    /// <param name="careCostOfNextDay">Care forecast for the next day, 0 to 10⁹.</param>
    /// <param name="conditionSaysDrain">Whether a rule on its condition (pH fall, bacteria, nitrite, odour …) says drain.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="careCostOfNextDay"/> is out of its range.</exception>
    public ChargeDecision Decide(decimal careCostOfNextDay, bool conditionSaysDrain)
    {
        Money.Sum(careCostOfNextDay);
        return conditionSaysDrain ? ChargeDecision.DrainForCondition
            : careCostOfNextDay < LeastAveragePerDay ? ChargeDecision.Keep
            : ChargeDecision.Drain;
    }
}
