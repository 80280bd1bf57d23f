using ShopFluids.Core.Setup;
using ShopFluids.Rules;
using ShopFluids.Rules.Facts;
using ShopFluids.Testing.Databases;
using ShopFluids.Testing.Shop;
using Xunit;

namespace ShopFluids.Core.Tests.Setup;

/// <summary>The snapshot of the set-up: never older than the transaction that uses it, on any number of instances.</summary>
public sealed class SetupCacheTests
{
    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Theory, EachDatabase]
    public async Task CurrentAsync_ChangedByAnotherInstance_IsLoadedAnew(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var before = await other.SetupAsync();
        Assert.Same(before, await other.SetupAsync());

        await shop.SumpAsync(Some.Sump(Some.Id(), shop.AreaId, "S-08", "M-08"));

        var after = await other.SetupAsync();
        Assert.Null(before.FindSump("S-08"));
        Assert.NotNull(after.FindSump("s-08 "));
        Assert.True(after.Version > before.Version);
    }

    [Theory, EachDatabase]
    public async Task RecordAsync_LimitsChangedByAnotherInstance_JudgesByThem(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        Assert.Equal(Verdict.InRange, (await other.StoreAsync(Some.Reading(takenAt: Some.Start.AddMinutes(-1)))).Verdict);
        var band = new ParameterLimits(ParameterCodes.Concentration, LimitBasis.Value, null, 9, null, null, 11, null, EdgeIsBeyond: false, 0.2m);
        (await shop.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), shop.FluidId, null, Some.Start, [band]), Some.Supervisor, Stop)).Done();

        Assert.Equal(Verdict.Warning, (await other.StoreAsync(Some.Reading())).Verdict);
    }

    [Theory, EachDatabase]
    public async Task RecordAsync_DrainedByAnotherInstance_IsRefused(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        await other.StoreAsync(Some.Reading(takenAt: Some.Start.AddMinutes(-1)));
        (await shop.DrainAsync(Some.Start)).Done();

        Assert.IsType<Core.Readings.NoOpenCharge>((await other.RecordAsync(Some.Reading())).Refused());
    }

    // Each of the changes makes one version and one set of limits: a snapshot torn between them would count differently.
    [Theory, EachDatabase]
    public async Task CurrentAsync_WhileTheSetUpChanges_IsOfOneMoment(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        await using var other = shop.Another();
        var first = await shop.SetupAsync();
        var band = new ParameterLimits(ParameterCodes.Concentration, LimitBasis.Value, null, 7, null, null, 9, null, EdgeIsBeyond: false, 0.2m);
        var writing = Task.Run(async () =>
        {
            for (var n = 0; n < 60; n++)
            {
                (await other.Get<SetLimitsHandler>().HandleAsync(new SetLimits(Some.Id(), shop.FluidId, null, Some.Start.AddMilliseconds(n), [band]), Some.Supervisor, Stop)).Done();
            }
        }, Stop);

        do
        {
            var setup = await shop.SetupAsync();
            Assert.Equal(setup.Version - first.Version, setup.LimitSets.Count - first.LimitSets.Count);
        }
        while (!writing.IsCompleted);

        await writing;
    }

    // A plain reading changes no set-up: nobody has to load anything anew.
    [Theory, EachDatabase]
    public async Task CurrentAsync_AfterAReading_IsStillTheSame(TestDatabase database)
    {
        await using var shop = await ShopFixture.OpenAsync(database);
        var before = await shop.SetupAsync();

        await shop.StoreAsync(Some.Reading(brix: 4.0m));

        Assert.Same(before, await shop.SetupAsync());
    }
}
