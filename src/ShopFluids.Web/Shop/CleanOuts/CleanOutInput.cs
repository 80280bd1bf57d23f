using ShopFluids.Core.CleanOuts;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.CleanOuts;

/// <summary>What a control of a step takes.</summary>
public enum CleanOutInputKind
{
    Number,
    Text,
    WasteCode,
    Lot,
    Tick,
}

/// <summary>One control of a step.</summary>
/// <param name="Unit">Beside the box where it is no quantity of the person's units.</param>
public sealed record CleanOutInput(string Name, CleanOutInputKind Kind, QuantityKind Quantity = QuantityKind.Number, string Unit = "")
{
    /// <summary>How many kinds of waste a step has room for.</summary>
    public const int WasteRows = 2;

    /// <summary>From how many lots a refill may come.</summary>
    public const int LotRows = 2;

    /// <summary>The controls of a step, in their order.</summary>
    public static IReadOnlyList<CleanOutInput> Of(CleanOutStepKind kind, bool isSupervisor) => kind switch
    {
        CleanOutStepKind.Plan =>
        [
            Litres(CleanOutFields.Content), Litres(CleanOutFields.Heel), Number(CleanOutFields.CleanerPercent, "%"),
            Number(CleanOutFields.CirculationHours, "h"), Number(CleanOutFields.Rinses, ""), Litres(CleanOutFields.RinseLitres),
        ],
        CleanOutStepKind.Cleaner => [Litres(CleanOutFields.CleanerLitres), Number(CleanOutFields.Hours, "h"), Text(CleanOutFields.ShortReason), Text(CleanOutFields.Note)],
        CleanOutStepKind.Carrier => [.. Ticks(kind), Text(CleanOutFields.Carrier), Number(CleanOutFields.Halogens, "mg/kg")],
        CleanOutStepKind.Drain => [.. Waste(), new(CleanOutFields.SludgeMm, CleanOutInputKind.Number, QuantityKind.Length), Text(CleanOutFields.Note)],
        CleanOutStepKind.Wipe or CleanOutStepKind.Rinse => [.. Waste(), Text(CleanOutFields.Note)],
        CleanOutStepKind.Inspect => [Text(CleanOutFields.Seen)],
        CleanOutStepKind.Refill => [.. Lots(), Litres(CleanOutFields.Water), .. isSupervisor ? [Text(CleanOutFields.Override)] : Array.Empty<CleanOutInput>(), Text(CleanOutFields.Note)],
        _ => [.. Ticks(kind), Text(CleanOutFields.Note)],
    };

    private static CleanOutInput Litres(string name) => new(name, CleanOutInputKind.Number, QuantityKind.Volume);

    private static CleanOutInput Number(string name, string unit) => new(name, CleanOutInputKind.Number, QuantityKind.Number, unit);

    private static CleanOutInput Text(string name) => new(name, CleanOutInputKind.Text);

    private static IEnumerable<CleanOutInput> Ticks(CleanOutStepKind kind) => CleanOutConfirmations.Of(kind).Select(c => new CleanOutInput(c, CleanOutInputKind.Tick));

    private static IEnumerable<CleanOutInput> Waste() => Enumerable.Range(0, WasteRows)
        .SelectMany(row => new[] { Litres(CleanOutFields.WasteLitres(row)), new CleanOutInput(CleanOutFields.WasteCode(row), CleanOutInputKind.WasteCode) });

    private static IEnumerable<CleanOutInput> Lots() => Enumerable.Range(0, LotRows)
        .SelectMany(row => new[] { Litres(CleanOutFields.Concentrate(row)), new CleanOutInput(CleanOutFields.Lot(row), CleanOutInputKind.Lot) });
}
