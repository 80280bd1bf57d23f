using ShopFluids.Core.Care;
using ShopFluids.Core.Care.Templates;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Machines;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;
using ShopFluids.Web.Pages.Setup.Sumps;

namespace ShopFluids.Web.Pages.Setup.Care;

/// <summary>What a template offers to one sump.</summary>
/// <param name="Sump">Null when the shop has none.</param>
public sealed record TemplateView(DeskWords Words, Sump? Sump, DateOnly Today)
{
    public string Tag => Sump?.Tag ?? "";

    /// <summary>That of the fluid in it; the commonest where it stands empty.</summary>
    public FluidKind FluidKind => Sump is not null && Words.Setup.OpenCharge(Sump.Id) is { } charge ? Words.Setup.Fluid(charge.FluidId).Kind : FluidKind.SolubleOil;

    public MachineUse Use => Sump is null ? MachineUse.Machining : CareTemplates.UseOf(Words.Setup.MachinesOf(Sump));

    /// <summary>How the fluid reaches the cut, as the set-up says of its machines.</summary>
    public Delivery Delivery => Sump is null ? Delivery.None : ApplyCareTemplateHandler.DeliveryOf(Words.Setup, Sump);

    public IReadOnlyList<Choice> Sumps => SumpChoices.Sumps(Words.Setup);

    public static IReadOnlyList<Choice> Uses => [.. Enum.GetValues<MachineUse>().Select(u => new Choice(u.ToString(), TemplateSentences.Use(u)))];

    /// <summary>The steps, each with whether the plan has it already.</summary>
    public IReadOnlyList<OfferedStep> Offered(FluidKind fluid, MachineUse use)
    {
        IReadOnlyList<CareStep> plan = Sump is null ? [] : Words.Setup.StepsOf(Sump.Id);
        return [.. CareTemplates.For(fluid, use, Delivery).Select(s => OfferedStep.Of(s, Words, Tag, Today, s.IsIn(plan)))];
    }
}

/// <summary>A step as the preview shows it: the same words as the plan's page has for it once it is there.</summary>
/// <param name="IsThere">The plan has it already.</param>
public sealed record OfferedStep(TemplateStep Step, string Name, string Interval, string First, string Closed, string Measures, StepNeeds Needs, bool IsThere)
{
    internal static OfferedStep Of(TemplateStep step, DeskWords words, string tag, DateOnly today, bool isThere)
    {
        var typed = ApplyCareTemplateHandler.StepOf(step, Guid.Empty, tag, today);
        var made = ApplyCareTemplateHandler.Preview(typed);
        return new(
            step,
            WorkSentences.Name(made),
            StepWords.Interval(made, words, 0),
            made.ToFacts(0).Recurs ? words.Format.LongDay(made.Anchor) : "",
            CareDraft.PolicyWord(made.ClosedDays),
            string.Join(", ", made.Parameters.Select(words.Sentences.Parameter)),
            typed.Needs,
            isThere);
    }
}
