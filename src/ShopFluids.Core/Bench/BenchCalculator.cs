using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Findings;

namespace ShopFluids.Core.Bench;

/// <summary>
/// One calculator of the bench: says what it asks for and what it gives, and works it out with the functions that the rules use.
/// It stores nothing.
/// </summary>
public abstract class BenchCalculator
{
    /// <summary>Its name in addresses, such as top-up.</summary>
    public abstract string Code { get; }

    public abstract BenchFamily Family { get; }

    public abstract string Title { get; }

    /// <summary>The question that it answers, in one line.</summary>
    public abstract string Lead { get; }

    /// <summary>Where the formula is from; "common practice" or "from memory" where that is so.</summary>
    public abstract string Source { get; }

    public virtual IReadOnlyList<Caution> Cautions => [];

    public abstract IReadOnlyList<BenchInput> Inputs { get; }

    public abstract IReadOnlyList<BenchOutput> Outputs { get; }

    /// <summary>What it would ask for, as it stands at a sump; only what is known.</summary>
    public BenchKnown From(BenchSump sump)
    {
        var known = new BenchKnown();
        FillIn(sump, known);
        return known;
    }

    /// <summary>Whether a sump can fill in any of its fields.</summary>
    public virtual bool UsesSump => false;

    /// <param name="typed">By code of the input.</param>
    /// <returns>The answer, or every field that was refused.</returns>
    public Result<BenchAnswer> Run(IReadOnlyDictionary<string, BenchTyped> typed, ShopFormat format)
    {
        var (given, faults) = BenchGiven.Read(Inputs, typed);
        if (faults.Count > 0)
        {
            return new FieldErrors(faults);
        }

        try
        {
            var paper = new BenchPaper(format);
            Work(given, paper);
            return paper.Answer();
        }
        catch (ArgumentException refused)
        {
            // Each value is in its range, but not beside the others: the function says which and what it would accept.
            return new FieldErrors([new FieldError(CodeOf(refused.ParamName), FieldProblem.DoesNotFit, Detail: Sentence(refused))]);
        }
    }

    /// <exception cref="ArgumentException">A value does not fit the others; the name is the input's, or the function's own for it.</exception>
    protected abstract void Work(BenchGiven given, BenchPaper paper);

    /// <summary>Sets every field that the sump knows of; none, unless <see cref="UsesSump"/>.</summary>
    protected virtual void FillIn(BenchSump sump, BenchKnown known)
    {
    }

    /// <summary>Which input a function means by a name that is not the input's own.</summary>
    protected virtual BenchInput? Meant(string? parameter) => null;

    private string CodeOf(string? parameter) =>
        Meant(parameter)?.Code
        ?? Inputs.FirstOrDefault(i => string.Equals(i.Code, parameter, StringComparison.OrdinalIgnoreCase))?.Code
        ?? Inputs.FirstOrDefault(i => i.Code.StartsWith(parameter ?? "?", StringComparison.OrdinalIgnoreCase))?.Code
        ?? Inputs[0].Code;

    // The name of the parameter stands in brackets behind the sentence; the full stop is the text's that it goes into.
    private static string Sentence(ArgumentException refused)
    {
        var end = refused.Message.IndexOf(" (Parameter", StringComparison.Ordinal);
        return (end < 0 ? refused.Message : refused.Message[..end]).TrimEnd('.');
    }
}
