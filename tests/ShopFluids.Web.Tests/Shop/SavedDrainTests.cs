using ShopFluids.Core.Wording;
using ShopFluids.Rules;
using ShopFluids.Rules.Findings;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Web.Tests.Shop;

/// <summary>The page after a reading whose fluid is to be drained.</summary>
public sealed class SavedDrainTests
{
    [Theory]
    [InlineData(3, true)]
    [InlineData(0, false)]
    public async Task Get_Smell_WarnsOfTheGasBesideTheVerdictAndPoursNothing(int odour, bool isRotten)
    {
        var address = "";
        await using var host = await ShopHost.OpenAsync(async shop =>
        {
            var outcome = await shop.StoreAsync(Some.ReadingOf(Some.Typed(ParameterCodes.Concentration, 5), Some.Typed(ParameterCodes.Level, 250), Some.Typed(ParameterCodes.Odour, odour)));
            address = $"/enter/S-07/saved/{outcome.ReadingId}";
        });

        var page = await host.GetAsync(address);

        var gas = Sentences.Caution(Caution.HydrogenSulphide, safetySheetPlace: null);
        Assert.Equal(isRotten ? 2 : 1, page.Text.Split(gas[..20]).Length);
        if (isRotten)
        {
            Assert.True(page.Text.IndexOf(gas[..20], StringComparison.Ordinal) < page.Text.IndexOf(Texts.Saved_NoRecipe, StringComparison.Ordinal));
        }

        Assert.Equal(isRotten, page.Text.Contains(Texts.Saved_NoRecipeDrain, StringComparison.Ordinal));
        Assert.Equal(!isRotten, page.Text.Contains(Texts.Saved_AddedAsAbove, StringComparison.Ordinal));
    }
}
