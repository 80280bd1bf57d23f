using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings.Corrections;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Shared;

namespace ShopFluids.Web.Pages.Sumps.Corrections;

public sealed partial class CorrectionRowFields
{
    [Parameter, EditorRequired]
    public required CorrectionView View { get; set; }

    [Parameter, EditorRequired]
    public required CorrectionPage Page { get; set; }

    [Parameter, EditorRequired]
    public required CorrectionRow Row { get; set; }

    [Parameter, EditorRequired]
    public required CorrectionEffect Effect { get; set; }

    /// <summary>The value was said to be right.</summary>
    [Parameter, EditorRequired]
    public required EventCallback Kept { get; set; }

    private List<Choice> Instruments => [.. Row.Instruments.Select(tag => new Choice(tag, tag))];

    private string AsRead => View.Words.Format.Say(Texts.Correct_Value, Row.Name(View.Words.Sentences));

    private string AsStored
    {
        get
        {
            if (Row.Stored is not { } stored)
            {
                return Texts.Correct_WasNotMeasured;
            }

            var value = View.Words.Sentences.Value(stored.Parameter, stored.Value);
            var word = CorrectionEffect.Word(View.Words.Sentences, stored.Parameter, stored.Verdict, stored.Direction);
            return stored.Method == MethodCodes.Refractometer || stored.Method == MethodCodes.Titration
                ? View.Words.Format.Say(Texts.Correct_WasRead, $"{stored.RawValue.ToString("0.######", View.Words.Format.Culture)} {stored.RawUnit}", value, word)
                : View.Words.Format.Say(Texts.Correct_Was, value, word);
        }
    }

    private ValueQuestion? Question =>
        Effect.Outcome is { } outcome && Row.IsAsked(outcome) && Effect.Of(Row) is { } measured ? CorrectionEffect.Question(View, Page, Row, measured) : null;

    private Task KeepAsync()
    {
        Row.Confirm();
        return Kept.InvokeAsync();
    }
}
