using System.Globalization;
using ShopFluids.Core.Database;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.History;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>The lots of a generated shop: received when little is left, as much as the sumps use in a quarter.</summary>
internal sealed class GeneratedStores(DemoScene scene, BulkWrite write, IReadOnlyList<SumpModel> sumps)
{
    private const int WeeksInStore = 6;
    private const int WeeksReceived = 15;
    private const int OpenDays = 5;
    private const decimal Barrel = 205;

    private readonly DemoChance _ids = new(scene.Seed.Chance, "stores");
    private readonly Dictionary<string, List<FluidLot>> _lots = scene.Seed.Fluids.ToDictionary(f => f.Data.Name, _ => new List<FluidLot>(), StringComparer.Ordinal);
    private int _received;

    /// <summary>Receives what is needed. A command of the shop does it, so what is pending is committed first.</summary>
    public async Task ReceiveAsync(DateOnly day, CancellationToken cancellationToken)
    {
        foreach (var fluid in scene.Seed.Fluids)
        {
            var (weekly, fill, first) = NeedOf(fluid);
            var most = Usable(fluid.Data.Name, day).Select(l => l.RemainingLitres).DefaultIfEmpty(0).Max();
            if (first == 0 || most >= Math.Max(weekly * WeeksInStore, fill))
            {
                continue;
            }

            await write.CommitAsync(isLast: false, cancellationToken);
            var id = await ReceiveAsync(fluid, day, Math.Max(weekly * WeeksReceived, 2 * fill) + (_lots[fluid.Data.Name].Count == 0 ? first : 0), cancellationToken);
            await write.BeginAsync(cancellationToken);
            _lots[fluid.Data.Name].Add(await write.FindAsync<FluidLot>(id, cancellationToken));
        }
    }

    /// <summary>Draws concentrate from the usable lot that expires first and holds enough; null for plain water.</summary>
    /// <exception cref="InvalidOperationException">No lot holds so much.</exception>
    public FluidLot? Draw(string fluid, decimal litres, DateOnly day)
    {
        if (litres == 0)
        {
            return null;
        }

        var lot = Usable(fluid, day).Where(l => l.RemainingLitres >= litres).MinBy(l => l.ExpiresOn)
            ?? throw new InvalidOperationException($"No generated lot holds {litres} L of {fluid} on {day:O}.");
        lot.Draw(litres);
        return lot;
    }

    private IEnumerable<FluidLot> Usable(string fluid, DateOnly day) => _lots[fluid].Where(l => l.ExpiresOn > day);

    private async Task<Guid> ReceiveAsync(FluidSeed fluid, DateOnly day, decimal wanted, CancellationToken cancellationToken)
    {
        var setup = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        var litres = Math.Min(AmountOfBarrels(wanted), Charges.AmountChecks.MaximumLitres);
        return (await scene.Commands.ReceiveLot.HandleAsync(
            new ReceiveLot(
                _ids.NewId(scene.Time.UtcNow),
                setup.Fluids.Single(f => f.Name == fluid.Data.Name).Id,
                string.Create(CultureInfo.InvariantCulture, $"G-{++_received:0000}"),
                day,
                day.AddDays(fluid.Data.ShelfLifeDays),
                litres,
                fluid.Lots[0].PricePerLitre),
            scene.Supervisor,
            cancellationToken)).Done().Id;
    }

    /// <returns>Concentrate of a usual week, of the largest fill twice, and of all fills, L.</returns>
    private (decimal Weekly, decimal Fill, decimal First) NeedOf(FluidSeed fluid)
    {
        var share = (double)fluid.Data.TargetPercent / 100;
        var filled = sumps.Where(s => s.Fluid.Data.Name == fluid.Data.Name).ToList();
        return (
            (decimal)filled.Sum(s => share * ((OpenDays * (s.Seed.Habits.CarryOffLitres + (0.3 * s.Seed.Habits.EvaporationLitres))) + (s.FullLitres / ShopSize.WeeksOfAYear))),
            (decimal)filled.Select(s => 2 * share * s.FullLitres).DefaultIfEmpty(0).Max(),
            (decimal)filled.Sum(s => share * s.FullLitres));
    }

    private static decimal AmountOfBarrels(decimal litres) => Barrel * decimal.Ceiling(litres / Barrel);
}
