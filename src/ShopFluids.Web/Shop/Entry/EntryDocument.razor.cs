using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Entry;

public partial class EntryDocument
{
    private string? _focus;

    [Parameter, EditorRequired] public required EntryView View { get; set; }

    private string Title => View.Faults.Count > 0 || View.Notice is not null ? View.Visit.Say(Texts.Entry_TitleNotSaved, View.Page.Place.Tag) : View.Visit.Say(Texts.Entry_Title, View.Page.Place.Tag);

    private string Subtitle => string.Join(" · ", new[] { View.Visit.Machine(View.Page.Place), View.Page.FluidName, View.Visit.Say(Texts.Entry_Day, View.Visit.Format.Count(View.Page.DayOfCharge)) }.Where(s => s.Length > 0));

    private string? NoteFault => View.FaultAt(EntryForm.NoteName);

    private string? TimeFault => View.FaultAt(EntryForm.TakenAtName);

    private string NoteClass => NoteFault is null && TimeFault is null && View.FaultAt(EntryForm.PhotoName) is null ? "obs" : "obs q";

    private bool IsOpen => View.Page.Others.Any(f => View.Form.Of(f).Value.Length > 0 || View.FaultAt(EntryForm.ValueName(f.Key)) is not null);

    private string FootHead => View.Questions.Count > 0 ? View.Questions.Count == 1 ? Texts.Entry_OneQuestion : View.Visit.Say(Texts.Entry_Questions, View.Visit.Format.Count(View.Questions.Count))
        : View.Faults.Count > 0 || View.Notice is not null ? Texts.Entry_NotSaved
        : View.Page.Due.Count == 1 ? Texts.Entry_OneToMeasure
        : View.Visit.Say(Texts.Entry_ToMeasure, View.Visit.Format.Count(View.Page.Due.Count));

    private string FootText => View.Questions.Count > 0
        ? View.Visit.Say(Texts.Entry_AnswerUnder, string.Join(", ", View.Page.Fields.Where(f => View.Questions.Contains(f.Key)).Select(f => EntryWords.Label(View.Visit, f))))
        : Texts.Entry_LeaveEmpty;

    private List<EntryField> DueWords => [.. View.Page.Due.Where(f => f.WordCount > 0)];

    // One press for all of them is worth a button from two on.
    private EntryField? FirstWord => DueWords.Count > 1 ? DueWords[0] : null;

    private string Names(IEnumerable<string> parameters) => string.Join(", ", parameters.Select(View.Visit.Sentences.Parameter));

    // The cursor goes to what has to be typed again, or to what is asked; on a fresh page it stays away, so that no keyboard covers the round.
    protected override void OnParametersSet() =>
        _focus = View.Form.Again.Length > 0 ? EntryForm.ValueName(View.Form.Again) : View.Faults.Count > 0 ? View.Faults[0].Control
            : View.Page.Fields.FirstOrDefault(f => View.Questions.Contains(f.Key)) is { } asked ? EntryForm.AgainId(asked.Key) : null;
}
