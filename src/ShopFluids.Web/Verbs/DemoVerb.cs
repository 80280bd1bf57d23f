using System.Diagnostics;
using System.Globalization;
using ShopFluids.Core.DemoData.Generated;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Startup;

namespace ShopFluids.Web.Verbs;

/// <summary>A generated shop in an empty database.</summary>
internal sealed class DemoVerb : Verb
{
    private const string Sumps = "sumps";
    private const string Years = "years";
    private const string Seed = "seed";
    private const int UsualSeed = 1;

    public override string Name => "demo";

    public override string Summary => Texts.Verb_DemoSummary;

    public override IReadOnlyList<string> Usage => ["demo --sumps SUMPS --years YEARS [--seed SEED]"];

    public override string Details => Say(Texts.Verb_DemoDetails, 1, ShopSize.MostSumps, 1, ShopSize.MostYears);

    public override IReadOnlyList<VerbOption> Options => [new VerbOption(Sumps), new VerbOption(Years), new VerbOption(Seed)];

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(0);
        var size = new ShopSize(
            Number(call, Sumps, 1, ShopSize.MostSumps),
            Number(call, Years, 1, ShopSize.MostYears),
            call.Has(Seed) ? Number(call, Seed, int.MinValue, int.MaxValue) : UsualSeed);
        await using var services = await VerbServices.OpenAsync(call, cancellationToken);
        if (services is null)
        {
            return ExitCodes.Failed;
        }

        var started = Stopwatch.GetTimestamp();
        var result = await ActivatorUtilities.CreateInstance<GeneratedShop>(services).LoadAsync(DemoStart.SeedFolder, size, new DemoProgressLines(call.Output), cancellationToken);
        if (result.Value is not { } done)
        {
            await call.Error.WriteLineAsync(Texts.Verb_DemoNotEmpty);
            return ExitCodes.Failed;
        }

        await call.Output.WriteLineAsync(Say(Texts.Verb_DemoDone, done.Sumps, done.Readings, done.OpenFlags, (int)Stopwatch.GetElapsedTime(started).TotalSeconds));
        foreach (var signIn in done.SignIns)
        {
            await call.Output.WriteLineAsync(Say(Texts.Verb_DemoSignIn, signIn.SignInName, RoleNames.Of(signIn.Role), signIn.Password));
        }

        return ExitCodes.Done;
    }

    private static int Number(VerbCall call, string option, int low, int high)
    {
        var text = call.Option(option);
        return int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && number >= low && number <= high
            ? number
            : throw new BadArgumentsException(text is null ? Say(Texts.Verb_DemoMissing, $"--{option}", low, high) : Say(Texts.Verb_DemoArgument, $"--{option}", low, high, text));
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
