using System.Data.Common;
using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.EntityFrameworkCore;
using ShopFluids.Core.Database;
using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>The recurring work of a sump.</summary>
public sealed partial class CarePage
{
    private CareDraft _draft = new(Guid.Empty);
    private string _said = "";
    private string _tag = "";
    private DateOnly _today;

    // A list that was left as it was after all is drawn anew.
    private int _picks;

    [SupplyParameterFromQuery(Name = "sump")]
    public string? SumpTag { get; set; }

    [Inject]
    public required AddCareStepHandler Add { get; init; }

    [Inject]
    public required StopCareStepHandler Stop { get; init; }

    protected override Task<CareView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var sump = (SumpTag is null ? null : words.Setup.FindSump(SumpTag)) ?? words.Setup.Sumps.FirstOrDefault(s => !s.IsRetired);
        _today = words.Setup.Calendar.ShopDayOf(Clock.UtcNow);
        if (_draft.Id == Guid.Empty)
        {
            _draft = new CareDraft(Clock.NewId()) { Anchor = DayInput.Write(_today) };
            _draft.Interval.Show(7, words.Format);
            _draft.Minutes.Show(5, words.Format);
            _draft.AcceptedRisk.Show(5, words.Format);
        }

        if (_tag != (sump?.Tag ?? ""))
        {
            (_tag, _said) = (sump?.Tag ?? "", "");
        }

        return Task.FromResult(new CareView(words, sump));
    }

    private void PickSump(ChangeEventArgs e)
    {
        _picks++;
        Navigation.NavigateTo(SetupAddress.Care(e.Value as string ?? ""));
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var kind = read.Choice<TaskKind>("kind", _draft.Kind);
        var isInDays = !_draft.CountsMonths && !_draft.IsByHours;
        var command = new AddCareStep(
            _draft.Id,
            _tag,
            kind,
            read.Choice<IntervalBasis>("basis", _draft.Basis),
            isInDays ? read.WholeNumber("intervalDays", _draft.Interval) : 0,
            _draft.IsAfterEvent ? _today : read.Day("anchor", _draft.Anchor),
            read.Choice<ClosedDayPolicy>("closedDays", _draft.ClosedDays),
            kind == TaskKind.Test ? [.. _draft.Parameters] : [],
            read.WholeNumber("estimatedMinutes", _draft.Minutes))
        {
            IntervalMonths = _draft.CountsMonths ? read.WholeNumber("intervalMonths", _draft.Interval) : 0,
            IntervalHours = _draft.IsByHours ? read.WholeNumber("intervalHours", _draft.Interval) : 0,
            FloorDays = _draft.HasBounds ? read.WholeNumber("floorDays", _draft.Floor) : 0,
            CeilingDays = _draft.HasBounds ? read.WholeNumber("ceilingDays", _draft.Ceiling) : 0,
            AcceptedRiskPercent = _draft.IsByRisk ? read.Number("acceptedRiskPercent", _draft.AcceptedRisk) : 0,
            WantedFind = _draft.IsByFind ? Wanted(read) : 0,
            EventParameter = _draft.IsAfterFlag ? _draft.EventParameter : "",
            Shift = int.Parse(_draft.Shift, CultureInfo.InvariantCulture),
            Needs = _draft.Needs,
        };
        return read.HasFaults ? null : (await Add.HandleAsync(command, await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private decimal Wanted(FormReader read)
    {
        if (_draft.Asked is not { IsGrade: true })
        {
            return read.Number("wantedFind", _draft.Wanted);
        }

        if (NumberInput.TryRead(_draft.WantedGrade, out var grade))
        {
            return grade;
        }

        read.Refuse("wantedFind", FieldProblem.Missing);
        return 0;
    }

    private async Task<string?> SavedAsync()
    {
        (_draft, _said) = (new CareDraft(Guid.Empty), "");
        await LoadAsync();
        return Texts.Setup_StepAdded;
    }

    private async Task<string?> StopAsync(Guid stepId, string name)
    {
        var fault = await TryAsync(async actor => (await Stop.HandleAsync(new StopCareStep(stepId), actor, CancellationToken.None)).Error);
        if (fault is null)
        {
            _said = (await Session.WordsAsync(Leaving)).Format.Say(Texts.Setup_Stopped, name);
            StateHasChanged();
        }

        return fault;
    }

    /// <returns>Why it was not done; null when it was.</returns>
    private async Task<string?> TryAsync(Func<Actor, Task<Error?>> act)
    {
        if (!await Session.MayAsync(Policies.CanSupervise))
        {
            return Texts.Setup_MayNot;
        }

        try
        {
            var error = await act(await Session.ActorAsync());
            await LoadAsync();
            return error is null ? null : (await Session.WordsAsync(Leaving)).Sentences.Error(error);
        }
        catch (Exception fault) when (fault is DbException or DbUpdateException)
        {
            return Texts.Setup_NotStored;
        }
    }
}
