using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Database;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>Steps of a shipped template, seen before they are put on the plan of a sump.</summary>
public sealed partial class TemplatePage
{
    private TemplateDraft _draft = new();
    private string _tag = "";

    // A list that was left as it was after all is drawn anew.
    private int _picks;

    [SupplyParameterFromQuery(Name = "sump")]
    public string? SumpTag { get; set; }

    [Inject]
    public required ApplyCareTemplateHandler Apply { get; init; }

    protected override Task<TemplateView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(words);
        var sump = (SumpTag is null ? null : words.Setup.FindSump(SumpTag)) ?? words.Setup.Sumps.FirstOrDefault(s => !s.IsRetired);
        var view = new TemplateView(words, sump, words.Setup.Calendar.ShopDayOf(Clock.UtcNow));
        if (_tag != view.Tag)
        {
            (_tag, _draft) = (view.Tag, new TemplateDraft { Fluid = view.FluidKind, Use = view.Use });
        }

        return Task.FromResult(view);
    }

    private void PickSump(ChangeEventArgs e)
    {
        _picks++;
        Navigation.NavigateTo(SetupAddress.CareTemplate(e.Value as string ?? ""));
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        if (View is not Load<TemplateView>.Loaded { Value: { } view })
        {
            return null;
        }

        var chosen = _draft.Chosen(view);
        if (chosen.Count == 0)
        {
            read.Refuse(ApplyCareTemplateHandler.StepsField, FieldProblem.Missing);
            return null;
        }

        var steps = _draft.Offered(view).Where(o => chosen.Contains(o.Step.Code)).Select(o => new TemplateChoice(_draft.IdOf(o.Step.Code, Clock.NewId), o.Step.Code));
        return (await Apply.HandleAsync(new ApplyCareTemplate(_tag, _draft.Fluid, _draft.Use, [.. steps]), await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private Task<string?> SavedAsync()
    {
        Navigation.NavigateTo(SetupAddress.Care(_tag));
        return Task.FromResult<string?>(null);
    }
}
