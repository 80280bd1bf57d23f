namespace ShopFluids.Core.Record.Trail;

/// <summary>Which entries of the record are looked for; an empty filter finds all.</summary>
/// <param name="From">The first shop day.</param>
/// <param name="To">The last shop day.</param>
/// <param name="Who">The id of the person who acted, or the name of the program.</param>
/// <param name="What">One of <see cref="ActCodes"/>.</param>
/// <param name="About">Part of the tag or name of what it was done to, in capitals or not.</param>
/// <param name="Before">Only entries before this number: the next page.</param>
public sealed record TrailFilter(DateOnly? From = null, DateOnly? To = null, string? Who = null, string? What = null, string? About = null, long? Before = null);
