using ShopFluids.Core.Care;
using ShopFluids.Core.Exchange;
using ShopFluids.Core.ShopFlags;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;
using ShopFluids.Web.Api.Readings;

namespace ShopFluids.Web.Api.Work;

/// <param name="Due">The moment at which it becomes late.</param>
internal sealed record TaskRow(
    Guid Id,
    string Sump,
    string Kind,
    string Cause,
    string State,
    DateTime Due,
    bool Late,
    string? AssignedTo,
    AdviceAnswer? Advice,
    DateTime CreatedAt,
    DateTime? EndedAt,
    string? EndReason,
    FoundAnswer? Found,
    string Text)
{
    public static TaskRow Of(ListedTask task, DateTime nowUtc, Sentences say) => new(
        task.Id,
        task.SumpTag,
        Codes.Of(task.Kind),
        task.Cause,
        Codes.Of(task.State),
        task.DueAtUtc,
        task.State == TaskState.Open && task.DueAtUtc <= nowUtc,
        task.AssignedTo,
        AdviceAnswer.Of(task.Recipe, say),
        task.CreatedAtUtc,
        task.EndedAtUtc,
        task.EndReason,
        FoundAnswer.Of(task.Found, say),
        say.Task(task.Kind, task.Cause, task.Recipe));
}

/// <param name="LimitSet">The limits that judged it; null for a rule without limits.</param>
/// <param name="Tuning">The numbers that a shop may tune, as the rule used them.</param>
internal sealed record FlagRow(
    Guid Id,
    string Sump,
    string Rule,
    string Parameter,
    string Severity,
    string Direction,
    IReadOnlyDictionary<string, decimal> Numbers,
    DateTime RaisedAt,
    Guid? Reading,
    DateTime? EndedAt,
    string? EndReason,
    DateTime? EscalatedAt,
    string Text,
    string Clears,
    int RuleVersion,
    Guid? LimitSet,
    IReadOnlyDictionary<string, decimal>? Tuning)
{
    public static FlagRow Of(ListedFlag flag, Sentences say) => new(
        flag.Id,
        flag.SumpTag,
        flag.Rule,
        flag.Parameter,
        Codes.Of(flag.Severity),
        Codes.Of(flag.Direction),
        flag.Numbers,
        flag.RaisedAtUtc,
        flag.ReadingId,
        flag.EndedAtUtc,
        flag.EndReason,
        flag.EscalatedAtUtc,
        say.Flag(flag.Rule, flag.Parameter, flag.Severity, flag.Direction, flag.Numbers),
        say.FlagClears(flag.Rule, flag.Parameter, flag.Direction, flag.Numbers),
        flag.RuleVersion,
        flag.LimitSetId,
        flag.Tuning);
}

/// <param name="Subject">The number of the lot, the name of the fluid, or the tag of the instrument.</param>
/// <param name="Due">The moment at which its work becomes late.</param>
internal sealed record ShopFlagRow(
    Guid Id,
    string Rule,
    string Aspect,
    string Subject,
    string Severity,
    IReadOnlyDictionary<string, decimal> Numbers,
    DateTime RaisedAt,
    DateTime Due,
    DateTime? EscalatedAt,
    DateTime? AnsweredAt,
    string? Answer,
    DateTime? GoneAt,
    string Text)
{
    public static ShopFlagRow Of(ListedShopFlag flag, Sentences say) => new(
        flag.Id,
        flag.Rule,
        flag.Aspect,
        flag.Subject,
        Codes.Of(flag.Severity),
        flag.Numbers,
        flag.RaisedAtUtc,
        flag.DueAtUtc,
        flag.EscalatedAtUtc,
        flag.AnsweredAtUtc,
        flag.Answer,
        flag.GoneAtUtc,
        say.ShopFlag(flag));
}

internal sealed record EndedTaskAnswer(Guid Id, string State, DateTime EndedAt);
