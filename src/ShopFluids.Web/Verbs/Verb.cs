using ShopFluids.Web.Settings;

namespace ShopFluids.Web.Verbs;

/// <param name="Name">Without dashes.</param>
/// <param name="IsFlag">Takes no value.</param>
/// <param name="IsRepeatable">Can be given several times.</param>
internal sealed record VerbOption(string Name, bool IsFlag = false, bool IsRepeatable = false);

/// <summary>Something the program does when it is called.</summary>
internal abstract class Verb
{
    public abstract string Name { get; }

    /// <summary>One line for the list of verbs.</summary>
    public abstract string Summary { get; }

    /// <summary>How it is called, a line for each way, without the program's name.</summary>
    public abstract IReadOnlyList<string> Usage { get; }

    /// <summary>What else there is to know; empty when the summary says all.</summary>
    public virtual string Details => "";

    public virtual IReadOnlyList<VerbOption> Options => [];

    /// <summary>Whether bad settings stop it before it starts.</summary>
    public virtual bool NeedsSettings => true;

    /// <returns>An exit code.</returns>
    /// <exception cref="BadArgumentsException">The arguments do not fit the usage.</exception>
    public abstract Task<int> RunAsync(VerbCall call, CancellationToken cancellationToken);
}

/// <summary>One call of a verb, taken apart.</summary>
/// <param name="Arguments">What is no option, without the verb itself.</param>
/// <param name="Options">The verb's own options; flags have an empty value, several values of one option are lines.</param>
internal sealed record VerbCall(IReadOnlyList<string> Arguments, IReadOnlyDictionary<string, string> Options, SettingsReading Reading, CommandSurroundings Surroundings)
{
    /// <exception cref="InvalidOperationException">There are faults; the verb said that it needs no settings.</exception>
    public ShopSettings Settings => Reading.Settings ?? throw new InvalidOperationException("The settings have faults.");

    public TextWriter Output => Surroundings.Output;

    public TextWriter Error => Surroundings.Error;

    public bool Has(string flag) => Options.ContainsKey(flag);

    public string Option(string name) => Options.TryGetValue(name, out var value) && value.Length > 0 ? value : throw new BadArgumentsException();

    /// <summary>The values of an option that can be given several times.</summary>
    public IReadOnlyList<string> OptionList(string name) => Options.TryGetValue(name, out var values) ? values.Split('\n') : [];

    public void ExpectArguments(int count)
    {
        if (Arguments.Count != count)
        {
            throw new BadArgumentsException();
        }
    }
}

/// <summary>The usage is shown, and the exit code is 2.</summary>
internal sealed class BadArgumentsException(string? message = null) : Exception(message);
