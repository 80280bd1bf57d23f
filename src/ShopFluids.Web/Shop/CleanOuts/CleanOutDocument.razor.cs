using Microsoft.AspNetCore.Components;
using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Shop.Entry;

namespace ShopFluids.Web.Shop.CleanOuts;

public partial class CleanOutDocument
{
    [Parameter, EditorRequired] public required CleanOutView View { get; set; }

    private string Subtitle => string.Join(" · ", new[]
    {
        View.Visit.Machine(View.Page.Place), View.Page.FluidName, View.Say(Texts.CleanOut_Charge, View.Visit.Format.Count(View.Page.ChargeNumber)),
    }.Where(s => s.Length > 0));

    private string Due => View.Page.DueAtUtc is { } due ? View.Visit.Format.Late(due, View.Page.NowUtc) ?? View.Say(Texts.CleanOut_Due, View.Visit.Format.Due(due, View.Page.NowUtc)) : Texts.CleanOut_NotDue;

    // In the list of faults nothing stands beside it that would say which one is meant.
    private static string Listed(CleanOutStepKind at, string field, string sentence) =>
        CleanOutConfirmations.Of(at).Contains(field, StringComparer.Ordinal) ? CleanOutSentences.Confirmation(field) : sentence;

    private static string IdOf(CleanOutPageStep step, bool isCurrent) => isCurrent ? CleanOutView.Now : $"step-{step.Kind.ToString().ToLowerInvariant()}";

    private string CssClass(CleanOutPageStep step) => step.Noted is not null ? "done" : step == View.Page.Current ? "here" : "todo";

    private static string? FocusOf(EntryView first) =>
        first.Form.Again.Length > 0 ? EntryForm.ValueName(first.Form.Again) : first.Faults.Count > 0 ? first.Faults[0].Control : null;
}
