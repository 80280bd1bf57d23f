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
    public Guid Id { get; } = id;

    public string Kind { get; set; } = nameof(TaskKind.Test);

    public bool IsTest => Kind == nameof(TaskKind.Test);

    public string Basis { get; set; } = nameof(IntervalBasis.CalendarAnchored);

    public NumberBox Interval { get; } = new();

    public string Anchor { get; set; } = "";

    public string ClosedDays { get; set; } = nameof(ClosedDayPolicy.Earlier);

    public IReadOnlySet<string> Parameters { get; set; } = new HashSet<string>(UsualSteps.TestParameters, StringComparer.Ordinal);

    public NumberBox Minutes { get; } = new();

    public static IReadOnlyList<Choice> Kinds => [.. Enum.GetValues<TaskKind>().Where(AddCareStepHandler.IsOfACalendar).Select(k => new Choice(k.ToString(), Sentences.Task(k)))];

    public static IReadOnlyList<Choice> Bases => [.. Enum.GetValues<IntervalBasis>().Select(b => new Choice(b.ToString(), BasisWord(b)))];

    public static IReadOnlyList<Choice> Policies => [.. Enum.GetValues<ClosedDayPolicy>().Select(p => new Choice(p.ToString(), PolicyWord(p)))];

    public static string BasisWord(IntervalBasis basis) => basis switch
    {
        IntervalBasis.CalendarAnchored => Texts.Setup_BasisCalendar,
        IntervalBasis.FromLastDone => Texts.Setup_BasisLastDone,
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
