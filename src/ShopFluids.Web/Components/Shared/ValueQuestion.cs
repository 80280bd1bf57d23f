using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Components.Shared;

/// <summary>What is asked about an unlikely value before it is stored, and the answer that keeps it.</summary>
/// <param name="Typed">The number as it was typed.</param>
/// <param name="Measured">What it gives.</param>
internal sealed record ValueQuestion(DeskWords Words, EntryField Field, decimal RefractometerFactor, decimal ZeroBrix, DateTime NowUtc, string Typed, MeasurementOutcome Measured)
{
    public string Text => IsScale
        ? Say(Texts.Entry_QuestionScale, Typed)
        : Say(Texts.Entry_QuestionValue, Words.Sentences.Parameter(Measured.Parameter), Typed);

    public string Keep => Say(IsScale ? Texts.Entry_KeepScale : Texts.Entry_KeepValue, Typed);

    /// <summary>What it gives, how far that is from the last value, what is usual, and the commonest slip.</summary>
    public string Why
    {
        get
        {
            var value = Words.Sentences.Value(Field.Parameter, Measured.Value);
            var sentences = new List<string> { Change is { } change ? Say(Texts.Entry_GivesChanged, value, change) : Say(Texts.Entry_Gives, value) };
            if (Measured.Value < Field.UsualLow || Measured.Value > Field.UsualHigh)
            {
                sentences.Add(Usual);
            }

            if (IsScale && RefractometerFactor != 1)
            {
                var scale = (Measured.RawValue / RefractometerFactor) + ZeroBrix;
                sentences.Add(Say(Texts.Entry_WorkedOutAlready, Typed, Words.Format.Number(scale, 1)));
            }

            return string.Join(' ', sentences);
        }
    }

    private bool IsScale => Measured.Method == MeasuringMethod.Refractometer;

    private string Usual => (Field.UsualLow, Field.UsualHigh) switch
    {
        ({ } low, { } high) => Say(Texts.Entry_Usual, Words.BareValue(Field.Parameter, low), Words.Sentences.Value(Field.Parameter, high)),
        ({ } low, _) => Say(Texts.Entry_UsualAtLeast, Words.Sentences.Value(Field.Parameter, low)),
        (_, { } high) => Say(Texts.Entry_UsualAtMost, Words.Sentences.Value(Field.Parameter, high)),
        _ => "",
    };

    /// <summary>up 4.4 in 6 days; null without a last value or without a change.</summary>
    private string? Change
    {
        get
        {
            if (Field.Last is not { } last || Measured.Previous is not { } previous || previous == Measured.Value)
            {
                return null;
            }

            var amount = Words.BareValue(Field.Parameter, Math.Abs(Measured.Value - previous));
            var days = Words.Format.ToShopTime(NowUtc).Date.Subtract(Words.Format.ToShopTime(last.TakenAtUtc).Date).Days;
            var isUp = Measured.Value > previous;
            return days switch
            {
                <= 0 => Say(isUp ? Texts.Entry_UpToday : Texts.Entry_DownToday, amount),
                1 => Say(isUp ? Texts.Entry_UpSinceYesterday : Texts.Entry_DownSinceYesterday, amount),
                _ => Say(isUp ? Texts.Entry_UpInDays : Texts.Entry_DownInDays, amount, Words.Format.Count(days)),
            };
        }
    }

    private string Say(string pattern, params object?[] values) => Words.Format.Say(pattern, values);
}
