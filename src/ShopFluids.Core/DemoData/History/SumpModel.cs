using ShopFluids.Calculations.Volumes;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;

namespace ShopFluids.Core.DemoData.History;

/// <summary>What is really in a sump, which nobody knows: readings of it scatter. A mass balance by day.</summary>
internal sealed class SumpModel(SumpSeed seed, FluidSeed fluid, WaterSeed water, DemoChance chance)
{
    /// <summary>What an oil film adds to the scale of a refractometer, Brix for each % of the surface. Invented.</summary>
    private const double BrixPerOil = 0.004;

    public static SumpModel Of(DemoSeed seed, SumpSeed sump) => new(
        sump,
        seed.Fluids.Single(f => f.Data.Name == sump.Fluid),
        seed.Waters.Single(w => w.Name == sump.Water),
        new DemoChance(seed.Chance, sump.Tag));

    public SumpSeed Seed { get; } = seed;

    public FluidSeed Fluid { get; } = fluid;

    public WaterSeed Water { get; } = water;

    public DemoChance Chance { get; } = chance;

    public SumpGeometry Geometry { get; } = new Sumps.Sump(Guid.Empty, Guid.Empty, seed.Tag, seed.Shape.ToShape(), seed.FullMarkMm, seed.PumpIntakeMm, 0, null).Geometry;

    public double FullLitres => Geometry.VolumeLitresAt((double)Seed.FullMarkMm);

    public double Litres { get; private set; }

    public double Percent { get; private set; }

    public double Ph { get; private set; }

    public double OilPercent { get; private set; }

    public int Odour { get; private set; }

    /// <summary>What a refractometer shows at 20 °C.</summary>
    public double Brix => (Percent / (double)Fluid.Data.RefractometerFactor) + (double)Water.ZeroBrix + (OilPercent * BrixPerOil);

    public double LevelMm => Geometry.LevelMmAt(Litres);

    /// <summary>log10 of CFU/mL: grows as pH falls. Invented.</summary>
    public double Bacteria => 2.3 + (3.5 * Math.Max(0, Fluid.FreshPh - Ph));

    /// <summary>The same where the story tells it; a slide then shows just that.</summary>
    public double? ToldBacteria { get; private set; }

    /// <summary>One day passes.</summary>
    public void Live(bool isOpen, Func<ConditionKind, double, double> condition)
    {
        var stands = condition(ConditionKind.Standing, 0) > 0;
        var work = stands || !isOpen ? 0 : Chance.Between(0.75, 1.25);
        var air = Seed.Habits.EvaporationLitres * condition(ConditionKind.Evaporation, 1) * (work > 0 ? work : 0.3);
        var carried = Seed.Habits.CarryOffLitres * condition(ConditionKind.CarryOff, 1) * work;

        // A pump that draws air stops the machine, and with it the loss.
        var spare = Math.Max(0, Litres - Geometry.VolumeLitresAt((double)Seed.PumpIntakeMm));
        var share = Math.Min(1, spare / Math.Max(air + carried, 0.001));
        var product = Percent * (Litres - (carried * share));
        Litres -= (air + carried) * share;
        Percent = product / Litres;

        Ph -= Seed.Habits.PhFall * condition(ConditionKind.PhFall, 1) * Chance.Between(0.6, 1.4);
        OilPercent = Math.Min(100, OilPercent + (Seed.Habits.OilPercent * condition(ConditionKind.Oil, 1) * (stands ? 1 : work)));
        ToldBacteria = condition(ConditionKind.Bacteria, 0) is > 0 and var told ? told : null;
        Odour = (int)condition(ConditionKind.Odour, Fluid.FreshPh - Ph > 0.42 ? 1 : 0);
    }

    public void Fill(double waterLitres, double concentrateLitres)
    {
        Litres = waterLitres + concentrateLitres;
        Percent = 100 * concentrateLitres / Litres;
        Ph = Fluid.FreshPh + Chance.Scatter(0.03);
        OilPercent = 0;
        Odour = 0;
    }

    /// <summary>Fluid out, then premix in; the fresh part brings its pH along, plain water hardly any.</summary>
    public void Add(double removedLitres, double waterLitres, double concentrateLitres)
    {
        var left = Litres - removedLitres;
        var added = waterLitres + concentrateLitres;
        var litres = Math.Min(left + added, Geometry.BrimLitres);
        Percent = ((Percent * left) + (100 * concentrateLitres)) / (left + added);
        var fresh = concentrateLitres > 0 ? Fluid.FreshPh : Ph - 0.1;
        Ph += (fresh - Ph) * added / (left + added);
        Litres = litres;
    }

    /// <summary>Water runs in unseen; what is too much runs over.</summary>
    public void Flood(double waterLitres)
    {
        Add(0, waterLitres, 0);
        Litres = Math.Min(Litres, 0.97 * Geometry.BrimLitres);
    }

    public void Skim() => OilPercent = Math.Min(OilPercent, Chance.Between(0.5, 2));
}
