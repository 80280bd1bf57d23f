using ShopFluids.Core.Record;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Sheets;

/// <summary>What stands around the tables of a sheet that is not about one sump.</summary>
/// <param name="Tag">Printed large: a lot, a month, or what is listed.</param>
/// <param name="Sheet">What the sheet is, such as "Lot trace".</param>
/// <param name="Period">Its days or its day.</param>
public sealed record SheetFrame(string Tag, string Sheet, string Period, string Shop, SheetOrigin Origin)
{
    internal static SheetFrame Of(ShopSetup setup, string tag, string sheet, string period, DateTime nowUtc, string printedBy, RecordHead head) =>
        new(tag, sheet, period, setup.Site?.Name ?? "", SheetOrigin.Of(setup, nowUtc, printedBy, head));
}
