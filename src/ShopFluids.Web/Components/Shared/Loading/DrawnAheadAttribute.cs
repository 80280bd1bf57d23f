namespace ShopFluids.Web.Components.Shared.Loading;

/// <summary>
/// Of a page that stands in its document already, so that it is read before the circuit is there. What it was drawn with is left at the
/// <see cref="Handover"/>: without that the circuit would begin by taking away what stands there.
/// </summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class DrawnAheadAttribute : Attribute;
