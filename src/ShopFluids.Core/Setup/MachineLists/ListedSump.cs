using ShopFluids.Core.Database;

namespace ShopFluids.Core.Setup.MachineLists;

/// <summary>A line of a list as it would be set up.</summary>
/// <param name="Sump">What it says; without meaning where its measures cannot be read.</param>
/// <param name="IsAreaNew">The area is made with it.</param>
/// <param name="Errors">By the fields of the line; none when it is good.</param>
public sealed record ListedSump(MachineLine Line, AddSump Sump, bool IsAreaNew, IReadOnlyList<FieldError> Errors);
