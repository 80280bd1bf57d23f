using System.Globalization;
using ShopFluids.Core.Record.Sealing;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;
using ShopFluids.Web.Startup;
using ShopFluids.Web.Startup.Sealing;

namespace ShopFluids.Web.Verbs;

/// <summary>The key to the record: which one it is, and a new one in place of one that is lost or known to others.</summary>
internal sealed class RecordKeyVerb : Verb
{
    public override string Name => "record-key";

    public override string Summary => Texts.Verb_RecordKeySummary;

    public override IReadOnlyList<string> Usage => ["record-key show", "record-key new"];

    public override string Details => Texts.Verb_RecordKeyDetails;

    public override async Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken)
    {
        call.ExpectArguments(1);
        try
        {
            return call.Arguments[0] switch
            {
                "show" => await ShowAsync(call),
                "new" => await BeginAsync(call, cancellationToken),
                _ => throw new BadArgumentsException(),
            };
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            return await FailAsync(call, Say(Texts.Start_FolderUnusable, call.Settings.DataFolder, failure.Message));
        }
    }

    private static async Task<int> ShowAsync(VerbCall call)
    {
        var file = new RecordKeyFile(call.Settings);
        try
        {
            if ((call.Settings.RecordKey ?? file.Read()) is not { } key)
            {
                return await FailAsync(call, Say(Texts.Verb_RecordKeyNone, file.Path));
            }

            await call.Output.WriteLineAsync(Say(Texts.Verb_RecordKeyShown, key.Id, key.Since.Count + 1));
            return ExitCodes.Done;
        }
        catch (InvalidDataException)
        {
            return await FailAsync(call, Say(Texts.Start_RecordKeyUnreadable, file.Path));
        }
    }

    private static async Task<int> BeginAsync(VerbCall call, CancellationToken cancellationToken)
    {
        if (call.Settings.RecordKey is not null)
        {
            return await FailAsync(call, Say(Texts.Verb_RecordKeyFromSetting, SettingDefinitions.RecordKey.Name));
        }

        // A server that runs would go on with the old key.
        using var folder = DataFolderLock.TryTake(call.Settings.DataFolder);
        if (folder is null)
        {
            return await FailAsync(call, Say(Texts.Start_FolderInUse, call.Settings.DataFolder));
        }

        await using var services = await VerbServices.OpenAsync(call, RecordUse.ChangeKey, cancellationToken);
        if (services is null)
        {
            return ExitCodes.Failed;
        }

        var (file, clock) = (services.GetRequiredService<RecordKeyFile>(), services.GetRequiredService<ShopClock>());
        var result = await services.GetRequiredService<BeginSealHandler>().HandleAsync(new BeginSeal(null, Replaces: true), key => file.Write(key, clock.UtcNow), cancellationToken);
        var made = result.Value ?? throw new InvalidOperationException($"A new key may take any other's place, and yet: {result.Error}");
        await call.Output.WriteLineAsync(Say(Texts.Verb_RecordKeyMade, made.Id, made.Since.Count + 1, file.Path));
        return ExitCodes.Done;
    }

    private static async Task<int> FailAsync(VerbCall call, string why)
    {
        await call.Error.WriteLineAsync(why);
        return ExitCodes.Failed;
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
