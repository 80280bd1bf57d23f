namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>A reading that somebody typed in a walk, known by its note wherever it is.</summary>
/// <param name="Note">No other reading has it.</param>
internal sealed record WalkReading(string Note, Guid Person)
{
    /// <summary>What was typed last, by the parameter.</summary>
    public Dictionary<string, string> Values { get; } = new(StringComparer.Ordinal);

    public WalkReadingState State { get; set; }

    /// <summary>It was in the outbox when the tablet was last looked at.</summary>
    public bool IsWaiting { get; set; }

    /// <summary>Something came between saving it and hearing that it is stored: it may be on the tablet and in the database at once, until the tablet hears so.</summary>
    public bool MayBeInFlight { get; set; }
}

internal enum WalkReadingState
{
    /// <summary>On the tablet as a draft and nowhere else.</summary>
    Typed,

    /// <summary>The tablet has said that it is safe.</summary>
    Saved,

    /// <summary>The tablet was switched off just as it was to be saved: typed or saved, as it turns out.</summary>
    BrokenOff,

    /// <summary>Somebody pressed "discard".</summary>
    ThrownAway,
}
