using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Wording;

namespace ShopFluids.Web.Shop.Saved;

/// <summary>What is asked about typed amounts before they are noted, in words.</summary>
internal static class AdditionQuestions
{
    public static IReadOnlyList<string> Of(SavedView view, AdditionForm.Amounts amounts)
    {
        var handled = new HandledAmounts((double)amounts.RemovedLitres, (double)amounts.WaterLitres, (double)amounts.ConcentrateLitres);
        var recipe = view.Page.Additions.Count == 0 ? view.Page.Outcome.Recipe : null;
        var (full, format) = (view.Page.FullMarkLitres, view.Visit.Format);
        return [.. AdditionDoubts.Of(handled, recipe, view.Page.HeldLitres, full, view.Visit.Setup.FindSump(view.Tag)?.Geometry.BrimLitres ?? double.MaxValue).Select(doubt => doubt switch
        {
            AdditionDoubt.NeatConcentrate => view.Say(Texts.Saved_AskNeat, format.Volume(handled.ConcentrateLitres)),
            AdditionDoubt.NothingTakenOut => view.Say(Texts.Saved_AskNothingTakenOut, format.Volume(recipe?.RemoveLitres ?? 0)),
            AdditionDoubt.OverTheMark => OverTheMark((view.Page.HeldLitres ?? 0) - handled.RemovedLitres + handled.WaterLitres + handled.ConcentrateLitres),
            _ => throw new ArgumentOutOfRangeException(nameof(amounts), doubt, "A doubt without words."),
        })];

        string OverTheMark(double litres) => view.Say(Texts.Saved_AskOverTheMark, format.Volume(litres), format.Volume(litres - full));
    }
}
