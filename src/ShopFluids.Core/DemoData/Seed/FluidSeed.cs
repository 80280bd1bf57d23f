using ShopFluids.Core.Fluids;

namespace ShopFluids.Core.DemoData.Seed;

/// <param name="FreshPh">Of a fresh mix at the target.</param>
internal sealed record FluidSeed(FluidData Data, decimal TargetLowPercent, decimal TargetHighPercent, double FreshPh, IReadOnlyList<LotSeed> Lots);

/// <param name="Day">Received on this day.</param>
internal sealed record LotSeed(string Number, int Day, decimal Litres, decimal PricePerLitre, int? ShelfLifeDays = null);
