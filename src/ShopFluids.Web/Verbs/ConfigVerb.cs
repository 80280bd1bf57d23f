using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Verbs;

internal sealed class ConfigVerb : Verb
{
    private const string Mask = "********";

    public override string Name => "config";

    public override string Summary => Texts.Verb_ConfigSummary;

    public override IReadOnlyList<string> Usage => ["config"];

    public override bool NeedsSettings => false;

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(0);
        foreach (var setting in call.Reading.Effective)
        {
            var value = setting.IsSecret && setting.Value.Length > 0 ? Mask : setting.Value;
            await call.Output.WriteLineAsync($"{setting.Name}={value}  ({setting.Source})");
        }

        if (call.Reading.Settings is null)
        {
            await CommandLine.WriteFaultsAsync(call.Error, call.Reading);
            return ExitCodes.BadSettings;
        }

        return ExitCodes.Done;
    }
}
