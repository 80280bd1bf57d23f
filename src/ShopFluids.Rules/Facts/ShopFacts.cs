namespace ShopFluids.Rules.Facts;

/// <summary>What is known of a lot of concentrate.</summary>
/// <param name="ExpiresOn">The last day on which it may be used.</param>
/// <param name="OpenedOn">The shop day on which it was first drawn from; null while it is closed.</param>
/// <param name="OpenedLifeDays">For how many days it may be used once opened, by its data sheet; null where the sheet does not say.</param>
public sealed record LotFacts(Guid Id, DateOnly ExpiresOn, decimal RemainingLitres, bool IsQuarantined, DateOnly? OpenedOn, int? OpenedLifeDays);

/// <summary>What the stores hold of a fluid, and what will be wanted of it.</summary>
/// <param name="UsableLitres">In lots that may be used, L.</param>
/// <param name="PlannedLitres">For the refills planned within <see cref="Lot.LotRule.HorizonDays"/>, L of concentrate.</param>
/// <param name="UsedPerDayLitres">By topping up, L of concentrate a day.</param>
public sealed record StockFacts(Guid FluidId, decimal UsableLitres, decimal PlannedLitres, decimal UsedPerDayLitres);

/// <summary>What is known of an instrument that has to be checked.</summary>
/// <param name="CheckedOn">When it was last checked; null when nothing is on record.</param>
/// <param name="EveryDays">For how many days a check holds, 1 or more.</param>
public sealed record InstrumentFacts(Guid Id, DateOnly? CheckedOn, int EveryDays);
