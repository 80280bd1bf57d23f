using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Sheets;
using ShopFluids.Core.Wording;
using ShopFluids.Printing;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Sheets.Jobs;

namespace ShopFluids.Web.Pages.Sheets.Panels;

/// <summary>Chooses what a history sheet shows: one opens at once, several are made into one file beside the page.</summary>
public sealed partial class HistoryPanel
{
    private readonly List<SheetSubject> _chosen = [];
    private ChosenPeriod _period = new(false, null, null);
    private bool _isLetter;
    private string _said = "";

    [Parameter, EditorRequired]
    public required SheetChoice Choice { get; set; }

    [Inject]
    public required DeskSession Session { get; init; }

    [Inject]
    public required SheetJobs Jobs { get; init; }

    [Inject]
    public required HistoryFile File { get; init; }

    /// <summary>Why no sheet can be made of what was chosen; null when one can.</summary>
    private string? Fault => _chosen.Count == 0 ? Texts.Sheet_ChooseOne : _period.Fault;

    private string Address => $"{_chosen[0].Address}?{string.Join('&', _period.Fields.Append($"paper={(_isLetter ? SheetAsk.Letter : SheetAsk.A4)}"))}";

    private string MakeText => Choice.Format.Say(Texts.Sheet_MakeFile, Choice.Format.Count(_chosen.Count));

    protected override void OnInitialized() => _period = new(false, Choice.Today.AddDays(-HistorySheetQuery.UsualDays), Choice.Today);

    private void Toggle(SheetSubject subject)
    {
        _said = "";
        if (!_chosen.Remove(subject))
        {
            _chosen.Add(subject);
        }
    }

    private async Task MakeAsync()
    {
        var maker = await Session.ActorAsync();

        // In the order of the lists, not in that of ticking.
        var subjects = Choice.Sumps.Concat(Choice.Machines).Where(_chosen.Contains).ToList();
        var (from, to) = _period.IsChosen ? (_period.From, _period.To) : (null, null);
        var work = File.Of(subjects, from, to, _isLetter ? PaperSize.Letter : PaperSize.A4, maker.Name);
        var isTaken = maker.PersonId is { } id && Jobs.TryAdd(id, string.Join(", ", subjects.Select(s => s.Tag)), subjects.Count, work) is not null;
        _said = isTaken ? Texts.Sheet_JobTaken : Texts.Sheet_JobsFull;
    }
}
