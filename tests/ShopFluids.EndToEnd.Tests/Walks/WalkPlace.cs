namespace ShopFluids.EndToEnd.Tests.Walks;

/// <summary>What the tablet shows.</summary>
internal enum WalkPlace
{
    /// <summary>Something is under way.</summary>
    Moving,

    Entry,

    /// <summary>The entry page, asking whether a value is right.</summary>
    Question,

    /// <summary>The reading is safe on the tablet.</summary>
    Kept,

    /// <summary>The reading is stored.</summary>
    Stored,

    /// <summary>The people to choose from.</summary>
    Tiles,

    /// <summary>The PIN of one of them.</summary>
    Pin,

    /// <summary>Locked without the server: it asks whether it is still the same person.</summary>
    Locked,

    Elsewhere,

    /// <summary>The browser's own page that says that there is no way.</summary>
    NoPage,
}
