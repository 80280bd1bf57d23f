namespace ShopFluids.Core.Escalations;

/// <summary>A way by which word of what nobody answered leaves the shop.</summary>
public enum EscalationChannel : short
{
    Webhook = 1,
    Mail = 2,
}

/// <summary>The ways that the settings open. Where none is open, nothing is even written down to be sent.</summary>
public sealed record EscalationChannels(IReadOnlyList<EscalationChannel> Open)
{
    public static EscalationChannels None { get; } = new([]);
}
