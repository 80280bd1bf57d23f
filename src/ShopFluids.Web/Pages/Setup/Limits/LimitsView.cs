using ShopFluids.Core.Fluids;
using ShopFluids.Core.Limits;
using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Limits;

/// <summary>The limits of one fluid or one sump, with the versions that were.</summary>
public sealed record LimitsView(DeskWords Words, Fluid? Fluid, Sump? Sump)
{
    private const string FluidPrefix = "fluid=";
    private const string SumpPrefix = "sump=";

    /// <summary>Names the owner in the address and in the list; empty when there is none.</summary>
    public string Key => Fluid is { } fluid ? FluidPrefix + fluid.Id : Sump is { } sump ? SumpPrefix + Uri.EscapeDataString(sump.Tag) : "";

    public string OwnerName => Fluid?.Name ?? Sump?.Tag ?? "";

    /// <summary>Newest first.</summary>
    public IReadOnlyList<LimitSet> Versions { get; } = SetsOf(Words.Setup, Fluid?.Id, Sump?.Id);

    public LimitSet? Latest => Versions.Count == 0 ? null : Versions[0];

    public IReadOnlyList<Choice> Owners =>
    [
        .. Words.Setup.Fluids.Select(f => new Choice(FluidPrefix + f.Id, Words.Format.Say(Texts.Setup_LimitsOfFluid, f.Name))),
        .. Words.Setup.Sumps.Where(s => !s.IsRetired).Select(s => new Choice(SumpPrefix + Uri.EscapeDataString(s.Tag), Words.Format.Say(Texts.Setup_LimitsOfSump, s.Tag))),
    ];

    /// <summary>By the address, else the first fluid.</summary>
    public static LimitsView Of(DeskWords words, string? fluidId, string? sumpTag)
    {
        ArgumentNullException.ThrowIfNull(words);
        var sump = sumpTag is null ? null : words.Setup.FindSump(sumpTag);
        var fluid = sump is not null ? null : words.Setup.Fluids.FirstOrDefault(f => f.Id.ToString() == fluidId) ?? (words.Setup.Fluids.Count > 0 ? words.Setup.Fluids[0] : null);
        return new LimitsView(words, fluid, sump);
    }

    private static List<LimitSet> SetsOf(ShopSetup setup, Guid? fluidId, Guid? sumpId) =>
        [.. setup.LimitSets.Where(l => l.FluidId == fluidId && l.SumpId == sumpId).OrderByDescending(l => l.Number)];
}
