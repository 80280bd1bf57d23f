using System.Text.Json;
using System.Text.Json.Serialization;
using ShopFluids.Core.Escalations;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Escalations;

/// <summary>What is posted.</summary>
/// <param name="Id">The same at every try.</param>
/// <param name="Event">Always flags.escalated.</param>
/// <param name="At">When the flags went to the supervisor.</param>
internal sealed record WebhookBody(Guid Id, string Event, DateTime At, string Shop, IReadOnlyList<WebhookFlag> Flags)
{
    public const string EventName = "flags.escalated";

    public static WebhookBody Of(EscalationMessage message) => new(message.Id, EventName, message.MadeAtUtc, message.Content.Shop, [.. message.Content.Flags.Select(WebhookFlag.Of)]);
}

/// <param name="Sump">Null for a flag of a lot, a stock or an instrument.</param>
/// <param name="Subject">The tag of the sump or instrument, the number of the lot, or the name of the fluid.</param>
/// <param name="About">The parameter, or what of the lot, stock or instrument; empty for the sump itself.</param>
/// <param name="Path">The page where it is answered, below the program's address.</param>
internal sealed record WebhookFlag(Guid Id, string? Sump, string Subject, string Rule, string About, string Severity, DateTime RaisedAt, string Text, string Path)
{
    private const string Board = "/board";

    public static WebhookFlag Of(EscalatedFlag flag) => new(
        flag.Id,
        flag.SumpTag,
        flag.Subject,
        flag.Rule,
        flag.About,
        Codes.Of(flag.Severity),
        flag.RaisedAtUtc,
        flag.Text,
        flag.SumpTag is { } tag ? $"/sumps/{Uri.EscapeDataString(tag)}" : Board);
}

[JsonSourceGenerationOptions(JsonSerializerDefaults.Web)]
[JsonSerializable(typeof(WebhookBody))]
internal sealed partial class WebhookJson : JsonSerializerContext;
