using ShopFluids.Core.Readings;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Sumps.Corrections;

/// <summary>The reading to correct; or why it cannot be corrected.</summary>
/// <param name="Draft">Null exactly where <paramref name="Page"/> is.</param>
/// <param name="Refusal">Empty where there is a page.</param>
public sealed record CorrectionView(DeskWords Words, CorrectionPage? Page, CorrectionDraft? Draft, string Refusal);

/// <summary>What a correction leads to, before it is saved.</summary>
/// <param name="Outcome">Null while it cannot be told.</param>
/// <param name="Why">Why it cannot be told, as sentences.</param>
public sealed record CorrectionEffect(ReadingOutcome? Outcome, IReadOnlyList<string> Why)
{
    public static CorrectionEffect Unknown { get; } = new(null, []);

    // What ends with the old reading and begins again with the new one has not changed for anybody.
    public IEnumerable<FlagOutcome> Raised => Outcome is null ? [] : Outcome.Raised.Where(f => !Outcome.Cleared.Any(c => IsSame(c, f)));

    public IEnumerable<FlagOutcome> Ended => Outcome is null ? [] : Outcome.Cleared.Where(f => !Outcome.Raised.Any(r => IsSame(f, r)));

    public IEnumerable<TaskOutcome> Made => Outcome is null ? [] : Outcome.Made.Where(t => !Outcome.Withdrawn.Any(w => IsSame(w, t)));

    public IEnumerable<TaskOutcome> Withdrawn => Outcome is null ? [] : Outcome.Withdrawn.Where(t => !Outcome.Made.Any(m => IsSame(t, m)));

    public MeasurementOutcome? Of(CorrectionRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return row.Value.IsEmpty ? null : Outcome?.Measurements.FirstOrDefault(row.IsOf);
    }

    internal static ValueQuestion Question(CorrectionView view, CorrectionPage page, CorrectionRow row, MeasurementOutcome measured) =>
        new(view.Words, row.Field, page.RefractometerFactor, page.ZeroBrix, page.NowUtc, row.Value.Text, measured);

    /// <summary>The word for a verdict; that there is no limit where nothing judges.</summary>
    public static string Word(Sentences sentences, string parameter, Verdict verdict, Direction direction)
    {
        ArgumentNullException.ThrowIfNull(sentences);
        return verdict == Verdict.NotMeasured ? Texts.Saved_NoLimit : sentences.VerdictOn(parameter, verdict, direction);
    }

    private static bool IsSame(FlagOutcome a, FlagOutcome b) => (a.Rule, a.Parameter, a.Severity, a.Direction) == (b.Rule, b.Parameter, b.Severity, b.Direction);

    private static bool IsSame(TaskOutcome a, TaskOutcome b) => (a.Kind, a.Cause) == (b.Kind, b.Cause);
}
