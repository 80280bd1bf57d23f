using ShopFluids.Core.Setup;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Setup.Charges;

/// <summary>What stands in the way of a fill, and where to put it right.</summary>
public sealed record FillObstacle(string Text, string Way, string Address);

/// <summary>What a fill can be made from.</summary>
public sealed record FillView(DeskWords Words, IReadOnlyList<LotRow> Lots)
{
    public static IReadOnlyList<Choice> Ways => [new(FillDraft.ByMix, Texts.Setup_WayMix), new(FillDraft.ByAmounts, Texts.Setup_WayAmounts)];

    public decimal MeasurableLitres => Words.Setup.Site?.MeasurableLitres ?? 0.1m;

    /// <summary>What the shop can measure out without passing a mark: the box, its hint and the sum all say this number.</summary>
    public decimal Measurable(double litres) => decimal.Floor((decimal)litres / MeasurableLitres) * MeasurableLitres;

    public IReadOnlyList<Choice> EmptySumps { get; } =
        [.. Sumps.SumpChoices.Sumps(Words.Setup).Where(c => Words.Setup.FindSump(c.Value) is { } sump && Words.Setup.OpenCharge(sump.Id) is null)];

    public IReadOnlyList<Choice> Fluids { get; } = [.. Words.Setup.Fluids.Select(f => new Choice(f.Id.ToString(), f.Name))];

    public FillObstacle? Missing =>
        Words.Setup.Sumps.Count == 0 ? new(Texts.Setup_NoSumpTitle, Texts.Setup_SumpsDo, "setup/sumps/new")
        : Fluids.Count == 0 ? new(Texts.Setup_NoFluidTitle, Texts.Setup_FluidAdd, "setup/fluids/new")
        : EmptySumps.Count == 0 ? new(Texts.Setup_AllFilled, Texts.Setup_DrainDo, "setup/charges/drain")
        : null;

    /// <summary>First expired first; those that need a supervisor's leave stand last and say why.</summary>
    public IReadOnlyList<Choice> LotsOf(string fluidId) =>
        [.. Of(fluidId).OrderBy(l => l.IsUsable ? 0 : 1).Select(l => new Choice(l.Id.ToString(), Describe(l)))];

    public LotRow? Lot(string lotId) => Lots.FirstOrDefault(l => l.Id.ToString() == lotId);

    /// <summary>The lot to take: the first to expire of those that may be used.</summary>
    public LotRow? Proposed(string fluidId) => Of(fluidId).FirstOrDefault(l => l.IsUsable);

    private IEnumerable<LotRow> Of(string fluidId) => Lots.Where(l => l.FluidId.ToString() == fluidId && l.RemainingLitres > 0);

    private string Describe(LotRow lot) => Words.Format.Say(
        lot.IsQuarantined ? Texts.Setup_LotLineQuarantined : lot.IsExpired ? Texts.Setup_LotLineExpired : Texts.Setup_LotLine,
        lot.Number,
        Words.Format.Volume((double)lot.RemainingLitres),
        Words.Format.LongDay(lot.ExpiresOn));
}
