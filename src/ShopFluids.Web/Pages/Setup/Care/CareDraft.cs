using System.Globalization;
using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Finds;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>A step as it is being typed.</summary>
public sealed class CareDraft(Guid id)
{
    public const string InDays = "days";
    public const string InMonths = "months";

    private string _kind = nameof(TaskKind.Test);
    private NumberBox? _wanted;

    public Guid Id { get; } = id;

    /// <summary>Work that finds nothing to count cannot be reckoned by it.</summary>
    public string Kind
    {
        get => _kind;
        set
        {
            (_kind, _wanted, WantedGrade) = (value, null, "");
            if ((IsByFind && Asked is null) || (IsByRisk && !IsTest))
            {
                Basis = nameof(IntervalBasis.FromLastDone);
            }
        }
    }

    public bool IsTest => Kind == nameof(TaskKind.Test);

    public string Basis { get; set; } = nameof(IntervalBasis.CalendarAnchored);

    public bool IsByFind => Basis == nameof(IntervalBasis.Condition);

    public bool IsByRisk => Basis == nameof(IntervalBasis.Risk);

    /// <summary>Between a shortest and a longest.</summary>
    public bool HasBounds => IsByFind || IsByRisk;

    public bool IsByHours => Basis == nameof(IntervalBasis.RunningHours);

    public bool IsAfterFlag => Basis == nameof(IntervalBasis.AfterFlag);

    public bool IsAfterEvent => IsAfterFlag || Basis == nameof(IntervalBasis.AfterFill);

    public bool MayCountMonths => Basis is nameof(IntervalBasis.CalendarAnchored) or nameof(IntervalBasis.FromLastDone);

    public bool CountsMonths => MayCountMonths && IntervalIn == InMonths;

    public string IntervalIn { get; set; } = InDays;

    public NumberBox Interval { get; } = new();

    public NumberBox Floor { get; } = new();

    public NumberBox Ceiling { get; } = new();

    public NumberBox AcceptedRisk { get; } = new();

    /// <summary>What the work asks for when it is done; null where it asks for no number.</summary>
    public FindQuestion? Asked => Enum.TryParse<TaskKind>(Kind, out var kind) ? FindQuestion.Of(kind) : null;

    public NumberBox Wanted => _wanted ??= new(QuantityInput.OfUnit(Asked?.Unit ?? ""));

    public string WantedGrade { get; set; } = "";

    public string EventParameter { get; set; } = "";

    public string Anchor { get; set; } = "";

    public string ClosedDays { get; set; } = nameof(ClosedDayPolicy.Earlier);

    public IReadOnlySet<string> Parameters { get; set; } = new HashSet<string>(CareTemplates.CoreParameters, StringComparer.Ordinal);

    public NumberBox Minutes { get; } = new();

    /// <summary>The shift at whose end it is due; 0 for the end of the shop day.</summary>
    public string Shift { get; set; } = "0";

    public string What { get; set; } = "";

    public string Filter { get; set; } = "";

    public bool HasFilter => Kind == nameof(TaskKind.ChangeFilter);

    /// <summary>A line for each step.</summary>
    public string Steps { get; set; } = "";

    public StepNeeds Needs => new(What, HasFilter ? Filter : "", Steps.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<TaskKind>().Where(AddCareStepHandler.IsOfACalendar).Select(k => new Choice(k.ToString(), WorkSentences.Planned(k)))];

    public IReadOnlyList<Choice> Bases => [.. Enum.GetValues<IntervalBasis>().Where(IsOffered).Select(b => new Choice(b.ToString(), BasisWord(b)))];

    private bool IsOffered(IntervalBasis basis) => basis switch
    {
        IntervalBasis.Condition => Asked is not null,
        IntervalBasis.Risk => IsTest,
        _ => true,
    };

    public static IReadOnlyList<Choice> Units => [new(InDays, Texts.Setup_InDays), new(InMonths, Texts.Setup_InMonths)];

    // A clean filter cannot be wanted: there would be nothing to compare with.
    public static IReadOnlyList<Choice> Grades =>
        [.. Enum.GetValues<FilterState>().Where(s => s != FilterState.Clean).Select(s => new Choice(((short)s).ToString(CultureInfo.InvariantCulture), FindSentences.Filter(s)))];

    public static IReadOnlyList<Choice> Policies => [.. Enum.GetValues<ClosedDayPolicy>().Select(p => new Choice(p.ToString(), PolicyWord(p)))];

    public static string BasisWord(IntervalBasis basis) => basis switch
    {
        IntervalBasis.CalendarAnchored => Texts.Setup_BasisCalendar,
        IntervalBasis.FromLastDone => Texts.Setup_BasisLastDone,
        IntervalBasis.Condition => Texts.Setup_BasisCondition,
        IntervalBasis.RunningHours => Texts.Setup_BasisRunningHours,
        IntervalBasis.AfterFill => Texts.Setup_BasisAfterFill,
        IntervalBasis.AfterFlag => Texts.Setup_BasisAfterFlag,
        IntervalBasis.Risk => Texts.Setup_BasisRisk,
        _ => throw new ArgumentOutOfRangeException(nameof(basis), basis, "There is no text for this basis."),
    };

    public static string PolicyWord(ClosedDayPolicy policy) => policy switch
    {
        ClosedDayPolicy.Earlier => Texts.Setup_ClosedEarlier,
        ClosedDayPolicy.Later => Texts.Setup_ClosedLater,
        ClosedDayPolicy.AsIs => Texts.Setup_ClosedAsIs,
        _ => throw new ArgumentOutOfRangeException(nameof(policy), policy, "There is no text for this policy."),
    };
}
