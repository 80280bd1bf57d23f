using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Web.Shop.Entry;

/// <summary>The entry page as it is drawn: what was typed, what is wrong with it, what it gives, what is asked.</summary>
/// <param name="Preview">What storing it would answer; null before anything was sent.</param>
/// <param name="Questions">Fields with an unlikely value that nobody has confirmed.</param>
/// <param name="Notice">Why the form as a whole was not stored.</param>
/// <param name="StoredAlready">The address of the reading that has this page's id.</param>
public sealed record EntryView(
    ShopVisit Visit,
    EntryPage Page,
    EntryForm Form,
    IReadOnlyList<EntryFault> Faults,
    ReadingOutcome? Preview,
    IReadOnlySet<string> Questions,
    string? Notice = null,
    string? StoredAlready = null)
{
    /// <summary>Nothing was sent yet: the tablet may fill in what it kept.</summary>
    public bool IsFresh { get; init; }

    /// <summary>The sump smelled of hydrogen sulphide when somebody last smelled at it: whoever comes must know before they bend over it.</summary>
    public bool WarnsOfGas => CautionAdvice.WarnsOfGas(Page.Fields.FirstOrDefault(f => f.Parameter == ParameterCodes.Odour)?.Last?.Value ?? 0);

    public static EntryView Empty(ShopVisit visit, EntryPage page, EntryForm form) =>
        new(visit, page, form, [], null, new HashSet<string>(StringComparer.Ordinal));

    public MeasurementOutcome? Measured(EntryField field) => Preview?.Measurements.FirstOrDefault(m => m.Parameter == field.Parameter && IsOf(m, field));

    /// <summary>What is wrong with a control, in words; null when nothing is.</summary>
    public string? FaultAt(string control) => Faults.FirstOrDefault(f => f.Control == control) is { } fault ? SentenceOf(fault) : null;

    public string SentenceOf(EntryFault fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        return fault.Error is { Problem: FieldProblem.NotANumber or FieldProblem.MaybeThousands, Low: { } low, High: { } high }
            ? $"{Visit.Sentences.Field(fault.Error with { Low = null, High = null })} {Visit.Say(Texts.Entry_AcceptedRange, Amount(low, fault.Error.Unit), Amount(high, fault.Error.Unit))}"
            : Visit.Sentences.Field(fault.Error);
    }

    // The range of a scale stays in its own unit, only degrees follow the person.
    private string Amount(decimal value, string? unit)
    {
        var number = Visit.Format.Number(value, value == decimal.Truncate(value) ? 0 : 2);
        return unit switch
        {
            "°C" => Visit.Format.Temperature((double)value),
            // The name of a scale, not a unit.
            null or "" or "pH" => number,
            _ => $"{number} {unit}",
        };
    }

    /// <summary>The volume at a level.</summary>
    public string? LevelGives(decimal levelMm) => Visit.Setup.FindSump(Page.Place.SumpId) is { } sump ? Visit.Format.Volume(sump.Geometry.VolumeLitresAt((double)levelMm)) : null;

    /// <summary>Unlikely and not yet confirmed.</summary>
    public static IReadOnlySet<string> QuestionsOf(EntryPage page, EntryForm form, ReadingOutcome preview) => page.Fields
        .Where(f => !form.IsConfirmed(f) && preview.Measurements.Any(m => m.IsUnlikely && m.Parameter == f.Parameter && IsOf(m, f)))
        .Select(f => f.Key)
        .ToHashSet(StringComparer.Ordinal);

    private static bool IsOf(MeasurementOutcome measured, EntryField field) =>
        (measured.Method == MeasuringMethod.Titration) == (field.Ways[0].Method == MeasuringMethod.Titration);
}
