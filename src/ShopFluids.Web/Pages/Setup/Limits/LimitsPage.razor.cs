using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Database;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Limits.Effects;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Components.Shared;
using ShopFluids.Web.Components.Shared.Loading;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Limits;

/// <summary>The limits of a fluid, or of one sump that needs its own. Saving makes the next version from now on.</summary>
public sealed partial class LimitsPage
{
    private readonly List<LimitRowDraft> _rows = [];
    private string _owner = "";
    private int _seenNumber;
    private Guid _id;
    private LimitsPast? _past;
    private IReadOnlyList<ParameterLimits>? _drafted;
    private TypingPause? _pause;

    // A list that was left as it was after all is drawn anew.
    private int _picks;
    private int _adds;

    [SupplyParameterFromQuery(Name = "fluid")]
    public string? FluidId { get; set; }

    [SupplyParameterFromQuery(Name = "sump")]
    public string? SumpTag { get; set; }

    [Inject]
    public required SetLimitsHandler Handler { get; init; }

    [Inject]
    public required LimitsPastQuery Past { get; init; }

    [Inject]
    public required TimeProvider Time { get; init; }

    protected override void OnInitialized() => _pause = new TypingPause(Time, Leaving);

    protected override async Task<LimitsView> ReadAsync(DeskWords words, CancellationToken cancellationToken)
    {
        var view = LimitsView.Of(words, FluidId, SumpTag);
        if (view.Key != _owner || _id == Guid.Empty)
        {
            (_owner, _id, _seenNumber) = (view.Key, Clock.NewId(), view.Latest?.Number ?? 0);
            _rows.Clear();
            foreach (var limits in view.Latest?.Limits ?? [])
            {
                if (words.Setup.FindParameter(limits.Parameter) is { } parameter)
                {
                    _rows.Add(new LimitRowDraft(parameter, limits, words.Format));
                }
            }

            _rows.Sort((a, b) => (a.Parameter.Order, a.Basis).CompareTo((b.Parameter.Order, b.Basis)));
            _past = view.Key.Length == 0 ? null : await Past.RunAsync(view.Fluid?.Id, view.Sump?.Id, cancellationToken);
            Redraft(words);
        }

        return view;
    }

    private void Restart() => _ = RedraftLaterAsync();

    private async Task RedraftLaterAsync()
    {
        try
        {
            if (_pause is { } pause && await pause.IsOverAsync() && View is Load<LimitsView>.Loaded { Value: var view })
            {
                Redraft(view.Words);
                StateHasChanged();
            }
        }
        catch (OperationCanceledException) when (Leaving.IsCancellationRequested)
        {
            // The page was left while somebody was typing.
        }
        catch (Exception fault)
        {
            // Nobody waits for it; the circuit has to be told.
            await DispatchExceptionAsync(fault);
        }
    }

    private void Redraft(DeskWords words)
    {
        var read = new FormReader(words.Format);
        var limits = Drafted(read);
        _drafted = read.HasFaults ? null : limits;
    }

    private List<ParameterLimits> Drafted(FormReader read) => [.. _rows.Where(r => !r.IsGone).Select(r => r.Read(read))];

    private static string VersionOf(LimitSet set, ShopFormat format) => set.ValidFromUtc <= DateTime.UnixEpoch
        ? format.Say(Texts.Setup_VersionFirst, format.Count(set.Number))
        : format.Say(Texts.Setup_Version, format.Count(set.Number), format.DayAndTime(set.ValidFromUtc));

    private void PickOwner(ChangeEventArgs e)
    {
        _picks++;
        Navigation.NavigateTo($"setup/limits?{e.Value as string}");
    }

    /// <summary>A new row begins with what judges the parameter so far.</summary>
    private void AddRow(ChangeEventArgs e)
    {
        _adds++;
        if (View is Load<LimitsView>.Loaded { Value: var view } && view.Words.Setup.FindParameter(e.Value as string ?? "") is { } parameter)
        {
            var inForce = view.Sump is { } sump && view.Words.Setup.OpenCharge(sump.Id) is { } charge
                ? view.Words.Setup.LimitsAt(sump.Id, charge.FluidId, Clock.UtcNow).ValueLimits(parameter.Code)
                : null;
            _rows.Add(new LimitRowDraft(parameter, inForce ?? new ParameterLimits(parameter.Code, LimitBasis.Value, null, null, null, null, null, null, false, 0), view.Words.Format));
            Restart();
        }
    }

    /// <summary>The command knows one name for a parameter; a fall stands on a row of its own.</summary>
    private string PlaceOf(FieldError error)
    {
        var parts = error.Field.Split('.');
        var row = parts.Length < 2 ? null : _rows.Find(r => !r.IsGone && r.Parameter.Code == parts[1]);
        return row is null ? error.Field : string.Join('.', [row.Key, .. parts.Skip(2)]);
    }

    private async Task<Error?> SaveAsync(FormReader read)
    {
        var view = LimitsView.Of(await Session.WordsAsync(CancellationToken.None), FluidId, SumpTag);
        if ((view.Latest?.Number ?? 0) != _seenNumber)
        {
            return new ChangedMeanwhile(view.Latest?.Number ?? 0);
        }

        var limits = Drafted(read);
        return read.HasFaults
            ? null
            : (await Handler.HandleAsync(new SetLimits(_id, view.Fluid?.Id, view.Sump?.Id, Clock.UtcNow, limits), await Session.ActorAsync(), CancellationToken.None)).Error;
    }

    private async Task<string?> SavedAsync()
    {
        _id = Guid.Empty;
        await LoadAsync();
        var format = (await Session.WordsAsync(Leaving)).Format;
        return format.Say(Texts.Setup_LimitsSaved, format.Count(_seenNumber));
    }
}
