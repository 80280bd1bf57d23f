using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Pages.Machines;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>What sheets can be made of.</summary>
public sealed record SheetChoice(DateOnly Today, IReadOnlyList<SheetSubject> Sumps, IReadOnlyList<SheetSubject> Machines)
{
    /// <summary>The sumps in use, for labels.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    public static SheetChoice Of(ShopSetup setup, DateOnly today)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return new(
            today,
            [.. setup.Sumps.Select(s => new SheetSubject(SumpAddress.Sheet(s.Tag), NameOf(setup, s)))],
            [.. setup.Machines.Where(m => setup.Sumps.Any(s => s.Machines.Any(served => served.MachineId == m.Id)))
                .Select(m => new SheetSubject(MachineAddress.Sheet(m.Tag), $"{m.Tag} {m.Name}"))])
        {
            Tags = [.. setup.Sumps.Where(s => !s.IsRetired).Select(s => s.Tag)],
        };
    }

    private static string NameOf(ShopSetup setup, Sump sump)
    {
        var machines = setup.MachinesOf(sump);
        return machines.Count == 1 ? $"{sump.Tag}, {machines[0].Tag} {machines[0].Name}" : $"{sump.Tag}, {string.Join(", ", machines.Select(m => m.Tag))}";
    }
}

/// <param name="Address">Of the sheet, without its period and paper.</param>
public sealed record SheetSubject(string Address, string Name);
