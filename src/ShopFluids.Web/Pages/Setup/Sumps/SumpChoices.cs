using ShopFluids.Core.Setup;
using ShopFluids.Core.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Account;

namespace ShopFluids.Web.Pages.Setup.Sumps;

/// <summary>What can be chosen for a sump and its machines.</summary>
public static class SumpChoices
{
    public static IReadOnlyList<Choice> Shapes =>
        [new(nameof(GeometryKind.Rectangular), Texts.Setup_ShapeBox), new(nameof(GeometryKind.StrappingTable), Texts.Setup_ShapeTable)];

    public static IReadOnlyList<Choice> Delivery =>
    [
        new(nameof(Core.Machines.Delivery.Flood), Texts.Setup_DeliveryFlood),
        new(nameof(Core.Machines.Delivery.ThroughTool), Texts.Setup_DeliveryThroughTool),
        new(nameof(Core.Machines.Delivery.Mist), Texts.Setup_DeliveryMist),
        new(nameof(Core.Machines.Delivery.WashDown), Texts.Setup_DeliveryWashDown),
    ];

    public static IReadOnlyList<Choice> Areas(ShopSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return [.. setup.Areas.Select(a => new Choice(a.Id.ToString(), a.Name))];
    }

    public static IReadOnlyList<Choice> Waters(ShopSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return [.. setup.Waters.Select(w => new Choice(w.Id.ToString(), w.Name))];
    }

    /// <summary>Machines that a sump may serve: those that it serves, those of its area, and those without a sump in use.</summary>
    public static IReadOnlyList<Choice> Machines(ShopSetup setup, SumpDraft sump)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(sump);
        var served = setup.Sumps.Where(s => !s.IsRetired).SelectMany(s => s.Machines).Select(m => m.MachineId).ToHashSet();
        return
        [
            .. setup.Machines.Where(m => sump.Served.Contains(m.Id.ToString()) || m.AreaId.ToString() == sump.AreaId || !served.Contains(m.Id))
                .Select(m => new Choice(m.Id.ToString(), $"{m.Tag} {m.Name}")),
        ];
    }

    /// <summary>Sumps in use, by tag, with the machine they serve.</summary>
    public static IReadOnlyList<Choice> Sumps(ShopSetup setup)
    {
        ArgumentNullException.ThrowIfNull(setup);
        return [.. setup.Sumps.Where(s => !s.IsRetired).Select(s => new Choice(s.Tag, string.Join(", ", new[] { s.Tag }.Concat(setup.MachinesOf(s).Take(1).Select(m => $"{m.Tag} {m.Name}")))))];
    }
}
