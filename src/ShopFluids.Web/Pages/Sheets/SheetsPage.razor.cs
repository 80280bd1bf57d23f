using System.Data.Common;
using System.Globalization;
using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Time;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Shared.Loading;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>Chooses what a sheet shows; the link opens it.</summary>
public sealed partial class SheetsPage : IDisposable
{
    private readonly CancellationTokenSource _leaving = new();
    private Load<SheetChoice> _view = new Load<SheetChoice>.Loading();
    private string _of = "";
    private bool _hasPeriod;
    private bool _isLetter;
    private DateOnly? _from;
    private DateOnly? _to;

    [Inject]
    public required SetupCache Setups { get; init; }

    [Inject]
    public required ShopClock Clock { get; init; }

    /// <summary>Why no sheet can be made of what was chosen; null when one can.</summary>
    private string? Fault => !_hasPeriod ? null
        : _from is null || _to is null ? Texts.Sheet_DaysMissing
        : _from > _to ? Texts.Sheet_PeriodEndsFirst
        : null;

    private string Address
    {
        get
        {
            var period = _hasPeriod ? $"from={Day(_from ?? default)}&to={Day(_to ?? default)}&" : "";
            return $"{_of}?{period}paper={(_isLetter ? "letter" : "a4")}";
        }
    }

    public void Dispose()
    {
        _leaving.Cancel();
        _leaving.Dispose();
    }

    protected override async Task OnInitializedAsync() => await LoadAsync();

    private static string Day(DateOnly day) => day.ToString(SheetEndpoints.DayFormat, CultureInfo.InvariantCulture);

    private async Task LoadAsync()
    {
        _view = new Load<SheetChoice>.Loading();
        try
        {
            var setup = await Setups.CurrentAsync(_leaving.Token);
            var choice = SheetChoice.Of(setup, setup.Calendar.ShopDayOf(Clock.UtcNow));
            _of = choice.Sumps.Count > 0 ? choice.Sumps[0].Address : "";
            (_from, _to) = (choice.Today.AddDays(-HistorySheetQuery.UsualDays), choice.Today);
            _view = new Load<SheetChoice>.Loaded(choice);
        }
        catch (OperationCanceledException) when (_leaving.IsCancellationRequested)
        {
            // The page was left while it was reading.
        }
        catch (DbException)
        {
            _view = new Load<SheetChoice>.Failed(Texts.Sheet_ChoiceFailed);
        }
    }
}
