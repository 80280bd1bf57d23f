using System.Globalization;
using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Answers;
using ShopFluids.Core.Bench.Inputs;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Database;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Pages.Setup.Fields;

namespace ShopFluids.Web.Pages.Bench;

/// <summary>What stands in the fields of a calculator, and what comes of it. Every change is worked out at once; nothing is stored.</summary>
public sealed class CalculatorForm
{
    private static readonly char[] Separators = [' ', '\t', '\r', '\n', ';'];
    private readonly Dictionary<string, NumberBox> _boxes;
    private readonly Dictionary<string, string> _texts = new(StringComparer.Ordinal);
    private readonly Dictionary<string, FieldError> _faults = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (string Text, IReadOnlyList<decimal> Values)> _shown = new(StringComparer.Ordinal);
    private BenchKnown _known = new();

    public CalculatorForm(BenchCalculator calculator, ShopFormat format)
    {
        ArgumentNullException.ThrowIfNull(calculator);
        Calculator = calculator;
        Format = format;
        _boxes = calculator.Inputs.OfType<BenchNumber>().ToDictionary(i => i.Code, i => new NumberBox(i.Kind), StringComparer.Ordinal);
        Work();
    }

    public BenchCalculator Calculator { get; }

    public ShopFormat Format { get; }

    /// <summary>Null while a field is refused.</summary>
    public BenchAnswer? Answer { get; private set; }

    public FieldError? Fault(BenchInput input) => _faults.GetValueOrDefault(input.Code);

    /// <summary>Whether the field holds what the sump says; an example or what somebody typed is not the sump's.</summary>
    public bool IsOfSump(BenchInput input)
    {
        ArgumentNullException.ThrowIfNull(input);
        return _known.Values.TryGetValue(input.Code, out var known) && Typed(input).Numbers is { } numbers && numbers.SequenceEqual(known);
    }

    public string Text(BenchInput input) => _boxes.TryGetValue(input.Code, out var box) ? box.Text : _texts.GetValueOrDefault(input.Code, "");

    /// <summary>Fills every field: from the address; else, where the address says nothing, from the sump; else with usual values.</summary>
    public void Fill(IReadOnlyDictionary<string, string> address, BenchSump? sump)
    {
        ArgumentNullException.ThrowIfNull(address);
        _known = sump is null ? new BenchKnown() : Calculator.From(sump);
        var isNew = !Calculator.Inputs.Any(i => address.ContainsKey(i.Code));
        foreach (var input in Calculator.Inputs)
        {
            if (address.TryGetValue(input.Code, out var given))
            {
                Show(input, Split(given) ?? [], given);
            }
            else if (isNew && _known.Values.GetValueOrDefault(input.Code) is { } read)
            {
                Show(input, read);
            }
            else if (isNew && !(input.IsOptional && _known.Values.Count > 0))
            {
                Show(input, Usual(input), input is BenchChoice choice ? choice.Options[0].Code : "");
            }
            else
            {
                Show(input, []);
            }
        }

        Work();
    }

    public void Change(BenchInput input, string text)
    {
        ArgumentNullException.ThrowIfNull(input);
        if (_boxes.TryGetValue(input.Code, out var box))
        {
            box.Text = text;
        }
        else
        {
            _texts[input.Code] = text;
        }

        Work();
    }

    /// <summary>The fields as the address keeps them: canonical numbers, so that the link means the same to everyone.</summary>
    public IReadOnlyDictionary<string, string> Address => Typed()
        .Where(t => !t.Value.IsEmpty)
        .ToDictionary(t => t.Key, t => t.Value.Numbers is { } numbers ? string.Join(' ', numbers.Select(Plain)) : t.Value.Text, StringComparer.Ordinal);

    private static IReadOnlyList<decimal> Usual(BenchInput input) => input switch
    {
        BenchNumber { Usual: { } usual } => [usual],
        BenchSeries series => series.Usual,
        _ => [],
    };

    private static string Plain(decimal number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    // Null when a part is no number.
    private static List<decimal>? Split(string text, QuantityKind kind = QuantityKind.Number, UnitSystem units = UnitSystem.Metric)
    {
        var numbers = new List<decimal>();
        foreach (var part in text.Split(Separators, StringSplitOptions.RemoveEmptyEntries))
        {
            if (!QuantityInput.TryRead(part, kind, units, out var number))
            {
                return null;
            }

            numbers.Add(number);
        }

        return numbers;
    }

    // Left as it was shown, it means the kept numbers, however they were rounded for showing.
    private IReadOnlyList<decimal>? Read(BenchSeries series)
    {
        var text = Text(series);
        return _shown.TryGetValue(series.Code, out var shown) && shown.Values.Count > 0 && shown.Text == text ? shown.Values : Split(text, series.Kind, Format.Units);
    }

    private void Show(BenchInput input, IReadOnlyList<decimal> values, string text = "")
    {
        switch (input)
        {
            case BenchNumber number:
                _boxes[number.Code].Show(values.Count == 1 ? values[0] : null, Format);
                _boxes[number.Code].Text = values.Count == 1 ? _boxes[number.Code].Text : text;
                break;
            case BenchSeries series:
                _texts[series.Code] = values.Count > 0 ? string.Join(' ', values.Select(v => QuantityInput.Write(v, series.Kind, Format.Units, Format.Culture))) : text;
                _shown[series.Code] = (_texts[series.Code], values);
                break;
            default:
                _texts[input.Code] = text;
                break;
        }
    }

    private Dictionary<string, BenchTyped> Typed() => Calculator.Inputs.ToDictionary(i => i.Code, Typed, StringComparer.Ordinal);

    private BenchTyped Typed(BenchInput input) => input switch
    {
        BenchNumber number => new BenchTyped(_boxes[number.Code].Text, _boxes[number.Code].Value(Format.Units) is { } value ? [value] : null),
        BenchSeries series => new BenchTyped(Text(input), Read(series)),
        _ => new BenchTyped(Text(input), null),
    };

    private void Work()
    {
        _faults.Clear();
        Answer = null;
        Calculator.Run(Typed(), Format).Match<object?>(
            answer => Answer = answer,
            error =>
            {
                foreach (var fault in ((FieldErrors)error).Fields)
                {
                    _faults.TryAdd(fault.Field, fault);
                }

                return null;
            });
    }
}
