using ShopFluids.Core.Escalations;

namespace ShopFluids.Web.Escalations;

/// <summary>One way out of the shop.</summary>
internal interface IEscalationSender
{
    EscalationChannel Channel { get; }

    /// <summary>Sends a message; what goes wrong is thrown, or answered in a few words.</summary>
    /// <returns>Null when it was taken.</returns>
    Task<string?> SendAsync(EscalationMessage message, CancellationToken cancellationToken);
}
