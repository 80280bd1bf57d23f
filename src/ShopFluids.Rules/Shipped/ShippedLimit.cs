using ShopFluids.Rules.Facts;

namespace ShopFluids.Rules.Shipped;

/// <summary>A row of limits as it is shipped, and where its numbers come from. A shop changes it as it likes.</summary>
/// <param name="Limits">The row.</param>
/// <param name="Source">The document, with edition and place, and how sure it is.</param>
public sealed record ShippedLimit(ParameterLimits Limits, string Source);
