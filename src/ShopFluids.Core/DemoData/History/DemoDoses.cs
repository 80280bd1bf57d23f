using ShopFluids.Calculations.Additives;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;
using ShopFluids.Core.Doses;

namespace ShopFluids.Core.DemoData.History;

/// <summary>Additives as the story tells them. They come last on their day and draw from a chance of their own: the rest of the history stays as it is without them.</summary>
internal sealed class DemoDoses(DemoScene scene)
{
    private static readonly TimeSpan ToMeasureOut = TimeSpan.FromMinutes(6);
    private readonly DemoChance _chance = new(scene.Seed.Chance, "doses");

    public async Task GiveAsync(SumpModel sump, DoseSeed dose, CancellationToken cancellationToken)
    {
        scene.Time.Advance(ToMeasureOut);
        var litres = decimal.Floor((decimal)sump.Litres);
        var command = new NoteDose(_chance.NewId(scene.Time.UtcNow), dose.Sump, scene.Time.UtcNow, dose.Product, dose.Kind, decimal.Floor(dose.PerLitre * litres), dose.Unit, litres, dose.Reason)
        {
            Measure = dose.Unit == DoseUnit.Gram ? DoseMeasure.GramsPerLitre : DoseMeasure.MillilitresPerLitre,
            LabelMost = dose.LabelMost,
            LabelHours = dose.LabelHours,
            ReentryHours = dose.ReentryHours,
            IsSafetyConfirmed = DoseKinds.IsBiocidal(dose.Kind),
        };
        (await scene.Commands.Dose.HandleAsync(command, scene.Supervisor, isSupervisor: true, cancellationToken)).Done();
    }
}
