using ShopFluids.Core.Stores;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Stores;

/// <summary>The stores as they are shown.</summary>
public sealed class StoresView(StoresNow now, DeskWords words, bool maySupervise)
{
    public StoresNow Now => now;

    public DeskWords Words => words;

    public bool MaySupervise => maySupervise;

    public UseView Use { get; } = new(now.Months, words);

    private ShopFormat Format => words.Format;

    public string Lead(FluidStock stock)
    {
        var parts = new List<string> { Format.Say(Texts.Stores_Usable, Volume(stock.UsableLitres)) };
        if (stock.UsedPerDayLitres > 0)
        {
            parts.Add(Format.Say(Texts.Stores_UsedPerWeek, Volume(stock.UsedPerDayLitres * 7)));
        }

        if (stock.PlannedLitres > 0)
        {
            parts.Add(Format.Say(Texts.Stores_Planned, Volume(stock.PlannedLitres)));
        }

        if (stock.LastsUntil(now.Today) is { } until)
        {
            parts.Add(Format.Say(Texts.Stores_LastsUntil, Format.LongDay(until)));
        }

        if (stock.ReorderAtLitres > 0)
        {
            parts.Add(Format.Say(Texts.Stores_ReorderAt, Volume(stock.ReorderAtLitres)));
        }

        return string.Join(' ', parts);
    }

    public string Left(StoredLot lot) => Format.Say(Texts.Setup_OfVolume, Volume(lot.Lot.RemainingLitres), Volume(lot.Lot.ReceivedLitres));

    public string Opened(StoredLot lot) => lot.OpenedOn is { } day ? Format.LongDay(day) : Texts.Stores_NotOpened;

    public string UseUntil(StoredLot lot) => lot.UseUntil < lot.Lot.ExpiresOn
        ? Format.Say(Texts.Stores_UntilOnceOpened, Format.LongDay(lot.UseUntil))
        : Format.LongDay(lot.UseUntil);

    /// <summary>What to do with a lot: the first of a fluid that may be used is the one to draw from.</summary>
    public string State(FluidStock stock, StoredLot lot) =>
        lot.Lot.RemainingLitres == 0 ? Texts.Setup_LotUsedUp
        : lot.Lot.QuarantineReason is { } reason ? Format.Say(Texts.Setup_LotQuarantined, reason)
        : lot.Lot.IsExpired ? Texts.Setup_LotExpired
        : lot.IsOpenTooLong ? Texts.Stores_OpenTooLong
        : stock.Lots[0] == lot ? Texts.Stores_UseFirst
        : Texts.Setup_LotUsable;

    public string Price(StoredLot lot) => lot.Lot.PricePerLitre is { } price ? Format.Money(PerUnit(price), Currency) : Texts.Stores_NoPrice;

    public string PriceHead => Format.Say(Texts.Stores_PricePer, Format.VolumeUnit);

    public string Volume(decimal litres) => Format.Volume((double)litres);

    private string Currency => words.Setup.Site?.Currency ?? "";

    private decimal PerUnit(decimal perLitre) => Format.Units == UnitSystem.UsCustomary ? perLitre * (decimal)Calculations.Volumes.VolumeUnits.LitresFromUsGallons(1) : perLitre;
}
