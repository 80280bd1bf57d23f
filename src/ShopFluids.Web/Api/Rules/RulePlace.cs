using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Tuning;
using ShopFluids.Rules.Registry;

namespace ShopFluids.Web.Api.Rules;

/// <summary>For what a rule is asked for or set: the whole shop, a fluid or a sump.</summary>
internal sealed record RulePlace(Guid? FluidId, Guid? SumpId)
{
    public static (RulePlace? Place, Error? Error) Of(ShopSetup setup, string? sumpTag, string? fluidName)
    {
        if (sumpTag is { Length: > 0 })
        {
            // Both together are the command's to refuse.
            return setup.FindSump(sumpTag) is { } sump
                ? (new(fluidName is { Length: > 0 } ? FluidOf(setup, fluidName) : null, sump.Id), null)
                : (null, new SumpNotFound(sumpTag));
        }

        return fluidName is not { Length: > 0 } ? (new(null, null), null)
            : FluidOf(setup, fluidName) is { } fluid ? (new(fluid, null), null)
            : (null, new FluidNotFound());
    }

    public RuleAnswer Answer(ShopSetup setup, IRule rule)
    {
        var fluid = FluidId ?? (SumpId is { } sump ? setup.OpenCharge(sump)?.FluidId : null);
        var own = setup.RuleSettings.Where(s => s.Rule == rule.Code && s.FluidId == FluidId && s.SumpId == SumpId).Select(s => s.Number).DefaultIfEmpty(0).Max();
        return RuleAnswer.Of(setup.TuningsFor(SumpId, fluid).Of(rule), own);
    }

    private static Guid? FluidOf(ShopSetup setup, string name)
    {
        var key = name.Trim().ToUpperInvariant();
        return setup.Fluids.FirstOrDefault(f => f.NameKey == key)?.Id;
    }
}
