using Microsoft.Extensions.DependencyInjection;
using ShopFluids.Core.Readings;
using ShopFluids.Core.Sheets;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Sheets;

public sealed class SumpLabelsQueryTests
{
    [Theory, EachDatabase]
    public async Task RunAsync_FilledSump_TellsWhatToAimForOnTheScale(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        var label = Assert.Single((await RunAsync(shop)).Labels);

        var setup = await shop.SetupAsync();
        var fluid = setup.Fluid(shop.FluidId);
        var zero = setup.Waters[0].ZeroBrix;
        Assert.Equal((Some.SumpTag, $"https://shop.example/{Some.SumpTag}", fluid.Name), (label.Tag, label.Code, label.Fluid));
        Assert.NotNull(label.Gauge);
        Assert.NotNull(label.Target);

        // The gauge's ends lead back to the target's: by the fluid's factor over what its water shows.
        var low = (label.Gauge.TargetLow - zero) * fluid.RefractometerFactor;
        Assert.StartsWith($"{low:0.0}", label.Target, StringComparison.Ordinal);
        Assert.StartsWith($"{label.Gauge.TargetLow:0.0} to ", label.Scale, StringComparison.Ordinal);
        Assert.Contains(" mm, ", label.FullMark, StringComparison.Ordinal);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_EmptySump_HasNoAim(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);
        (await shop.DrainAsync(shop.Now)).Done();

        var label = Assert.Single((await RunAsync(shop)).Labels);

        Assert.Null(label.Fluid);
        Assert.Null(label.Target);
        Assert.Null(label.Scale);
        Assert.Null(label.Gauge);
    }

    [Theory, EachDatabase]
    public async Task RunAsync_TagsInAnyCase_AreFoundAndUnknownOnesNamed(TestDatabase database)
    {
        await using var shop = await OpenAsync(database);

        Assert.Single((await RunAsync(shop, "s-07")).Labels);
        var unknown = await shop.Get<SumpLabelsQuery>().RunAsync(["S-07", "S-99"], tag => tag, TestContext.Current.CancellationToken);
        Assert.Equal(new SumpNotFound("S-99"), unknown.Error);
    }

    private static Task<ShopFixture> OpenAsync(TestDatabase database) => ShopFixture.OpenAsync(database, also: s => s.AddSingleton<SumpLabelsQuery>());

    private static async Task<SumpLabels> RunAsync(ShopFixture shop, params string[] tags) =>
        (await shop.Get<SumpLabelsQuery>().RunAsync(tags, tag => $"https://shop.example/{tag}", TestContext.Current.CancellationToken)).Done();
}
