using ShopFluids.Core.Bench;
using ShopFluids.Core.Bench.Sumps;
using ShopFluids.Core.Wording;
using ShopFluids.Web.Components.Layout;

namespace ShopFluids.Web.Pages.Bench;

/// <summary>What the page of a calculator shows around its fields.</summary>
/// <param name="Form">Null when there is no such calculator.</param>
/// <param name="Origin">Where the numbers come from.</param>
/// <param name="SumpTag">Empty when none is filled in.</param>
public sealed record CalculatorView(CalculatorForm? Form, DeskWords Words, string Origin, string SumpTag, IReadOnlyList<string> SumpTags, string? SafetySheetPlace)
{
    /// <param name="tag">As the address names it; a sump that is not in use is said to be unknown.</param>
    public static CalculatorView Of(BenchCalculator? calculator, BenchSump? sump, string tag, IReadOnlyDictionary<string, string> address, DeskWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        CalculatorForm? form = null;
        if (calculator is not null)
        {
            form = new CalculatorForm(calculator, words.Format);
            form.Fill(address, sump);
        }

        return new CalculatorView(
            form,
            words,
            OriginOf(form, sump, tag, words),
            sump?.Tag ?? "",
            [.. words.Setup.Sumps.Where(s => !s.IsRetired).Select(s => s.Tag)],
            sump?.Fluid?.SafetySheetPlace);
    }

    private static string OriginOf(CalculatorForm? form, BenchSump? sump, string tag, DeskWords words) => (sump, tag) switch
    {
        (null, "") => Texts.Bench_OriginUsual,
        (null, _) => words.Format.Say(Texts.Bench_OriginUnknown, tag),
        _ when form is null || !form.Calculator.Inputs.Any(form.IsOfSump) => words.Format.Say(Texts.Bench_OriginNothing, sump.Tag),
        ({ LastReadAtUtc: { } readAt }, _) => words.Format.Say(Texts.Bench_OriginSump, sump.Tag, words.Format.DayAndTime(readAt)),
        _ => words.Format.Say(Texts.Bench_OriginUnread, sump.Tag),
    };
}
