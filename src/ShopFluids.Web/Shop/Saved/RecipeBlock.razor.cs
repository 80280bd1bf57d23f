using Microsoft.AspNetCore.Components;
using ShopFluids.Calculations.Mixing;
using ShopFluids.Core.Charges;
using ShopFluids.Core.Fluids;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Advice;

namespace ShopFluids.Web.Shop.Saved;

public partial class RecipeBlock
{
    // Amounts are kept to a millilitre.
    private const double SameAmountLitres = 0.001;

    [Parameter, EditorRequired] public required SavedView View { get; set; }

    private TopUpRecipe? Recipe => View.Page.Outcome.Recipe;

    private string Address => View.Visit.Links.Added(View.Tag, View.ReadingId);

    private LotChoice? Lot => Recipe is { ConcentrateLitres: > 0 } recipe ? View.Page.Lots.For(recipe.ConcentrateLitres) : null;

    private bool LotMissing => Recipe is { ConcentrateLitres: > 0 } && Lot is null;

    private bool IsBeingNoted => View.Faults.Count > 0 || View.Questions.Count > 0;

    private (double Litres, double Percent)? Reckoned => View.Page.IsCurrent && View.Page.Additions.Count > 0 && !View.Page.IsMovedOtherwise && !IsAsThen
        ? Recipe?.After(View.Page.Additions.Select(a => new HandledAmounts((double)a.RemovedLitres, (double)a.WaterLitres, (double)a.ConcentrateLitres)))
        : null;

    // Only whoever can do something about it is asked to.
    private string WhatNext(double litres, Verdict verdict, Direction direction) => !View.MayAct || verdict <= Verdict.InRange ? ""
        : IsOverTheMark(litres) ? View.Say(Texts.Saved_ReckonedOver, View.Visit.Format.Volume(litres - View.Page.FullMarkLitres))
        : direction == Direction.Low ? Texts.Saved_ReckonedWeak : Texts.Saved_ReckonedStrong;

    private (Verdict Verdict, Direction Direction) StandingAfter(double litres, double percent) => IsOverTheMark(litres) ? (Verdict.Warning, Direction.High) : Standing(percent);

    // As far as the recipe itself does not end there.
    private bool IsOverTheMark(double litres) => litres > Math.Max(View.Page.FullMarkLitres, Recipe?.ExpectedLitres ?? 0) + AdditionDoubts.SlightLitres;

    private (Verdict Verdict, Direction Direction) Standing(double expectedPercent)
    {
        var percent = decimal.Round((decimal)expectedPercent, 1, MidpointRounding.AwayFromZero);
        return View.Page.Target switch
        {
            null => (Verdict.NotMeasured, Direction.None),
            { ActionLow: { } low } when percent < low => (Verdict.Action, Direction.Low),
            { ActionHigh: { } high } when percent > high => (Verdict.Action, Direction.High),
            { WarningLow: { } low } when percent < low => (Verdict.Warning, Direction.Low),
            { WarningHigh: { } high } when percent > high => (Verdict.Warning, Direction.High),
            _ => (Verdict.InRange, Direction.None),
        };
    }

    // Where it leads holds for the recipe's own amounts: after others it is reckoned anew.
    private bool IsAsThen => View.Page.Additions.Count == 0 || (View.Page.Additions.Count == 1 && Recipe is { } recipe && View.Page.Additions[0] is var added
        && IsSame(added.WaterLitres, recipe.WaterLitres) && IsSame(added.ConcentrateLitres, recipe.ConcentrateLitres) && IsSame(added.RemovedLitres, recipe.RemoveLitres));

    private static bool IsSame(decimal poured, double asked) => Math.Abs((double)poured - asked) <= SameAmountLitres;

    private static bool NeedsAnswer(TopUpRecipe recipe) => recipe.WaterLitres + recipe.ConcentrateLitres + recipe.RemoveLitres > 0;

    // What was poured already is not asked for again.
    private string Heading(TopUpRecipe recipe) => View.Page.Additions.Count > 0 ? Texts.Saved_ToppedUp : recipe.Case switch
    {
        TopUpCase.NothingToAdd => Texts.Saved_NothingToAdd,
        TopUpCase.RemoveFirst => Texts.Saved_RemoveFirst,
        TopUpCase.SwapAtLevel => Texts.Saved_Swap,
        TopUpCase.NoRemovalPossible => Texts.Saved_Nearest,
        _ => Texts.Saved_TopUpNow,
    };

    private string? Fills(TopUpRecipe recipe) => recipe.WaterLitres + recipe.ConcentrateLitres <= 0 ? null
        : Math.Abs(recipe.ExpectedLitres - View.Page.FullMarkLitres) <= AdditionDoubts.SlightLitres ? View.Say(Texts.Saved_FillsToMark, View.Visit.Format.Volume(View.Page.FullMarkLitres))
        : View.Say(Texts.Saved_FillsTo, View.Visit.Format.Volume(recipe.ExpectedLitres));

    private string? How(TopUpRecipe recipe)
    {
        var sentences = new List<string>();
        switch (recipe.Case)
        {
            case TopUpCase.NothingToAdd:
                sentences.Add(Texts.Saved_NothingToAddText);
                if (View.Page.LevelLitres is { } level && level - View.Page.FullMarkLitres > AdditionDoubts.SlightLitres)
                {
                    sentences.Add(View.Say(Texts.Saved_OverTheMark, View.Visit.Format.Volume(level - View.Page.FullMarkLitres)));
                }

                break;
            case TopUpCase.TopUpEndsHigh:
                sentences.Add(View.Say(Texts.Saved_EndsHigh, View.Visit.Format.Percent(recipe.EndsHighByPercent)));
                break;
            case TopUpCase.NoRemovalPossible:
                sentences.Add(Texts.Saved_NoRemovalPossible);
                break;
        }

        if (recipe.RemoveForExactLitres is { } exact)
        {
            sentences.Add(View.Say(Texts.Saved_ForTarget, View.Visit.Format.Volume(exact)));
        }

        if (recipe.ConcentrateLitres > 0)
        {
            sentences.Insert(0, Texts.Saved_Stir);
        }
        else if (recipe.WaterLitres > 0)
        {
            sentences.Insert(0, Texts.Saved_PourWater);
        }

        return sentences.Count == 0 ? null : string.Join(' ', sentences);
    }

    private string NoRecipe => View.Page.Reasons.Any(f => CorrectiveWork.IsPastMending(f.Rule, f.Parameter, f.Direction, f.Severity)) ? Texts.Saved_NoRecipeDrain
        : View.Page.Outcome.Measurements.Any(m => m.Parameter is ParameterCodes.Concentration or ParameterCodes.Level) ? Texts.Saved_NoRecipeText : Texts.Saved_NoRecipeOfThis;

    private string AddedWords(SavedAddition added)
    {
        var amounts = View.Say(Texts.Saved_AddedAmounts, View.Visit.Format.Volume((double)added.WaterLitres), View.Visit.Format.Volume((double)added.ConcentrateLitres));
        var withLot = added.LotNumber is { } lot ? $"{amounts}, {Texts.Saved_Lot} {lot}" : amounts;
        return added.RemovedLitres > 0 ? View.Say(Texts.Saved_AfterTakingOut, withLot, View.Visit.Format.Volume((double)added.RemovedLitres)) : withLot;
    }
}
