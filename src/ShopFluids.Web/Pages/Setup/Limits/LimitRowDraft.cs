using ShopFluids.Core.Limits;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Facts;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Limits;

/// <summary>The limits of one parameter as they are being typed.</summary>
public sealed class LimitRowDraft
{
    public LimitRowDraft(Parameter parameter, ParameterLimits limits, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(parameter);
        ArgumentNullException.ThrowIfNull(limits);
        Parameter = parameter;
        Basis = limits.Basis;
        EdgeIsBeyond = limits.EdgeIsBeyond;
        var kind = QuantityInput.OfUnit(parameter.Unit);
        var step = kind == QuantityKind.Temperature ? QuantityKind.TemperatureStep : kind;
        Ladder = [.. Enumerable.Range(0, 6).Select(_ => new NumberBox(IsFall ? step : kind))];
        ClearMargin = new NumberBox(step);
        decimal?[] values = [limits.ActionLow, limits.WarningLow, limits.TargetLow, limits.TargetHigh, limits.WarningHigh, limits.ActionHigh];
        foreach (var (box, value) in Ladder.Zip(values))
        {
            box.Show(value, format);
        }

        ClearMargin.Show(limits.ClearMargin, format);
    }

    public Parameter Parameter { get; }

    public LimitBasis Basis { get; }

    /// <summary>Limits on the fall since the first fill instead of the value.</summary>
    public bool IsFall => Basis == LimitBasis.DropFromFirstFill;

    /// <summary>Action low, warning low, target from, target to, warning high, action high.</summary>
    public IReadOnlyList<NumberBox> Ladder { get; }

    public NumberBox ClearMargin { get; }

    public bool EdgeIsBeyond { get; set; }

    /// <summary>Left out of the next version.</summary>
    public bool IsGone { get; set; }

    public string Key => IsFall ? $"limits.{Parameter.Code}.fall" : $"limits.{Parameter.Code}";

    public static IReadOnlyList<string> LadderFields { get; } = ["actionLow", "warningLow", "targetLow", "targetHigh", "warningHigh", "actionHigh"];

    public static IReadOnlyList<string> LadderNames =>
        [Texts.Setup_ActionLow, Texts.Setup_WarningLow, Texts.Setup_TargetFrom, Texts.Setup_TargetTo, Texts.Setup_WarningHigh, Texts.Setup_ActionHigh];

    public string Name(Sentences sentences)
    {
        ArgumentNullException.ThrowIfNull(sentences);
        var name = sentences.Parameter(Parameter.Code);
        return IsFall ? sentences.Format.Say(Texts.Setup_FallOf, name) : name;
    }

    public ParameterLimits Read(FormReader read)
    {
        ArgumentNullException.ThrowIfNull(read);
        var values = Ladder.Select((box, i) => read.OptionalNumber($"{Key}.{LadderFields[i]}", box)).ToList();
        var given = values.OfType<decimal>().ToList();
        if (given.Zip(given.Skip(1)).Any(p => p.Second < p.First))
        {
            read.Refuse(Key, Core.Database.FieldProblem.NotAscending);
        }

        return new ParameterLimits(
            Parameter.Code, Basis, values[0], values[1], values[2], values[3], values[4], values[5], EdgeIsBeyond, read.Number($"{Key}.clearMargin", ClearMargin));
    }
}
