using ShopFluids.Core.Board;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.Overview;

/// <summary>The whole shop on one page: where every sump stands, what is used month by month, and where it goes.</summary>
/// <param name="Setup">The snapshot that names are taken from.</param>
/// <param name="Areas">In walking order; those without a sump are left out.</param>
/// <param name="Months">Every month of the last twelve, the oldest first.</param>
/// <param name="Use">Of the last <see cref="ShopOverviewQuery.UseDays"/> days, the thirstiest sump first.</param>
public sealed record ShopOverview(DateTime AtUtc, ShopSetup Setup, IReadOnlyList<OverviewArea> Areas, IReadOnlyList<MonthTotal> Months, IReadOnlyList<SumpUse> Use);

/// <summary>The sumps of an area: the worst first, of those that stand alike the one that was not read for longest.</summary>
public sealed record OverviewArea(Guid AreaId, string Name, IReadOnlyList<OverviewSump> Sumps);

/// <param name="LastReadAtUtc">Null when it was not read since the fill.</param>
public sealed record OverviewSump(string Tag, SumpStanding Standing, DateTime? LastReadAtUtc, ReadingAge Age);

/// <summary>How old the last reading of a sump is.</summary>
public enum ReadingAge
{
    /// <summary>Of this shop day.</summary>
    Today = 0,

    /// <summary>At most a week.</summary>
    Week = 1,

    /// <summary>At most four weeks.</summary>
    Month = 2,

    Older = 3,

    /// <summary>Nothing was read since the fill, or the sump stands empty.</summary>
    Never = 4,
}

/// <summary>What the whole shop used in a month.</summary>
/// <param name="Month">Its first day.</param>
/// <param name="FillLitres">Concentrate for fills, L.</param>
/// <param name="AddedLitres">Concentrate for additions, L.</param>
/// <param name="WaterLitres">Water, L.</param>
/// <param name="RemovedLitres">Fluid taken out, L.</param>
/// <param name="Cost">Of the concentrate, in the site's currency.</param>
/// <param name="UnpricedLitres">Concentrate from lots without a price: not in the cost, L.</param>
public sealed record MonthTotal(DateOnly Month, decimal FillLitres, decimal AddedLitres, decimal WaterLitres, decimal RemovedLitres, decimal Cost, decimal UnpricedLitres)
{
    public decimal ConcentrateLitres => FillLitres + AddedLitres;
}

/// <summary>What went into one sump and out of it, water and concentrate together.</summary>
/// <param name="FillLitres">Put in by fills, L.</param>
/// <param name="TopUpLitres">Put in by additions, L.</param>
/// <param name="DrainLitres">Drained at the end of a charge, L.</param>
/// <param name="RemovedLitres">Taken out besides, L.</param>
/// <param name="ConcentrateLitres">Concentrate in what was put in, L.</param>
/// <param name="Cost">Of the concentrate, in the site's currency.</param>
/// <param name="UnpricedLitres">Concentrate from lots without a price: not in the cost, L.</param>
public sealed record SumpUse(string Tag, decimal FillLitres, decimal TopUpLitres, decimal DrainLitres, decimal RemovedLitres, decimal ConcentrateLitres, decimal Cost, decimal UnpricedLitres)
{
    public decimal PutInLitres => FillLitres + TopUpLitres;
}
