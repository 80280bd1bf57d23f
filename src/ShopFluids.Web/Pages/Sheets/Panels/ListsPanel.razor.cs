using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Sheets.Panels;

public enum ListKind
{
    Lot = 0,
    Overdue = 1,
    Waste = 2,
    Month = 3,
    Instruments = 4,
    Dosing = 5,
}

/// <summary>Chooses a sheet that is not about one sump, and what it has to be told.</summary>
public sealed partial class ListsPanel
{
    private const int MonthsBack = 24;
    private ListKind _kind = ListKind.Overdue;
    private ChosenPeriod _period = new(false, null, null);
    private bool _isLetter;
    private bool _isByPerson;
    private Guid _lot;
    private string _month = "";

    [Parameter, EditorRequired]
    public required SheetChoice Choice { get; set; }

    private static IReadOnlyList<(ListKind Kind, string Name)> Kinds =>
    [
        (ListKind.Overdue, Texts.OverdueSheet_Title), (ListKind.Lot, Texts.LotSheet_Title), (ListKind.Waste, Texts.WasteSheet_Title), (ListKind.Dosing, Texts.DoseSheet_Title), (ListKind.Month, Texts.MonthSheet_Title),
        (ListKind.Instruments, Texts.InstrumentSheet_Title),
    ];

    private string Lead => _kind switch
    {
        ListKind.Lot => Texts.LotSheet_Lead,
        ListKind.Overdue => Texts.OverdueSheet_Lead,
        ListKind.Waste => Texts.WasteSheet_Lead,
        ListKind.Dosing => Texts.DoseSheet_Lead,
        ListKind.Month => Texts.MonthSheet_Lead,
        _ => Texts.InstrumentSheet_Lead,
    };

    private bool HasPeriod => _kind is ListKind.Lot or ListKind.Waste or ListKind.Dosing or ListKind.Instruments;

    private string UsualPeriod => _kind == ListKind.Lot ? Texts.Sheet_PeriodLot : Texts.Sheet_PeriodYear;

    private IEnumerable<DateOnly> Months => Enumerable.Range(0, MonthsBack).Select(n => new DateOnly(Choice.Today.Year, Choice.Today.Month, 1).AddMonths(-n));

    private string? Fault => _kind == ListKind.Lot && Choice.Lots.Count == 0 ? Texts.Stores_NoLots : HasPeriod ? _period.Fault : null;

    private string Address
    {
        get
        {
            var (file, fields) = _kind switch
            {
                ListKind.Lot => ("lot", _period.Fields.Prepend($"lot={_lot}")),
                ListKind.Overdue => ("overdue", [$"by={(_isByPerson ? ListSheetEndpoints.ByPerson : ListSheetEndpoints.ByArea)}"]),
                ListKind.Waste => ("waste", _period.Fields),
                ListKind.Dosing => ("dosing", _period.Fields),
                ListKind.Month => ("month", [$"month={_month}"]),
                _ => ("instruments", _period.Fields),
            };
            return $"sheets/{file}.pdf?{string.Join('&', fields.Append($"paper={(_isLetter ? SheetAsk.Letter : SheetAsk.A4)}"))}";
        }
    }

    protected override void OnInitialized()
    {
        _period = new(false, new DateOnly(Choice.Today.Year, 1, 1), Choice.Today);
        _lot = Choice.Lots.Count > 0 ? Choice.Lots[0].Id : Guid.Empty;
        _month = SheetAsk.WriteMonth(Choice.Today);
    }
}
