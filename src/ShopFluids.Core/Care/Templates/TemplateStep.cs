using ShopFluids.Rules;
using ShopFluids.Rules.Facts;

namespace ShopFluids.Core.Care.Templates;

/// <summary>What a machine does to its fluid, as far as its care differs.</summary>
public enum MachineUse : short
{
    /// <summary>Turning, milling, drilling: chips.</summary>
    Machining = 1,

    /// <summary>Fines that a screen does not hold.</summary>
    Grinding = 2,

    Sawing = 3,

    /// <summary>One sump for several machines, with a filter of its own.</summary>
    Central = 4,
}

/// <summary>Where a step of a template is from.</summary>
public enum TemplateSource : short
{
    /// <summary>Common practice, no source.</summary>
    CommonPractice = 1,

    /// <summary>From memory, not checked.</summary>
    FromMemory = 2,

    /// <summary>DGUV Regel 109-003, Annex 3.</summary>
    Dguv = 3,

    /// <summary>HSE, metalworking fluids: managing sumps and bacterial contamination.</summary>
    Hse = 4,
}

/// <summary>One step that templates offer; its words are in <see cref="Wording.TemplateSentences"/>.</summary>
/// <param name="Code">Its name for ever: steps that were made from it carry it.</param>
/// <param name="IntervalDays">0 where the interval is in months.</param>
/// <param name="FirstAfterDays">How many days from its being applied the first is due.</param>
/// <param name="Minutes">About how long it takes, min.</param>
public sealed record TemplateStep(
    string Code, TaskKind Kind, IntervalBasis Basis, int IntervalDays, int FirstAfterDays, ClosedDayPolicy ClosedDays, int Minutes, TemplateSource Source)
{
    public int IntervalMonths { get; init; }

    /// <summary>Of an interval that follows what is found.</summary>
    public int FloorDays { get; init; }

    public int CeilingDays { get; init; }

    public decimal WantedFind { get; init; }

    /// <summary>For a test: what is measured.</summary>
    public IReadOnlyList<string> Parameters { get; init; } = [];

    /// <summary>Whether a plan has it already: a test by what it measures, an inspection by what it looks at, other work by its kind.</summary>
    public bool IsIn(IReadOnlyList<CareStep> plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var alike = plan.Where(s => s.Kind == Kind && (s.Basis == IntervalBasis.AfterFill) == (Basis == IntervalBasis.AfterFill)).ToList();
        return Kind switch
        {
            TaskKind.Test => Parameters.All(p => alike.Exists(s => s.Parameters.Contains(p, StringComparer.Ordinal))),
            TaskKind.Inspect => alike.Exists(s => s.Template == Code),
            _ => alike.Count > 0,
        };
    }
}
