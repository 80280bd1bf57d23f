using System.Globalization;
using ShopFluids.Core.People;
using ShopFluids.Core.Record;
using ShopFluids.Core.Rejudging;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Verbs;

/// <summary>Judges the latest readings again after limits or rules were changed.</summary>
internal sealed class RejudgeVerb : Verb
{
    private const string By = "by";
    private const string Reason = "reason";
    private const string Sump = "sump";

    public override string Name => "rejudge";

    public override string Summary => Texts.Verb_RejudgeSummary;

    public override IReadOnlyList<string> Usage => ["rejudge --reason \"WHY\" --by SIGN-IN-NAME [--sump TAG]"];

    public override string Details => Texts.Verb_RejudgeDetails;

    public override IReadOnlyList<VerbOption> Options => [new VerbOption(Reason), new VerbOption(By), new VerbOption(Sump)];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(0);
        var (reason, by) = (call.Option(Reason), call.Option(By));
        await using var services = await VerbServices.OpenAsync(call, cancellationToken);
        if (services is null)
        {
            return ExitCodes.Failed;
        }

        var accounts = await services.GetRequiredService<AccountsQuery>().AllAsync(cancellationToken);
        if (accounts.FirstOrDefault(a => a.LeftAtUtc is null && string.Equals(a.SignInName, by, StringComparison.OrdinalIgnoreCase)) is not { } account)
        {
            await call.Error.WriteLineAsync(AccountSentences.OneLine(new AccountNotFound(by)));
            return ExitCodes.Failed;
        }

        var command = new Rejudge(services.GetRequiredService<ShopClock>().NewId(), call.Has(Sump) ? call.Option(Sump) : null, reason);
        var result = await services.GetRequiredService<RejudgeHandler>().HandleAsync(command, new Actor(account.Id, account.DisplayName), cancellationToken);
        if (result.Value is not { } done)
        {
            var setup = await services.GetRequiredService<SetupCache>().CurrentAsync(cancellationToken);
            await call.Error.WriteLineAsync(result.Error is { } error ? new Sentences(setup.FormatFor(), setup).Error(error) : "");
            return ExitCodes.Failed;
        }

        foreach (var sump in done.Sumps.Where(s => s.Raised.Count + s.Ended.Count > 0))
        {
            await call.Output.WriteLineAsync(Say(Texts.Rejudge_Sump, sump.Tag, sump.Raised.Count, sump.Ended.Count));
        }

        await call.Output.WriteLineAsync(Say(Texts.Rejudge_Counts, done.Sumps.Count, done.Sumps.Sum(s => s.Raised.Count), done.Sumps.Sum(s => s.Ended.Count)));
        return ExitCodes.Done;
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
