using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Verbs;

internal sealed class MigrateVerb : Verb
{
    public override string Name => "migrate";

    public override string Summary => Texts.Verb_MigrateSummary;

    public override IReadOnlyList<string> Usage => ["migrate"];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(0);
        await using var services = await VerbServices.OpenAsync(call, cancellationToken);
        if (services is null)
        {
            return ExitCodes.Failed;
        }

        await call.Output.WriteLineAsync(Texts.Verb_MigrateDone);
        return ExitCodes.Done;
    }
}
