using System.Globalization;
using ShopFluids.Core.Record;
using ShopFluids.Core.Record.Replay;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Verbs;

internal sealed class VerifyVerb : Verb
{
    private const string Rules = "rules";
    private const string Fingerprint = "fingerprint";

    public override string Name => "verify";

    public override string Summary => Texts.Verb_VerifySummary;

    public override IReadOnlyList<string> Usage => ["verify [--rules] [--fingerprint COUNT:HASH]..."];

    public override string Details => Texts.Verb_VerifyDetails;

    public override IReadOnlyList<VerbOption> Options => [new VerbOption(Rules, IsFlag: true), new VerbOption(Fingerprint, IsRepeatable: true)];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(0);
        var given = call.OptionList(Fingerprint)
            .Select(text => RecordFingerprint.TryParse(text, out var fingerprint) ? fingerprint : throw new BadArgumentsException(Say(Texts.Verify_NotAFingerprint, text, RecordFingerprint.LeastDigits)))
            .ToList();
        // Opening would make an empty one, and of that everything is sound.
        if (call.Settings.Engine == DatabaseEngine.Sqlite && BackupVerb.SqliteSource(call.Settings) is { } file && !File.Exists(file))
        {
            await call.Error.WriteLineAsync(Say(Texts.Verify_NoDatabase, file));
            return ExitCodes.Failed;
        }

        await using var services = await VerbServices.OpenAsync(call, RecordUse.Prove, cancellationToken);
        if (services is null)
        {
            return ExitCodes.Failed;
        }

        try
        {
            given.AddRange(await FingerprintFiles.ReadAsync(call.Settings, cancellationToken));
        }
        catch (InvalidDataException unreadable)
        {
            await call.Error.WriteLineAsync(Say(Texts.Verify_FingerprintFile, unreadable.Message));
            return ExitCodes.Failed;
        }

        return await ProveAsync(call, services, given, cancellationToken);
    }

    private static async Task<int> ProveAsync(VerbCall call, ServiceProvider services, List<RecordFingerprint> fingerprints, CancellationToken cancellationToken)
    {
        var report = await services.GetRequiredService<VerifyQuery>().RunAsync(fingerprints, cancellationToken);
        foreach (var finding in report.Findings)
        {
            await call.Output.WriteLineAsync(Say(SentenceOf(finding.Problem), finding.Where, finding.Entry));
        }

        await call.Output.WriteLineAsync(Say(Texts.Verify_Counts, report.Entries, report.Rows, report.Standings, report.HeadHash));
        if (services.GetRequiredService<RecordSealer>().Key is { } key)
        {
            await call.Output.WriteLineAsync(Say(Texts.Verify_Seal, key.Id, key.Since.Count + 1, fingerprints.Count));
        }

        await call.Output.WriteLineAsync(report.Findings.Count == 0 ? Texts.Verify_Sound : Say(Texts.Verify_Unsound, report.Findings.Count));
        if (!call.Has(Rules))
        {
            return report.Findings.Count == 0 ? ExitCodes.Done : ExitCodes.Failed;
        }

        // From a record that is not sound nothing can be judged again.
        if (report.Findings.Count > 0)
        {
            await call.Error.WriteLineAsync(Texts.Verify_RulesNeedASoundRecord);
            return ExitCodes.Failed;
        }

        var replay = await services.GetRequiredService<ReplayQuery>().RunAsync(cancellationToken);
        await ReplayPrint.WriteAsync(call.Output, replay);

        // Where the set-up was changed since, another answer is to be expected: it is listed and fails nothing.
        return replay.Differences.All(d => d.IsSetupChanged) ? ExitCodes.Done : ExitCodes.Failed;
    }

    private static string SentenceOf(VerifyProblem problem) => problem switch
    {
        VerifyProblem.EntryChanged => Texts.Verify_EntryChanged,
        VerifyProblem.ChainBroken => Texts.Verify_ChainBroken,
        VerifyProblem.NotSealed => Texts.Verify_NotSealed,
        VerifyProblem.FingerprintDiffers => Texts.Verify_FingerprintDiffers,
        VerifyProblem.CutOff => Texts.Verify_CutOff,
        VerifyProblem.HeadMismatch => Texts.Verify_HeadMismatch,
        VerifyProblem.RowChanged => Texts.Verify_RowChanged,
        VerifyProblem.RowMissing => Texts.Verify_RowMissing,
        VerifyProblem.RowUnrecorded => Texts.Verify_RowUnrecorded,
        VerifyProblem.NameDiffers => Texts.Verify_NameDiffers,
        VerifyProblem.StandingDiffers => Texts.Verify_StandingDiffers,
        _ => throw new InvalidOperationException($"{problem} has no sentence."),
    };

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
