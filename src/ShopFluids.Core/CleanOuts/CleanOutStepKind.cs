namespace ShopFluids.Core.CleanOuts;

/// <summary>The steps of a clean-out, in their order. The first reading of the new charge ends it and is no step of its own.</summary>
public enum CleanOutStepKind : short
{
    Plan = 1,

    /// <summary>Safety data sheets read, protection on.</summary>
    SafetySheets = 2,
    Cleaner = 3,

    /// <summary>Licensed carrier agreed, containers ready and labelled.</summary>
    Carrier = 4,

    /// <summary>Locked out; nobody goes in.</summary>
    LockOut = 5,
    Drain = 6,
    Wipe = 7,
    Rinse = 8,
    Inspect = 9,

    /// <summary>Everybody clear, guards on, locks off.</summary>
    Unlock = 10,
    Refill = 11,
}

/// <summary>Which steps there are, and which of them may be left out.</summary>
public static class CleanOutSteps
{
    /// <summary>The steps of a plan: without cleaner or rinses their steps are none, unless they were noted already.</summary>
    public static IReadOnlyList<CleanOutStepKind> Of(CleanOutChoice? choice, IEnumerable<CleanOutStepKind> noted)
    {
        var known = noted.ToHashSet();
        return [.. Enum.GetValues<CleanOutStepKind>().Where(k => known.Contains(k) || k switch
        {
            CleanOutStepKind.Cleaner => choice is not { CleanerPercent: 0 },
            CleanOutStepKind.Rinse => choice is not { Rinses: 0 },
            _ => true,
        })];
    }

    /// <summary>What safety hangs on, what is drained and what is filled cannot be left out.</summary>
    public static bool MayBeLeftOut(CleanOutStepKind kind) => kind is CleanOutStepKind.Cleaner or CleanOutStepKind.Wipe or CleanOutStepKind.Rinse;
}

/// <summary>What has to be ticked before a step counts as done, as stored.</summary>
public static class CleanOutConfirmations
{
    public const string SheetsRead = "sheetsRead";
    public const string ProtectionOn = "protectionOn";
    public const string CarrierLicensed = "carrierLicensed";
    public const string Labelled = "containersLabelled";
    public const string LockedOut = "lockedOut";
    public const string NobodyInside = "nobodyInside";
    public const string Ventilated = "ventilated";
    public const string AllClear = "allClear";
    public const string GuardsOn = "guardsOn";

    public static IReadOnlyList<string> Of(CleanOutStepKind kind) => kind switch
    {
        CleanOutStepKind.SafetySheets => [SheetsRead, ProtectionOn],
        CleanOutStepKind.Carrier => [CarrierLicensed, Labelled],
        CleanOutStepKind.LockOut => [LockedOut, NobodyInside, Ventilated],
        CleanOutStepKind.Unlock => [AllClear, GuardsOn],
        _ => [],
    };
}
