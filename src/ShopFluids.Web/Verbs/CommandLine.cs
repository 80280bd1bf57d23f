using System.Collections.ObjectModel;
using System.Globalization;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Verbs;

/// <summary>Takes the command line apart, reads the settings, and calls the verb.</summary>
public static class CommandLine
{
    private static readonly ServeVerb Default = new();

    private static ReadOnlyCollection<Verb> Verbs { get; } = new(
        [Default, new MigrateVerb(), new VerifyVerb(), new RejudgeVerb(), new BackupVerb(), new RestoreVerb(), new RecordKeyVerb(), new AccountVerb(), new TokenVerb(), new DemoVerb(), new ConfigVerb()]);

    /// <returns>One of <see cref="ExitCodes"/>.</returns>
    public static async Task<int> RunAsync(IReadOnlyList<string> arguments, CommandSurroundings surroundings, CancellationToken cancellationToken = default)
    {
        Verb verb = Default;
        try
        {
            var rest = arguments.ToList();
            if (rest.Count > 0 && !rest[0].StartsWith('-'))
            {
                verb = Verbs.FirstOrDefault(v => v.Name == rest[0]) ?? throw new BadArgumentsException(Say(Texts.Verb_Unknown, rest[0]));
                rest.RemoveAt(0);
            }

            if (rest.Any(a => a is "--help" or "-h"))
            {
                await (arguments[0].StartsWith('-') ? WriteHelpAsync(surroundings.Output) : WriteHelpAsync(surroundings.Output, verb));
                return ExitCodes.Done;
            }

            var (plain, options) = Split(verb, rest);
            var reading = SettingsReader.Read(surroundings.Environment, options, surroundings.CurrentFolder);
            if (reading.Settings is null && verb.NeedsSettings)
            {
                await WriteFaultsAsync(surroundings.Error, reading);
                return ExitCodes.BadSettings;
            }

            return await verb.RunAsync(new VerbCall(plain, options, reading, surroundings), cancellationToken);
        }
        catch (BadArgumentsException bad)
        {
            if (bad.Message.Length > 0)
            {
                await surroundings.Error.WriteLineAsync(bad.Message);
            }

            await WriteHelpAsync(surroundings.Error, verb);
            return ExitCodes.BadArguments;
        }
    }

    internal static async Task WriteFaultsAsync(TextWriter writer, SettingsReading reading)
    {
        await writer.WriteLineAsync(Texts.Setting_Faults);
        foreach (var fault in reading.Faults)
        {
            await writer.WriteLineAsync($"  {fault.Setting}: {fault.Message}");
        }
    }

    private static (List<string> Plain, Dictionary<string, string> Options) Split(Verb verb, List<string> arguments)
    {
        var known = verb.Options
            .Concat(SettingDefinitions.All.Where(d => d.Option is not null).Select(d => new VerbOption(d.Option ?? "", d.IsFlag)))
            .ToDictionary(o => o.Name);
        var plain = new List<string>();
        var options = new Dictionary<string, string>(StringComparer.Ordinal);
        for (var i = 0; i < arguments.Count; i++)
        {
            if (!arguments[i].StartsWith("--", StringComparison.Ordinal))
            {
                plain.Add(arguments[i]);
                continue;
            }

            var equals = arguments[i].IndexOf('=', StringComparison.Ordinal);
            var name = equals < 0 ? arguments[i][2..] : arguments[i][2..equals];
            if (!known.TryGetValue(name, out var option))
            {
                throw new BadArgumentsException(Say(Texts.Verb_UnknownOption, arguments[i]));
            }

            var value = equals >= 0 ? arguments[i][(equals + 1)..]
                : option.IsFlag ? "true"
                : i + 1 < arguments.Count ? arguments[++i]
                : throw new BadArgumentsException(Say(Texts.Verb_OptionWithoutValue, arguments[i]));
            options[name] = option.IsRepeatable && options.TryGetValue(name, out var before) ? $"{before}\n{value}" : value;
        }

        return (plain, options);
    }

    private static async Task WriteHelpAsync(TextWriter writer)
    {
        await writer.WriteLineAsync(Texts.Verb_HelpHead);
        foreach (var verb in Verbs)
        {
            await writer.WriteLineAsync($"  {verb.Name,-10} {verb.Summary}");
        }

        await writer.WriteLineAsync();
        await writer.WriteLineAsync(Texts.Verb_HelpSettings);
        foreach (var setting in SettingDefinitions.All)
        {
            var option = setting.Option is null ? "" : $"--{setting.Option}";
            await writer.WriteLineAsync($"  {setting.Name,-31} {option,-18} {setting.Default}".TrimEnd());
        }

        await writer.WriteLineAsync();
        await writer.WriteLineAsync(Texts.Verb_HelpFoot);
    }

    private static async Task WriteHelpAsync(TextWriter writer, Verb verb)
    {
        await writer.WriteLineAsync(verb.Summary);
        foreach (var way in verb.Usage)
        {
            await writer.WriteLineAsync($"  shopfluids {way}");
        }

        if (verb.Details.Length > 0)
        {
            await writer.WriteLineAsync(verb.Details);
        }
    }

    private static string Say(string pattern, params object?[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
