using ShopFluids.Core.Rounds;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Api.Json;

namespace ShopFluids.Web.Api.Round;

/// <summary>The round of this shop day. Every list is in walking order, of the due those that are partly read last.</summary>
internal sealed record RoundAnswer(DateTime AsOf, IReadOnlyList<RoundStopAnswer> Due, IReadOnlyList<RoundStopAnswer> Skipped, IReadOnlyList<RoundStopAnswer> Read)
{
    public static RoundAnswer Of(RoundPage page) => new(page.NowUtc, [.. page.Due.Select(RoundStopAnswer.Of)], [.. page.Skipped.Select(RoundStopAnswer.Of)], [.. page.Read.Select(RoundStopAnswer.Of)]);
}

/// <param name="Due">When its test becomes late.</param>
/// <param name="Measure">What is due to be measured.</param>
/// <param name="Also">Other work that goes along with the visit, due or nearly due.</param>
internal sealed record RoundStopAnswer(string Sump, DateTime? Due, bool PartlyRead, IReadOnlyList<string> Measure, StopSkipAnswer? Skip, IReadOnlyList<AlongAnswer> Also)
{
    public static RoundStopAnswer Of(RoundStop stop) => new(
        stop.Place.Tag,
        stop.DueAtUtc,
        stop.Tests.IsPartlyRead,
        stop.Tests.Remaining,
        stop.Skip is { } skip ? new(Codes.Of(skip.Reason), skip.Words, skip.AtUtc, skip.By, SkipSentences.Why(skip.Reason, skip.Words)) : null,
        [.. stop.Along.Select(w => new AlongAnswer(w.TaskId, Codes.Of(w.Kind), w.DueAtUtc, w.IsDue))]);
}

/// <param name="IsDue">By the end of this shop day; otherwise it is brought forward.</param>
internal sealed record AlongAnswer(Guid Task, string Kind, DateTime Due, bool IsDue);

/// <param name="Reason">machineRunning, couldNotReach or other.</param>
internal sealed record StopSkipAnswer(string Reason, string Words, DateTime At, string By, string Text);

/// <summary>Sumps that are passed by on this day's round, with one reason for all.</summary>
/// <param name="Reason">machineRunning, couldNotReach or other; another one is said in words.</param>
/// <param name="Id">Made by the sender, so that sending it again changes nothing; may be left out.</param>
internal sealed record SkipRequest(IReadOnlyList<string> Sumps, string Reason, string? Words = null, Guid? Id = null);

/// <param name="NotDue">Sumps at which nothing is due any more.</param>
internal sealed record SkippedAnswer(IReadOnlyList<string> Skipped, IReadOnlyList<string> NotDue);
