using System.Globalization;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Verbs;

/// <summary>What `verify --rules` writes: each difference with what was answered then and what is answered today.</summary>
internal static class ReplayPrint
{
    public static async Task WriteAsync(TextWriter output, ReplayReport report)
    {
        foreach (var difference in report.Differences)
        {
            var at = difference.AtUtc.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
            await output.WriteLineAsync(difference.ReadingId is { } reading
                ? Say(Texts.Replay_Line, difference.Subject, at, reading, NameOf(difference.Aspect))
                : Say(Texts.Replay_LineClock, difference.Subject, at, NameOf(difference.Aspect)));
            if (difference.Aspect == ReplayAspect.NotInRecord)
            {
                continue;
            }

            await output.WriteLineAsync(Say(Texts.Replay_Stored, OrNothing(difference.Stored)));
            await output.WriteLineAsync(Say(Texts.Replay_Today, OrNothing(difference.Replayed)));
            if (difference.IsSetupChanged)
            {
                await output.WriteLineAsync(Texts.Replay_Setup);
            }
        }

        await output.WriteLineAsync(Say(Texts.Replay_Counts, report.Readings, report.OfTheClock, report.OfTheShop, report.Escalated));
        var unexplained = report.Differences.Count(d => !d.IsSetupChanged);
        await output.WriteLineAsync(report.Differences.Count == 0 ? Texts.Replay_Same
            : unexplained == 0 ? Say(Texts.Replay_OnlySetup, report.Differences.Count)
            : Say(Texts.Replay_Differ, report.Differences.Count, unexplained));
    }

    private static string NameOf(ReplayAspect aspect) => aspect switch
    {
        ReplayAspect.Verdicts => Texts.Replay_Verdicts,
        ReplayAspect.FlagsRaised => Texts.Replay_FlagsRaised,
        ReplayAspect.FlagsCleared => Texts.Replay_FlagsCleared,
        ReplayAspect.Recipe => Texts.Replay_Recipe,
        ReplayAspect.TasksMade => Texts.Replay_TasksMade,
        ReplayAspect.TasksDone => Texts.Replay_TasksDone,
        ReplayAspect.TasksWithdrawn => Texts.Replay_TasksWithdrawn,
        ReplayAspect.Cautions => Texts.Replay_Cautions,
        ReplayAspect.NextTest => Texts.Replay_NextTest,
        ReplayAspect.LateTest => Texts.Replay_LateTest,
        ReplayAspect.ShopFlagRaised => Texts.Replay_ShopFlagRaised,
        ReplayAspect.ShopFlagGone => Texts.Replay_ShopFlagGone,
        ReplayAspect.Escalation => Texts.Replay_Escalation,
        ReplayAspect.NotInRecord => Texts.Replay_NotInRecord,
        _ => throw new InvalidOperationException($"{aspect} has no name."),
    };

    private static string OrNothing(string text) => text.Length == 0 ? Texts.Replay_Nothing : text;

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
