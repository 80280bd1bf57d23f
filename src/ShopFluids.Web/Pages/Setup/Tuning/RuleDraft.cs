using ShopFluids.Core.Tuning;
using ShopFluids.Core.Wording;
using ShopFluids.Rules.Registry;
using ShopFluids.Web.Account;
using ShopFluids.Web.Pages.Setup.Fields;
using ShopFluids.Web.Pages.Setup.Forms;

namespace ShopFluids.Web.Pages.Setup.Tuning;

/// <summary>A rule's setting as it is being typed; an empty box leaves the number to the place above.</summary>
public sealed class RuleDraft
{
    private const string On = "on";
    private const string Off = "off";

    /// <param name="own">What is set at this place so far.</param>
    /// <param name="fromAbove">What holds where nothing is set here.</param>
    public RuleDraft(Guid id, RuleSetting? own, RuleInForce fromAbove, Sentences say)
    {
        ArgumentNullException.ThrowIfNull(fromAbove);
        ArgumentNullException.ThrowIfNull(say);
        Id = id;
        Rule = fromAbove.Rule;
        SeenNumber = own?.Number ?? 0;
        Switch = own?.IsOn is { } isOn ? (isOn ? On : Off) : "";
        Switches =
        [
            new("", say.Format.Say(fromAbove.IsOn ? Texts.Setup_RuleOnAsAbove : Texts.Setup_RuleOffAsAbove, RuleSentences.Level(fromAbove.OnFrom))),
            new(On, Texts.Setup_RuleOn),
            new(Off, Texts.Setup_RuleOff),
        ];
        Rows = [.. fromAbove.Numbers.Select(n => new RuleNumberRow(Rule.Code, n, own?.Numbers.TryGetValue(n.Number.Name, out var set) == true ? set : null, say))];
    }

    public Guid Id { get; }

    public IRule Rule { get; }

    public int SeenNumber { get; }

    public string Switch { get; set; }

    public IReadOnlyList<Choice> Switches { get; }

    public IReadOnlyList<RuleNumberRow> Rows { get; }

    public string Reason { get; set; } = "";

    public SetRule Read(FormReader read, Guid? fluidId, Guid? sumpId)
    {
        ArgumentNullException.ThrowIfNull(read);
        var numbers = new Dictionary<string, decimal>(StringComparer.Ordinal);
        foreach (var row in Rows)
        {
            if (read.OptionalNumber(row.Field, row.Box) is { } value)
            {
                numbers[row.Name] = value;
            }
        }

        return new SetRule(Id, Rule.Code, fluidId, sumpId, Switch switch { On => true, Off => false, _ => null }, numbers, read.Text("reason", Reason), SeenNumber);
    }
}

/// <summary>The box of one number.</summary>
public sealed class RuleNumberRow
{
    public RuleNumberRow(string rule, NumberInForce fromAbove, decimal? own, Sentences say)
    {
        ArgumentNullException.ThrowIfNull(fromAbove);
        ArgumentNullException.ThrowIfNull(say);
        var number = fromAbove.Number;
        Name = number.Name;
        Field = SetRuleHandler.NumberField(rule, number.Name);
        Label = RuleSentences.Number(rule, number.Name);
        var unit = RuleSentences.Unit(rule, number.Name);
        Box = new NumberBox(QuantityInput.OfUnit(unit));
        Box.Show(own, say.Format);
        PlainUnit = Box.Kind == QuantityKind.Number ? unit : null;
        Hint = say.Format.Say(
            Texts.Setup_RuleNumberHint,
            say.RuleValue(rule, number.Name, fromAbove.Value),
            RuleSentences.Level(fromAbove.From),
            say.RuleRange(rule, number));
    }

    public string Name { get; }

    public string Field { get; }

    public string Label { get; }

    /// <summary>What holds while the box is empty, and what is accepted.</summary>
    public string Hint { get; }

    public string? PlainUnit { get; }

    public NumberBox Box { get; }
}
