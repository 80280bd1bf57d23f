using ShopFluids.Core.Fluids;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Registry;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Tuning;

/// <summary>The rules as they are set for the whole shop, one fluid or one sump.</summary>
/// <param name="Edited">The rule whose form is open; null for none.</param>
/// <param name="Changes">What was changed at this place, the newest first.</param>
public sealed record RulesView(DeskWords Words, Fluid? Fluid, Sump? Sump, IRule? Edited, IReadOnlyList<RuleChange> Changes)
{
    private const string FluidPrefix = "fluid=";
    private const string SumpPrefix = "sump=";

    /// <summary>Names the place in the address and in the list; empty for the whole shop.</summary>
    public string Key => Fluid is { } fluid ? FluidPrefix + fluid.Id : Sump is { } sump ? SumpPrefix + Uri.EscapeDataString(sump.Tag) : "";

    public RuleLevel Level => Sump is not null ? RuleLevel.Sump : Fluid is not null ? RuleLevel.Fluid : RuleLevel.Shop;

    public IReadOnlyList<Choice> Places =>
    [
        new("", Texts.Setup_RulesOfShop),
        .. Words.Setup.Fluids.Select(f => new Choice(FluidPrefix + f.Id, Words.Format.Say(Texts.Setup_LimitsOfFluid, f.Name))),
        .. Words.Setup.Sumps.Where(s => !s.IsRetired).Select(s => new Choice(SumpPrefix + Uri.EscapeDataString(s.Tag), Words.Format.Say(Texts.Setup_LimitsOfSump, s.Tag))),
    ];

    public IReadOnlyList<RuleInForce> Rules => [.. RuleRegistry.All.Select(r => Tunings.Of(r))];

    private TuningsInForce Tunings => Words.Setup.TuningsFor(Sump?.Id, Fluid?.Id ?? (Sump is { } sump ? Words.Setup.OpenCharge(sump.Id)?.FluidId : null));

    public static (Fluid? Fluid, Sump? Sump) PlaceOf(ShopSetup setup, string? fluidId, string? sumpTag)
    {
        ArgumentNullException.ThrowIfNull(setup);
        var sump = sumpTag is null ? null : setup.FindSump(sumpTag);
        return (sump is null ? setup.Fluids.FirstOrDefault(f => f.Id.ToString() == fluidId) : null, sump);
    }

    /// <summary>What is set at this very place; null when nothing was.</summary>
    public RuleSetting? OwnOf(string rule) =>
        Words.Setup.RuleSettings.Where(s => s.Rule == rule && s.FluidId == Fluid?.Id && s.SumpId == Sump?.Id).MaxBy(s => s.Number);

    /// <summary>What would hold if nothing were set here.</summary>
    public RuleInForce FromAbove(IRule rule) => Tunings.Of(rule, Level - 1);

    /// <summary>The page's own address with a rule's form open.</summary>
    public string FormAddress(string rule) => Key.Length == 0 ? $"setup/rules?rule={rule}" : $"setup/rules?{Key}&rule={rule}";
}
