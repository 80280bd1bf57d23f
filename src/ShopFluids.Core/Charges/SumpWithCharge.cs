using ShopFluids.Core.Database;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;

namespace ShopFluids.Core.Charges;

/// <summary>A sump in use with what is in it.</summary>
internal sealed record SumpWithCharge(Sump Sump, Charge Charge)
{
    /// <summary>What a tag names, or why nothing can be done there: not known, retired, empty.</summary>
    public static Result<SumpWithCharge> Find(ShopSetup setup, string tag)
    {
        if (setup.FindSump(tag) is not { } sump)
        {
            return new SumpNotFound(tag);
        }

        if (sump.IsRetired)
        {
            return new SumpRetired(sump.Tag);
        }

        return setup.OpenCharge(sump.Id) is { } charge ? new SumpWithCharge(sump, charge) : new NoOpenCharge(sump.Tag);
    }
}
