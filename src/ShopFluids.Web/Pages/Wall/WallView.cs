using System.Globalization;
using ShopFluids.Core.Board;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Limit;

namespace ShopFluids.Web.Pages.Wall;

/// <summary>One turn of the wall, in the words of the shop: short ones, for they are read in passing.</summary>
/// <param name="AreaId">The only area that the display shows; null: all.</param>
public sealed record WallView(WallBoard Wall, int TurnNumber, Guid? AreaId, string Theme, Sentences Words)
{
    // Beyond these lengths a text is set smaller rather than cut.
    private const int LongReason = 60;
    private const int VeryLongReason = 100;
    private const int LongWork = 16;
    private const int VeryLongWork = 44;

    public ShopBoard Board => Wall.Board;

    public ShopFormat Format => Words.Format;

    public WallTurn Turn => Wall.Turns[TurnNumber];

    public string SiteName => Board.Setup.Site?.Name ?? "";

    public string AtMilliseconds => new DateTimeOffset(Board.AtUtc, TimeSpan.Zero).ToUnixTimeMilliseconds().ToString(CultureInfo.InvariantCulture);

    public string TimeZone => Board.Setup.Site?.TimeZoneId ?? "Etc/UTC";

    public int Overdue => Board.Rows.Count(r => r.Tasks.Any(t => t.IsLate));

    /// <summary>Which part of the shop this turn is about; empty where it is all of it.</summary>
    public string Heading
    {
        get
        {
            if ((Turn.AreaId ?? AreaId) is not { } area)
            {
                return Wall.Turns.Count > 1 ? Texts.Wall_Worst : "";
            }

            var name = Board.Setup.Area(area).Name;
            return Turn.Parts > 1 ? Format.Say(Texts.Wall_AreaPart, name, Format.Count(Turn.Part), Format.Count(Turn.Parts)) : name;
        }
    }

    /// <summary>First what may hurt who goes there, then why it is shown.</summary>
    public string Why(BoardRow row) => string.Join(' ', new[]
    {
        row.KeepAway is { } keepAway ? $"{DoseSentences.Keep(keepAway, Format)}." : "",
        row.WarnsOfGas ? Texts.Caution_HydrogenSulphideShort : "",
        Reason(row),
    }.Where(s => s.Length > 0));

    private string Reason(BoardRow row)
    {
        if (row.FilledAtUtc is not { } filled)
        {
            return Texts.Board_StandsEmpty;
        }

        return row.Flags.Count > 0 ? Short(row.Flags[0])
            : row.LastReadAtUtc is { } read ? Format.Say(Texts.Board_LastRead, Format.Ago(read, Board.AtUtc))
            : Format.Say(Texts.Board_FilledNotRead, Format.When(filled, Board.AtUtc));
    }

    public static string WhyClass(string why) => why.Length > VeryLongReason ? "why xl" : why.Length > LongReason ? "why l" : "why";

    /// <summary>What is to be done first; null where nothing is asked for.</summary>
    public static BoardTask? First(BoardRow row) => row.Tasks.Count > 0 ? row.Tasks[0] : null;

    /// <summary>What is to be poured stands here in full; all other work by its name.</summary>
    public string Do(BoardTask task) => task.Kind is TaskKind.Adjust or TaskKind.Inspect ? Words.Task(task.Kind, task.Cause, task.Recipe) : Sentences.Task(task.Kind);

    public static string DoClass(string work) => work.Length > VeryLongWork ? "do l xl" : work.Length > LongWork ? "do l" : "do";

    public string Who(BoardTask task) => task.Who?.Name ?? Texts.Wall_Nobody;

    public string Silence(SilentStation station) => station.Unsent > 0
        ? Format.Say(Texts.Wall_SilentUnsent, station.Name, Format.When(station.SeenAtUtc, Board.AtUtc), Format.Count(station.Unsent))
        : Format.Say(Texts.Wall_Silent, station.Name, Format.When(station.SeenAtUtc, Board.AtUtc));

    // Of a value beyond its limit both numbers say it all.
    private string Short(BoardFlag flag) => Words.Words(flag.Parameter).Count > 0 && flag.Rule == LimitRule.Code && flag.Numbers.TryGetValue(NumberNames.Value, out var word)
        ? Format.Say(Texts.Wall_Word, Words.Parameter(flag.Parameter), Words.Value(flag.Parameter, flag.Latest ?? word))
        : Beyond(flag);

    private string Beyond(BoardFlag flag) => flag.Rule == LimitRule.Code && flag.Numbers.TryGetValue(NumberNames.Limit, out var limit) && (flag.Latest ?? flag.Numbers.GetValueOrDefault(NumberNames.Value)) is var value
        ? Format.Say(
            flag.Severity == Verdict.Action ? Texts.Wall_BeyondAction : Texts.Wall_BeyondWarning,
            Words.Parameter(flag.Parameter),
            Words.Value(flag.Parameter, value),
            Words.Value(flag.Parameter, limit))
        : Words.FlagNow(flag);
}
