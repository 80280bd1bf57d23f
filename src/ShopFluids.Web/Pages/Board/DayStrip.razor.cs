using Microsoft.AspNetCore.Components;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Pages.Board;

public sealed partial class DayStrip
{
    /// <summary>A box holds two letters; more would not be read. Where there is more, the second says so.</summary>
    private const int MostLetters = 2;
    private const string More = "+";

    [Parameter, EditorRequired]
    public required IReadOnlyList<BoardDay> Days { get; set; }

    [Parameter, EditorRequired]
    public required IReadOnlyList<BoardTask> Tasks { get; set; }

    [Parameter, EditorRequired]
    public required ShopFormat Format { get; set; }

    private List<string> Late => Letters(Tasks.Where(t => t.IsLate));

    private string Spoken
    {
        get
        {
            var late = Words(Tasks.Where(t => t.IsLate));
            var coming = Days.Select(d => (d.Day, Words: Words(On(d.Day)))).Where(d => d.Words.Length > 0).Select(d => $"{Format.Weekday(d.Day)}: {d.Words}");
            return string.Join(". ", new[] { late.Length > 0 ? Format.Say(Texts.Board_StripLate, late) : Texts.Board_StripNothingLate }.Concat(coming));
        }
    }

    private List<string> LettersOn(DateOnly day) => Letters(On(day));

    private IEnumerable<BoardTask> On(DateOnly day) => Tasks.Where(t => !t.IsLate && t.VisitDay == day);

    private static List<string> Letters(IEnumerable<BoardTask> tasks)
    {
        var letters = tasks.Select(t => Sentences.TaskLetter(t.Kind)).Distinct().ToList();
        return letters.Count <= MostLetters ? letters : [letters[0], More];
    }

    private static string Words(IEnumerable<BoardTask> tasks) => string.Join(", ", tasks.Select(t => TaskWord.Of(t.Kind)).Distinct());
}
