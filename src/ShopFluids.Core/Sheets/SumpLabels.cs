namespace ShopFluids.Core.Sheets;

/// <summary>Labels to stick on sumps. Every text is finished; printing formats nothing.</summary>
public sealed record SumpLabels(string Shop, DateTime PrintedAtUtc, string Language, IReadOnlyList<SumpLabel> Labels);

/// <summary>The label of one sump.</summary>
/// <param name="Code">The address of its entry page.</param>
/// <param name="Machine">The machine's tag and name, or how many it serves.</param>
/// <param name="Fluid">Null of an empty sump.</param>
/// <param name="Target">The concentration to keep, such as 7.0 to 9.0 %; null where there is no target.</param>
/// <param name="Scale">What the refractometer's scale shows then, such as 4.7 to 6.0; null where there is no target.</param>
/// <param name="FullMark">Level and volume of the full mark, pump stopped.</param>
/// <param name="LeastLevel">The level under which the pump must not start.</param>
/// <param name="Gauge">Limits on the refractometer's scale; null where there are none.</param>
public sealed record SumpLabel(
    string Tag, string Code, string Machine, string Area, string? Fluid, string? Target, string? Scale, string FullMark, string LeastLevel, LabelGauge? Gauge);

/// <summary>Limits on the scale of the refractometer, Brix, each with the text that stands under it.</summary>
public sealed record LabelGauge(decimal? ActionLow, decimal? WarningLow, decimal? TargetLow, decimal? TargetHigh, decimal? WarningHigh, decimal? ActionHigh, IReadOnlyList<LabelGaugeMark> Marks)
{
    public IEnumerable<decimal> Values => new[] { ActionLow, WarningLow, TargetLow, TargetHigh, WarningHigh, ActionHigh }.OfType<decimal>();
}

public sealed record LabelGaugeMark(decimal Brix, string Text);
