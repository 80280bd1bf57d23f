using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Board;
using ShopFluids.Web.Pages.Machines;

namespace ShopFluids.Web.Pages.Sheets;

/// <summary>What sheets can be made of.</summary>
/// <param name="Format">How numbers and months are written on the page.</param>
public sealed record SheetChoice(ShopFormat Format, DateOnly Today, IReadOnlyList<SheetSubject> Sumps, IReadOnlyList<SheetSubject> Machines)
{
    /// <summary>The sumps in use, for labels.</summary>
    public IReadOnlyList<string> Tags { get; init; } = [];

    /// <summary>The lots that can be traced.</summary>
    public IReadOnlyList<SheetLot> Lots { get; init; } = [];

    public static SheetChoice Of(ShopSetup setup, ShopFormat format, DateOnly today, IReadOnlyList<LotRow> lots)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return new(
            format,
            today,
            [.. setup.Sumps.Select(s => new SheetSubject(s.Tag, IsMachine: false, NameOf(setup, s)))],
            [.. setup.Machines.Where(m => setup.Sumps.Any(s => s.Machines.Any(served => served.MachineId == m.Id)))
                .Select(m => new SheetSubject(m.Tag, IsMachine: true, $"{m.Tag} {m.Name}"))])
        {
            Lots = [.. lots.OrderByDescending(l => l.ReceivedOn).ThenBy(l => l.Number, StringComparer.Ordinal).Select(l => new SheetLot(l.Id, $"{l.Number}, {setup.Fluid(l.FluidId).Name}"))],
            Tags = [.. setup.Sumps.Where(s => !s.IsRetired).Select(s => s.Tag)],
        };
    }

    private static string NameOf(ShopSetup setup, Sump sump)
    {
        var machines = setup.MachinesOf(sump);
        return machines.Count == 1 ? $"{sump.Tag}, {machines[0].Tag} {machines[0].Name}" : $"{sump.Tag}, {string.Join(", ", machines.Select(m => m.Tag))}";
    }
}

/// <summary>A sump or a machine with its sumps.</summary>
public sealed record SheetSubject(string Tag, bool IsMachine, string Name)
{
    /// <summary>Of its history sheet, without period and paper.</summary>
    public string Address => IsMachine ? MachineAddress.Sheet(Tag) : SumpAddress.Sheet(Tag);
}

public sealed record SheetLot(Guid Id, string Name);
