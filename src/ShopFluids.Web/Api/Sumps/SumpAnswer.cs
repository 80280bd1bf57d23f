using ShopFluids.Core.Exchange;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Sumps;

/// <summary>A sump in the list.</summary>
/// <param name="State">action, overdue, warning, notMeasured or inRange: the one word that the board shows.</param>
/// <param name="Verdict">The worst open verdict.</param>
internal sealed record SumpRow(
    string Tag,
    string Area,
    IReadOnlyList<string> Machines,
    bool Retired,
    string? Fluid,
    DateTime? FilledAt,
    string State,
    string Verdict,
    string Direction,
    double? VolumeLitres,
    DateTime? LastReadAt,
    DateTime? NextTestDue,
    int OpenFlags,
    int OpenTasks)
{
    public static SumpRow Of(SumpState sump) => new(
        sump.Tag,
        sump.Area,
        sump.Machines,
        sump.IsRetired,
        sump.Fluid,
        sump.FilledAtUtc,
        Codes.Of(sump.Standing.State),
        Codes.Of(sump.Standing.Verdict),
        Codes.Of(sump.Standing.Direction),
        sump.VolumeLitres,
        sump.LastReadAtUtc,
        sump.NextTestDueAtUtc,
        sump.Facts?.OpenFlags.Count ?? 0,
        sump.Facts?.OpenTasks.Count ?? 0);
}

/// <summary>How one sump stands.</summary>
internal sealed record SumpAnswer(SumpRow Standing, IReadOnlyList<LatestAnswer> Latest, IReadOnlyList<OpenFlagAnswer> Flags, IReadOnlyList<OpenTaskAnswer> Tasks)
{
    public static SumpAnswer Of(SumpState sump, Sentences say) => new(
        SumpRow.Of(sump),
        [.. (sump.Facts?.Latest ?? new Dictionary<string, LatestValue>()).OrderBy(l => l.Key, StringComparer.Ordinal).Select(l => LatestAnswer.Of(l.Key, l.Value, say))],
        [.. (sump.Facts?.OpenFlags ?? []).Select(f => new OpenFlagAnswer(f.Id, f.Rule, f.Parameter, Codes.Of(f.Severity), Codes.Of(f.Direction), f.Numbers, say.Flag(f.Rule, f.Parameter, f.Severity, f.Direction, f.Numbers)))],
        [.. (sump.Facts?.OpenTasks ?? []).OrderBy(t => t.DueAt).Select(t => new OpenTaskAnswer(t.Id, Codes.Of(t.Kind), t.Cause, t.DueAt, say.Task(t.Kind, t.Cause, null)))]);
}

internal sealed record LatestAnswer(string Parameter, decimal Value, decimal Uncertainty, DateTime TakenAt, string Verdict, string Direction, string Text)
{
    public static LatestAnswer Of(string parameter, LatestValue latest, Sentences say) =>
        new(parameter, latest.Value, latest.Uncertainty, latest.TakenAt, Codes.Of(latest.Verdict), Codes.Of(latest.Direction), say.Value(parameter, latest.Value));
}

internal sealed record OpenFlagAnswer(Guid Id, string Rule, string Parameter, string Severity, string Direction, IReadOnlyDictionary<string, decimal> Numbers, string Text);

internal sealed record OpenTaskAnswer(Guid Id, string Kind, string Cause, DateTime Due, string Text);
