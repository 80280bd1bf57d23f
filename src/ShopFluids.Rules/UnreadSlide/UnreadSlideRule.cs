using ShopFluids.Rules.Facts;
using ShopFluids.Rules.Findings;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Rules.UnreadSlide;

/// <summary>
/// Flags a dip slide that was not read in its window: colonies go on growing, and soon nobody can tell how many there were. The clock raises it;
/// it ends when no slide of the sump is waiting beyond its window any more.
/// </summary>
public sealed class UnreadSlideRule : IRule
{
    /// <summary>The rule's code.</summary>
    public const string RuleCode = "unread-slide";

    /// <summary>Number: for how long a slide is kept in an incubator at 30 °C, h. Suppliers' leaflets, read second hand.</summary>
    public const string IncubatorHours = "incubatorHours";

    /// <summary>Number: for how long a slide is kept at room temperature, 22 to 24 °C, h. Suppliers' leaflets, read second hand.</summary>
    public const string RoomHours = "roomHours";

    /// <summary>Number: for how long after that it may be read, h. Common practice, no source.</summary>
    public const string WindowHours = "windowHours";

    /// <summary>After so long from the dip nothing can be told from a slide, whatever it was kept at: the longest that suppliers' leaflets name, read second hand.</summary>
    public static readonly TimeSpan Longest = TimeSpan.FromHours(120);

    private const string CausePrefix = "slide:";

    /// <inheritdoc/>
    public string Code => RuleCode;

    /// <inheritdoc/>
    public int Version => 1;

    /// <inheritdoc/>
    public IReadOnlyList<RuleNumber> Numbers { get; } =
    [
        new(IncubatorHours, 24, 12, 72) { IsWhole = true },
        new(RoomHours, 36, 24, 96) { IsWhole = true },
        new(WindowHours, 12, 1, 24) { IsWhole = true },
    ];

    /// <inheritdoc/>
    public bool AsksForASecondLook => false;

    /// <summary>The cause of the work of reading a slide.</summary>
    /// <param name="slideId">The slide's id.</param>
    public static string CauseOf(Guid slideId) => $"{CausePrefix}{slideId:N}";

    /// <summary>Whether an open task is a slide that was not read in its window.</summary>
    /// <param name="task">An open task; it is due at the end of the window.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public static bool IsLate(OpenTask task, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(task);
        return task.Kind == TaskKind.ReadSlide && task.DueAt <= now;
    }

    /// <summary>The flag for a slide that was not read; null where none is late, or the sump is flagged already.</summary>
    /// <param name="standing">What is known of the sump.</param>
    /// <param name="tunings">How the rules are set for the sump.</param>
    /// <param name="now">The moment of judging, UTC.</param>
    public RaisedFlag? CheckClock(StandingFacts standing, IReadOnlyDictionary<string, RuleTuning> tunings, DateTime now)
    {
        ArgumentNullException.ThrowIfNull(standing);
        if (!TunedRule.Of(this, tunings).IsOn || standing.OpenFlags.Any(f => f.Rule == RuleCode))
        {
            return null;
        }

        var late = standing.OpenTasks.Where(t => IsLate(t, now)).MinBy(t => t.DueAt);
        return late is null
            ? null
            : new(RuleCode, Version, ParameterCodes.Bacteria, Verdict.Warning, Direction.None, new SortedDictionary<string, decimal>(StringComparer.Ordinal)
            {
                [NumberNames.HoursLate] = (now - late.DueAt).Ticks / TimeSpan.TicksPerHour,
            });
    }

    /// <inheritdoc/>
    public IEnumerable<RuleOpinion> Check(RuleCase reading) => [];

    /// <inheritdoc/>
    public IReadOnlyList<TaskKind> WorkFor(FlagKey flag, bool isConfirmed) => [];
}
