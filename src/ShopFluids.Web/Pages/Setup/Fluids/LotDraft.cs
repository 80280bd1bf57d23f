using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Setup.Fluids;

/// <summary>A receipt as it is being typed.</summary>
public sealed class LotDraft(Guid id)
{
    public Guid Id { get; } = id;

    public string FluidId { get; set; } = "";

    public string Number { get; set; } = "";

    public NumberBox Litres { get; } = new(QuantityKind.Volume);

    public string ReceivedOn { get; set; } = "";

    public string ExpiresOn { get; set; } = "";

    public NumberBox Price { get; } = new(QuantityKind.PerVolume);

    /// <summary>Proposes the last day by the fluid's shelf life; the person may know better from the drum.</summary>
    public void ProposeExpiry(int shelfLifeDays)
    {
        if (DayInput.TryRead(ReceivedOn, out var received))
        {
            ExpiresOn = DayInput.Write(received.AddDays(shelfLifeDays));
        }
    }
}
