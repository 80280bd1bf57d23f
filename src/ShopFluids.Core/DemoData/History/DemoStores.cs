using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Setup;

namespace ShopFluids.Core.DemoData.History;

/// <summary>The fluid lots: received on their day, used up oldest first.</summary>
internal sealed class DemoStores(DemoScene scene)
{
    private readonly DemoChance _ids = new(scene.Seed.Chance, "stores");
    private readonly List<Lot> _lots = [];

    public async Task ReceiveAsync(DateOnly day, CancellationToken cancellationToken)
    {
        var setup = await scene.Commands.Setups.CurrentAsync(cancellationToken);
        foreach (var fluid in scene.Seed.Fluids)
        {
            foreach (var lot in fluid.Lots.Where(l => scene.Day(l.Day) <= day && _lots.TrueForAll(k => k.Number != l.Number)).ToList())
            {
                var received = scene.Day(lot.Day);
                var expires = received.AddDays(lot.ShelfLifeDays ?? fluid.Data.ShelfLifeDays);
                var id = (await scene.Commands.ReceiveLot.HandleAsync(
                    new ReceiveLot(_ids.NewId(scene.Time.UtcNow), setup.Fluids.Single(f => f.Name == fluid.Data.Name).Id, lot.Number, received, expires, lot.Litres, lot.PricePerLitre),
                    scene.Supervisor,
                    cancellationToken)).Done().Id;
                _lots.Add(new(id, fluid.Data.Name, lot.Number, expires, lot.Litres));
            }
        }
    }

    /// <summary>Takes concentrate from the usable lot that expires first and holds enough; null for plain water.</summary>
    /// <exception cref="InvalidOperationException">The lots of fluids.json are too small for this history.</exception>
    public Guid? Draw(string fluid, decimal litres, DateOnly day)
    {
        if (litres == 0)
        {
            return null;
        }

        var lot = _lots.Where(l => l.Fluid == fluid && !l.IsQuarantined && l.ExpiresOn > day && l.Litres >= litres).OrderBy(l => l.ExpiresOn).FirstOrDefault()
            ?? throw new InvalidOperationException($"The demo data holds no lot with {litres} L of {fluid} for {day:O}, {scene.FromToday(day)} days from today.");
        lot.Litres -= litres;
        return lot.Id;
    }

    public async Task QuarantineAsync(StoryEvent story, CancellationToken cancellationToken)
    {
        var lot = _lots.Single(l => l.Number == story.Sump);
        lot.IsQuarantined = true;
        (await scene.Commands.QuarantineLot.HandleAsync(new QuarantineLot(lot.Id, story.Text), scene.Supervisor, cancellationToken)).Done();
    }

    private sealed class Lot(Guid id, string fluid, string number, DateOnly expiresOn, decimal litres)
    {
        public Guid Id { get; } = id;

        public string Fluid { get; } = fluid;

        public string Number { get; } = number;

        public DateOnly ExpiresOn { get; } = expiresOn;

        public decimal Litres { get; set; } = litres;

        public bool IsQuarantined { get; set; }
    }
}
