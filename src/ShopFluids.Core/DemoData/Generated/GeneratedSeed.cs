using System.Globalization;
using ShopFluids.Core.DemoData.Commands;
using ShopFluids.Core.DemoData.Seed;

namespace ShopFluids.Core.DemoData.Generated;

/// <summary>What demo-seed says, with as many sumps as are wanted: each is like one of the demo's, with habits of its own.</summary>
internal static class GeneratedSeed
{
    private const string Plan = "generated";
    private const int SumpsOfAnArea = 50;
    private const int DaysOfAWeek = 7;

    public static DemoSeed Of(DemoSeed demo, ShopSize size)
    {
        var chance = new DemoChance(size.Seed, "generated sumps");
        var areas = Enumerable.Range(0, ((size.Sumps - 1) / SumpsOfAnArea) + 1)
            .Select(n => new AreaSeed(Named("Bay {0:00}", n + 1), demo.Areas[n % demo.Areas.Count].Operators))
            .ToList();
        return demo with
        {
            Chance = size.Seed,
            Weeks = size.Weeks,
            Areas = areas,
            Sumps = [.. Enumerable.Range(0, size.Sumps).Select(n => Sump(demo, n, areas[n / SumpsOfAnArea].Name, size.Weeks, chance))],
            Story = new([], [], []),
        };
    }

    private static SumpSeed Sump(DemoSeed demo, int number, string area, int weeks, DemoChance chance)
    {
        var like = demo.Sumps[(int)chance.Between(0, demo.Sumps.Count)];
        var name = Named("{0:0000}", number + 1);

        // Refills spread over the year, the first of them in the first one.
        return like with
        {
            Tag = $"S-{name}",
            Area = area,
            Plan = Plan,
            TestedBeforeToday = 1 + (number % (DaysOfAWeek - 2)),
            FirstDrainDay = (-DaysOfAWeek * weeks) + (int)chance.Between(60, DaysOfAWeek * ShopSize.WeeksOfAYear),
            Machines = [.. like.Machines.Select((m, i) => m with { Tag = i == 0 ? $"M-{name}" : Named("M-{0}-{1}", name, i + 1) })],
            Habits = new(
                like.Habits.EvaporationLitres * chance.Between(0.7, 1.4),
                like.Habits.CarryOffLitres * chance.Between(0.7, 1.4),
                like.Habits.PhFall * chance.Between(0.7, 1.4),
                like.Habits.OilPercent * chance.Between(0.7, 1.4)),
        };
    }

    private static string Named(string pattern, params object[] values) => string.Format(CultureInfo.InvariantCulture, pattern, values);
}
