namespace ShopFluids.Core.DemoData.Generated;

/// <summary>Something done to a sump, and the rows that it made and changed.</summary>
/// <param name="Code">One of <see cref="Record.ActCodes"/>.</param>
internal sealed record SumpAct(string Code, IReadOnlyList<object> Added, IReadOnlyList<object> Changed);
